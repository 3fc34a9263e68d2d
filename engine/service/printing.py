"""Pages that are pressed, on their way to the printer; and written again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from engine.ganging.results import SheetReport
from engine.model import Sheet
from engine.model.errors import PrinterError, RefusedError
from engine.model.waiting import Cancel
from engine.press import printers as cups
from engine.press.printers import Printer
from engine.service.pages import Pages
from engine.service.session import Session

TO_CHECK = (
    "In the print dialog set 100 % (actual size, not fitted to the page) and the paper's size and "
    "type as on the sheet."
)
"""What to set where the file is printed from a viewer."""


class Printing:
    """What happens to a page after it is pressed."""

    def __init__(self, session: Session, pages: Pages) -> None:
        """Work in ``session``; have ``pages`` draw what is written again."""
        self._session = session
        self._pages = pages

    def again(self, numbers: Sequence[int]) -> tuple[SheetReport, ...]:
        """Write the pages of pressed sheets again, the very same, or none of them.

        Raises InputError for a sheet that is withdrawn or not there, RefusedError where a page
        would be another now, ReadOnlyError, or CollectionError where one cannot be written.
        """
        with self._session.lock:
            self._session.must_write()
            sheets = [self._session.snapshot.sheet(number) for number in numbers]
            pages = [self._pages.again(sheet) for sheet in sheets]
            for sheet, page in zip(sheets, pages, strict=True):
                self._write(sheet, page)
            return tuple(map(self._pages.report, sheets))

    def _write(self, sheet: Sheet, page: bytes) -> None:
        """Write the page of a sheet, and what the machine that cuts it is told."""
        collection = self._session.collection
        collection.write_sheet(sheet.number, page)
        if sheet.machine != "none":
            cuts = self._pages.machine_file(sheet)
            collection.write_machine_file(sheet.number, sheet.machine, cuts)

    def printers(self) -> tuple[Printer, ...]:
        """Return the printers of this machine and how they are. Raises PrinterError."""
        return cups.printers()

    def offered(self) -> tuple[Printer, ...]:
        """Return the printers to choose from; none where the print system is not to be had."""
        try:
            return cups.printers()
        except PrinterError:
            return ()

    def send(
        self,
        numbers: Sequence[int],
        printer: str,
        tray: str = "",
        tell: Callable[[str], None] = lambda _: None,
        cancel: Cancel | None = None,
    ) -> tuple[str, ...]:
        """Print pressed sheets one after the other, each followed to its end; return the jobs.

        ``tell`` is told of each job and of what the printer says. Raises InputError, RefusedError
        for a page that is gone, PrinterError, or Cancelled when ``cancel`` says so:
        the job that is at the printer goes on then, the others are not sent.
        """
        jobs = []
        for sheet in [self._session.snapshot.sheet(number) for number in numbers]:
            path, title = self._to_print(sheet), f"Sheet {sheet.number}"
            job = cups.send(path, title, printer, sheet.forme.stock, tray, sheet.reverse)
            jobs.append(job)
            tell(f"{title} is at {printer} as {job}.")
            cups.follow(job, printer, tell, cancel)
            tell(f"{title} is printed.")
        return tuple(jobs)

    def show(self, number: int) -> str:
        """Open the page of a sheet in the system's viewer; return what to set there.

        Raises InputError, RefusedError or PrinterError.
        """
        cups.show(self._to_print(self._session.snapshot.sheet(number)))
        return TO_CHECK

    def _to_print(self, sheet: Sheet) -> Path:
        path = self._session.collection.sheet_path(sheet.number)
        if not path.is_file():
            again = f"Write it again with spinery press --again {sheet.number}"
            raise RefusedError(f"sheet {sheet.number}", "its page is gone", again)
        return path

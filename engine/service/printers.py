"""What printers do to pages: check pages, what was measured on them, and what is undone."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import msgspec

from engine import press
from engine.collection import write_out
from engine.model import Forme, Size, Stock, Value
from engine.model.calibration import Calibration
from engine.model.errors import InputError, RefusedError
from engine.model.naming import Of, known
from engine.model.settings import Settings
from engine.press import CheckFigures
from engine.service.session import Session
from engine.service.setup import Setup

CHECKED, CHECKED_ON_BACK = press.SAID, press.OF_BACK
"""What is measured on a check page, in words by figure, and which of it only a back has."""

__all__ = ["CHECKED", "CHECKED_ON_BACK", "CheckFigures", "CheckReport", "Printers"]


class CheckReport(Value, frozen=True):
    """A printer and a stock: the check page, and what was measured on one."""

    printer: str
    """As the settings name it; empty for the only one."""
    stock: str
    """The id of the paper."""
    paper: Size
    true: CheckFigures = msgspec.field(name="to_be")
    """What would be measured if the printer were true."""
    calibration: Calibration | None
    """What was measured, and is undone on every page; None where nothing was."""
    file: str | None = None
    """Where the check page was written."""


class Printers:
    """Check pages and calibrations, each for a printer and a stock."""

    def __init__(self, session: Session, setup: Setup) -> None:
        """Work in ``session``."""
        self._session = session
        self._setup = setup

    def report(self, stock: str = "", printer: str | None = None) -> CheckReport:
        """Return what is known of a printer on a stock: by default those in use.

        Raises InputError for a stock that is not there or is too small for a check page.
        """
        settings = self._session.snapshot.settings
        paper = self._paper(stock)
        return CheckReport(
            printer=settings.printer if printer is None else printer,
            stock=paper.id,
            paper=Size(paper.width, paper.height),
            true=press.check_lines(Forme(paper)).figures,
            calibration=settings.calibration_on(paper.id, printer),
        )

    def check_page(
        self,
        stock: str = "",
        printer: str | None = None,
        path: Path | None = None,
        *,
        duplex: bool = False,
        corrected: bool = False,
        replace: bool = False,
    ) -> CheckReport:
        """Write the check page of a stock, by default among the sheets.

        It comes as the printer prints it, to be measured, or ``corrected``, to see that all is
        true. Raises InputError, RefusedError where there is nothing to correct by,
        CollectionError where it cannot be written.
        """
        report, paper = self.report(stock, printer), self._paper(stock)
        if path is None:
            self._session.must_write("Give a file outside it")
        elif path.suffix.lower() != ".pdf":
            raise InputError(str(path), "a check page is a PDF", "Let the name end in .pdf")
        if corrected:
            self._must_be_measured(report)
        calibration = report.calibration if corrected else None
        page = press.check_page(Forme(paper), report.printer, calibration, duplex=duplex)
        if path is None:
            path = self._session.collection.keep_check_page(paper.id, page)
        else:
            write_out(path, page, replace=replace)
        return msgspec.structs.replace(report, file=str(path))

    def doubts(self, figures: CheckFigures, stock: str = "") -> Mapping[str, str]:
        """Return what is implausible of what was measured on a stock: a sentence by figure."""
        return dict(press.doubts(figures, press.check_lines(Forme(self._paper(stock)))))

    def measured(
        self,
        figures: CheckFigures,
        stock: str = "",
        printer: str | None = None,
        *,
        anyway: bool = False,
    ) -> CheckReport:
        """Keep what was measured on a check page: it is undone on every page from now on.

        Raises InputError for figures that are doubted, unless they are taken ``anyway``, and
        for those that no page can have.
        """
        doubted = self.doubts(figures, stock)
        if doubted and not anyway:
            name, what = next(iter(doubted.items()))
            mend = "Or add --anyway to keep the figures as they are"
            raise InputError(name.replace("_", "-"), what.removesuffix("."), mend)
        with self._session.change():
            report, paper = self.report(stock, printer), self._paper(stock)
            found = press.calibrated(
                figures,
                press.check_lines(Forme(paper)),
                paper.width,
                (report.printer, paper.id, self._session.now()),
            )
            self._keep(report, found, f"measured the printer on {paper.name}")
            return msgspec.structs.replace(report, calibration=found)

    def forget(self, stock: str = "", printer: str | None = None) -> CheckReport:
        """Undo nothing any more of a printer on a stock. Raises RefusedError, InputError."""
        with self._session.change():
            report, paper = self.report(stock, printer), self._paper(stock)
            self._must_be_measured(report)
            self._keep(report, None, f"forgot what was measured on {paper.name}")
            return msgspec.structs.replace(report, calibration=None)

    def _keep(self, report: CheckReport, found: Calibration | None, words: str) -> None:
        settings: Settings = self._session.snapshot.settings
        place = (report.printer, report.stock)
        others = [c for c in settings.calibrations if (c.printer, c.stock) != place]
        kept = tuple([*others, found] if found else others)
        self._session.keep(words, settings=msgspec.structs.replace(settings, calibrations=kept))

    def _must_be_measured(self, report: CheckReport) -> None:
        if report.calibration is None:
            raise RefusedError(
                report.printer or "the printer",
                f"nothing was measured on {report.stock}",
                "Print the check page and type what you measure",
            )

    def _paper(self, said: str) -> Stock:
        """Return a stock by its id or name, or the one in use. Raises InputError."""
        settings = self._session.snapshot.settings
        wanted = known(Of.STOCK, said, self._setup.there()) if said else settings.stock.id
        return settings.paper(wanted) or settings.stock

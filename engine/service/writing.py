"""The files of a pressing: pages and backs, scores and cuts, what a machine is told, the job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from engine import artwork, press
from engine.collection import NewFiles
from engine.model import Design, Machine, Reverse, Sheet
from engine.model.waiting import Cancel, go_on
from engine.service.pages import Pages


class Wanted(NamedTuple):
    """What is written of each sheet that is pressed, beside its page."""

    cut_page: bool
    job: bool
    reverse: Reverse
    machine: Machine


def written(
    files: NewFiles,
    pages: Pages,
    sheets: Sequence[Sheet],
    designs: Mapping[str, Design],
    wanted: Wanted,
    cancel: Cancel | None,
) -> tuple[list[Sheet], list[str], tuple[str, ...]]:
    """Write the files of sheets; return the sheets as printed, and the ticket of the job.

    Between them, those whose cut order is on a page beside: 'sheet 3'. ``designs`` are by
    fingerprint. Raises what drawing raises, CollectionError, or Cancelled when ``cancel`` says so.
    """
    stock, title = sheets[0].forme.stock, press.title_of(sheets)
    ticket = pages.ticket(list(sheets), designs) if wanted.job else ()
    job = press.PdfDocument(title) if wanted.job else None
    if job is not None:
        press.draw_ticket(job, title, ticket, stock)
        if wanted.reverse != "none" and job.pages % 2:
            # Printed on both sides, the first sheet is not to lie behind the ticket.
            press.empty_page(job, stock)
    printed: list[Sheet] = []
    beside: list[str] = []
    art = (pages.art(sheet, designs) for sheet in sheets)
    for sheet, _ in zip(sheets, artwork.ahead(art, cancel), strict=True):
        go_on(cancel)
        page, numbered, done = pages.draw(sheet, designs, job)
        printed.append(done)
        files.sheet_page(sheet.number, page)
        if sheet.machine != "none":
            files.machine_file(sheet.number, sheet.machine, pages.machine_file(done))
        if wanted.cut_page or not numbered:
            files.cut_page(sheet.number, pages.cut_page(sheet, designs))
            beside.append(f"sheet {sheet.number}")
    if job is not None:
        files.job_page(sheets[0].number, sheets[-1].number, job.finish())
    return printed, beside, ticket

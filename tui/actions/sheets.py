"""The Sheets: pressing, cutting, settling."""

from __future__ import annotations

from tui.act import SHEETS, Act

_SHEETS = (SHEETS,)

SHEETS_ACTIONS: tuple[Act, ...] = (
    Act(
        "press",
        "p",
        "Press",
        "Write the PDF of every full sheet.",
        _SHEETS,
        changes=True,
        leads=_SHEETS,
    ),
    Act(
        "press_part",
        "P",
        "Press part-full",
        "Write all that waits, full or not: see how much paper stays empty and choose what "
        "fills it.",
        _SHEETS,
        changes=True,
        leads=_SHEETS,
    ),
    Act(
        "cut_pages",
        "ampersand",
        "Cut pages",
        "Write each sheet's scores and cuts on a page too when it is pressed, or no longer.",
        _SHEETS,
    ),
    Act(
        "job",
        "percent_sign",
        "Job",
        "Write one file of all sheets behind a job ticket too when they are pressed, or no longer.",
        _SHEETS,
    ),
    Act(
        "print",
        "O",
        "Print",
        "Print the pressed sheet at 100 %: choose a printer, or open its page in the viewer.",
        _SHEETS,
        leads=_SHEETS,
    ),
    Act(
        "last_insert",
        "left",
        "Back",
        "Go to the insert before on this sheet, or to the step before of its cutting.",
        _SHEETS,
        group="Walk",
    ),
    Act(
        "next_insert",
        "right",
        "On",
        "Go to the next insert on this sheet, or to the next step of its cutting.",
        _SHEETS,
        group="Walk",
    ),
    Act(
        "cuts",
        "number_sign",
        "Cuts",
        "Show how the sheet is scored and cut, step by step, or its inserts again.",
        _SHEETS,
        leads=_SHEETS,
    ),
    Act(
        "keep_offcut",
        "asterisk",
        "Keep offcut",
        "Keep the offcut of a settled sheet as a sheet of its own, or let it go.",
        _SHEETS,
        changes=True,
        leads=_SHEETS,
    ),
    Act(
        "every_settled",
        "full_stop",
        "Settled",
        "Show all settled sheets with inserts to fit or offcuts, or only the latest again.",
        _SHEETS,
    ),
    Act(
        "check",
        "enter",
        "Check off",
        "Check off the insert of a pressed sheet as it is marked, or the step of its cutting, and "
        "go to the next; after the last insert, settle.",
        _SHEETS,
        leads=_SHEETS,
    ),
    Act(
        "spoil",
        "x",
        "Spoiled",
        "Mark the insert of a pressed sheet as spoiled, or as good again.",
        _SHEETS,
        changes=True,
        leads=_SHEETS,
    ),
    Act(
        "settle",
        "s",
        "Settle",
        "Settle the pressed sheet: good inserts are printed, spoiled ones wait again.",
        _SHEETS,
        changes=True,
        leads=_SHEETS,
    ),
    Act(
        "fitting",
        "F",
        "Fit",
        "List what goes into its case of a settled sheet, with how and what to mind, and note each "
        "that is in.",
        _SHEETS,
        leads=_SHEETS,
    ),
    Act(
        "withdraw",
        "w",
        "Withdraw",
        "Withdraw the pressed sheet: all its inserts wait again.",
        _SHEETS,
        changes=True,
    ),
)

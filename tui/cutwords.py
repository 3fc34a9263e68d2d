"""The cut order in lines, for the command line and the screen."""

from __future__ import annotations

from engine import CutsReport


def cut_lines(report: CutsReport) -> list[str]:
    """Return each cut with its number, then what to mind."""
    cuts = [
        f"{cut.number:>3}  {words}" for cut, words in zip(report.cuts, report.words, strict=True)
    ]
    return [*cuts, *report.notes]


def cuts_summary(report: CutsReport) -> str:
    """Return '16 cuts, 6 settings, 1 turn'; what cannot be cut so has none."""
    if not report.cuts:
        return "no order of cuts from edge to edge"
    parts = ((len(report.cuts), "cut"), (report.settings, "setting"), (report.turns, "turn"))
    return ", ".join(f"{n} {thing}" if n == 1 else f"{n} {thing}s" for n, thing in parts)

"""What the work still takes, told while the work goes on."""

from __future__ import annotations

from engine import Workshop


def test_it_is_told_of_the_collection_as_it_was_when_asked(stocked: Workshop) -> None:
    gone = [game.id for game in stocked.games.lines()]

    def meanwhile() -> bool:
        if gone:
            stocked.games.delete([gone.pop()])
        return False

    report = stocked.supplies.report(12, cancel=meanwhile)
    assert report.ink is not None
    assert (report.games, report.inserts, report.ink.measured, report.pace.left) == (12,) * 4
    assert stocked.progress().games < 12

"""Reading goes on beside the work: kept as it comes, taken up again, passed over by undo."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from engine import Workshop, open_workshop, reading
from engine.model import Reading, TextLine
from engine.model.errors import PictureError
from engine.model.waiting import Cancel, Cancelled, go_on
from tests.conftest import Clock

READ = Reading(lines=(TextLine("Lantern Bay", 0.1, 0.1, 0.9, 0.2),), across=(1000,), down=(1000,))


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the reader was asked for. It is not run: tests/reading does that."""
    names: list[str] = []

    def read_all(
        paths: Mapping[str, Path], cancel: Cancel | None = None
    ) -> Iterator[tuple[str, Reading | PictureError]]:
        for name, path in paths.items():
            go_on(cancel)
            assert path.is_file()
            names.append(name)
            yield name, READ if len(names) != 3 else PictureError(name, "cannot be read: no")

    monkeypatch.setattr(reading, "read_all", read_all)
    monkeypatch.setattr(reading, "can_read", lambda: True)
    return names


def read(shop: Workshop) -> list[Reading | None]:
    return [picture.reading for picture in shop._session.snapshot.pictures.values()]


def test_all_pictures_are_read_those_of_the_batch_first(
    stocked: Workshop, asked: list[str]
) -> None:
    last = stocked.games.lines()[-1].id
    stocked.batch.work_on([last])
    report = stocked.readings.read()
    assert (report.pictures, report.read) == (12, 12)
    assert len(asked) == len(set(asked)) == 12
    proposal = stocked.designs.proposal(last)
    assert asked[0] == proposal.design.art.picture
    assert report.notes == ("Lantern_Bay_2 (Rev 1).png: cannot be read: no.",)
    assert [one for one in read(stocked) if one and one.failed] == [Reading(failed=True)]


def test_what_was_read_is_not_read_again(stocked: Workshop, asked: list[str]) -> None:
    stocked.readings.read()
    stocked.readings.read()
    assert len(asked) == 12


def test_what_was_read_is_no_change_that_undo_takes_back(
    stocked: Workshop, asked: list[str]
) -> None:
    first = stocked.games.lines()[0]
    stocked.designs.accept([first.id])
    stocked.readings.read()
    assert stocked.undo() == "matched Lantern Bay 2 and 9 more by what covers say"
    assert stocked.undo() == f"accepted {first.title}"
    assert None not in read(stocked)


def test_a_cover_that_says_another_game_is_doubted(stocked: Workshop, asked: list[str]) -> None:
    snapshot = stocked._session.snapshot
    before = {key: game.match for key, game in snapshot.games.items()}
    report = stocked.readings.read()  # every cover says Lantern Bay, which no game is called
    games = stocked._session.snapshot.games
    assert report.found == sum(game.match != before[key] for key, game in games.items())
    stocked.undo()
    assert {k: g.match for k, g in stocked._session.snapshot.games.items()} == before


def test_what_was_read_before_it_was_stopped_is_kept(
    stocked: Workshop, asked: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("engine.service.reading.SECONDS", 0.0)
    with pytest.raises(Cancelled):
        stocked.readings.read(cancel=lambda: len(asked) == 5)
    stocked.close()
    again = open_workshop(tmp_path / "shelf", Clock())
    assert again.readings.report().read == 5
    again.readings.read()
    assert (again.readings.report().read, len(asked)) == (12, 12)
    again.close()


def test_how_far_it_has_come_is_told(
    stocked: Workshop, asked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("engine.service.reading.SECONDS", 0.0)
    heard: list[int] = []
    stocked.readings.read(lambda report: heard.append(report.read))
    assert heard == list(range(1, 13))


def test_without_a_reader_it_says_so(stocked: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "can_read", lambda: False)
    report = stocked.readings.read()
    assert (report.can_read, report.read) == (False, 0)


def test_proposals_of_what_was_read_are_made_anew(stocked: Workshop, asked: list[str]) -> None:
    before = {line.id: stocked.designs.proposal(line.id) for line in stocked.games.lines()}
    stocked.readings.read()
    snapshot = stocked._session.snapshot
    assert all(snapshot.proposal(key) is not one for key, one in before.items())
    assert snapshot.proposer._pictures == snapshot.pictures

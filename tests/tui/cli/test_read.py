"""Reading covers as pictures are taken in, and taken up again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from engine import reading
from engine.model import Reading
from engine.model.waiting import Cancel
from tests.tui.conftest import Said
from tui.cli.answers import NOTHING, STOPPED_WORDS
from tui.cli.dispatch import run
from tui.ending import STOPPED


@pytest.fixture
def reader(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """A reader that Control-C stops after five pictures, once."""
    asked: list[str] = []

    def read_all(
        paths: Mapping[str, Path], cancel: Cancel | None = None
    ) -> Iterator[tuple[str, Reading]]:
        for name in paths:
            if len(asked) == 5:
                asked.append("stopped")
                raise KeyboardInterrupt
            asked.append(name)
            yield name, Reading()

    monkeypatch.setattr(reading, "read_all", read_all)
    monkeypatch.setattr(reading, "can_read", lambda: True)
    return asked


def test_it_is_taken_up_where_it_was_stopped(
    say: Said, reader: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["read", "--collection", str(say.folder)]) == STOPPED
    assert STOPPED_WORDS in capsys.readouterr().err
    told = say.json("read")
    assert (told["pictures"], told["read"]) == (12, 12)
    assert len(reader) == 13, "no picture is read twice"
    assert "12 of 12 pictures read." in say("read", code=NOTHING)


def test_intake_reads_and_goes_on_where_reading_was_stopped(
    reader: list[str], delivery: tuple[Path, Path], tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    listed, covers = map(str, delivery)
    asked = ["intake", listed, "--pictures", covers, "--collection", str(tmp_path / "new")]
    assert run([*asked, "--no-reading"]) == 0
    assert reader == []
    assert "read" not in capsys.readouterr().out
    assert run(asked) == STOPPED
    assert run(asked) == 0
    out, err = capsys.readouterr()
    assert "12 of 12 pictures read." in out
    assert "Read 12 of 12 pictures." in err, "plain lines where no terminal shows a bar"


def test_where_nothing_reads_one_sentence_says_so(
    delivery: tuple[Path, Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    listed, covers = map(str, delivery)
    asked = ["intake", listed, "--pictures", covers, "--collection", str(tmp_path / "new")]
    assert run(asked) == 0
    out = capsys.readouterr().out
    assert out.count("pip install 'spinery[reading]'") == 1
    assert "12 games added." in out


def test_sides(say: Said) -> None:
    told = say("sides", "lantern-bay-1")
    assert "front      Lantern_Bay_1 (Rev 1).png, 98% sure" in told
    told = say("sides", "lantern-bay-1", "--give", "back=Lantern_Bay_2 (Rev 1).png")
    assert "back       Lantern_Bay_2 (Rev 1).png, 100% sure" in told
    told = say("sides", "lantern-bay-1", "--show", "back=none")
    assert "on back: no picture, chosen" in told
    assert "is no side of a game" in say("sides", "lantern-bay-1", "--give", "lid=x.png", code=2)

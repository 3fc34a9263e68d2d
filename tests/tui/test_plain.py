"""The main job by typed lines alone: nothing is drawn, moved or coloured."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from io import BytesIO, TextIOWrapper
from pathlib import Path

import pytest

from engine import open_workshop
from engine.model import Stage
from tests.tui.shelf import Shelf
from tui.cli import COMMANDS
from tui.cli.dispatch import run
from tui.plain.desk import WORDS, Desk

Typed = Callable[..., str]


@pytest.fixture
def typed(
    stages: Shelf,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Typed:
    """Type lines on a collection as it stands at a stage; return what is told, by the prompt."""

    def type_lines(stage: str, *lines: str) -> str:
        folder = stages.copy(stage, tmp_path / "harbour-street")
        left = iter(lines)

        def read(prompt: str = "") -> str:
            print(prompt, end="")
            try:
                return next(left)
            except StopIteration:
                raise EOFError from None

        monkeypatch.setattr("builtins.input", read)
        assert run(["--plain", str(folder)]) == 0
        read_back = capsys.readouterr()
        return read_back.out + read_back.err

    return type_lines


def counts(folder: Path) -> dict[Stage, int]:
    with closing(open_workshop(folder)) as shop:
        return {stage: number for stage, number in shop.progress().stages.items() if number}


def test_games_are_decided_printed_and_fitted(typed: Typed, tmp_path: Path) -> None:
    said = typed("listed", "next", "accept", "sure", "press", "settle 1", "game lantern bay", "fit")
    assert "Game 1 of 6: Lantern Bay. Listed, sure." in said
    assert "Art, proposed: " in said
    assert "the picture lantern_bay.png" in said
    assert "Accepted." in said
    assert "5 games accepted, 0 in doubt." in said
    assert "All games of the batch are decided." in said
    assert "Sheet 1: " in said
    assert counts(tmp_path / "harbour-street")[Stage.FITTED] == 1
    assert "\x1b" not in said, "no control sequence"
    assert said.endswith("> Everything is saved.\n")


def test_each_decision_is_changed_and_told(typed: Typed) -> None:
    said = typed(
        "batch",
        *("art", "colour #336699", "title Lantern / Bay", "plain", "pictures glass", "picture 1"),
        *("case soft-cassette", "reopen", "reword", "case", "colour"),
    )
    for line in (
        "Art, accepted: ",
        "Colour, accepted: #336699, white letters",
        "accepted: Lantern / Bay, ",
        "Art, accepted: plain, no picture.",
        "1: glass_bay.png",
        "the picture glass_bay.png",
        "Case, accepted: Soft cassette case, one-piece wrap.",
        "Case, proposed: Clear snap shell, standard handheld cartridge.",
        "keep-case: Keep case, wrap",
    ):
        assert line in said


def test_the_person_goes_to_and_fro(typed: Typed, tmp_path: Path) -> None:
    said = typed("batch", "skip", "back", "again", "back", "drop", "undo", "redo")
    assert said.count("Game 1 of 6: Lantern Bay.") == 3
    assert "This is the first game of the batch. skip goes on." in said
    assert "Dropped from the batch.\nGame 1 of 5: Harbour Bay." in said
    assert "Taken back: changed the batch." in said
    assert "batch: 5 games \u2192 6 games" in said


@pytest.mark.parametrize(
    ("line", "complaint"),
    [
        ("acept", "acept: no such word. help lists them."),
        ("", "Type a word, such as accept or skip"),
        ("game nobody", "nobody: no such game"),
        ("case nosuch", "nosuch: no such case kind"),
        ("colour blue-ish", "blue-ish"),
        ("picture 3", "3: is no number of the list"),
        ("title", "title: nothing is said"),
        ("fit", "Lantern Bay: not printed as designed"),
        ("settle 9", "sheet 9"),
        ("settle", "the following arguments are required: SHEET"),
    ],
)
def test_what_cannot_be_is_said_and_the_work_goes_on(
    typed: Typed, line: str, complaint: str
) -> None:
    said = typed("batch", line, "again")
    assert complaint in said
    assert said.count("Game 1 of 6: Lantern Bay.") == 2


def test_every_word_and_command_is_in_the_help(typed: Typed) -> None:
    said = typed("empty", "help", "accept")
    for word in WORDS:
        takes = WORDS[word] and f" {WORDS[word]}"
        assert f"{word}{takes}: {getattr(Desk, f'do_{word}').__doc__}" in said
    for name in COMMANDS.keys() - {"demo"}:
        assert f"\n{name}: " in said
    assert "There is no game to do that to. next brings a batch." in said


def test_what_the_output_cannot_take_is_told_as_an_escape(
    stages: Shelf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing in a title fails for the encoding, nor acts on the terminal."""
    folder = stages.copy("listed", tmp_path / "harbour-street")
    with closing(open_workshop(folder)) as shop:
        shop.games.add(title="Caf\u00e9 \u2192 Bay")
    out = TextIOWrapper(BytesIO(), encoding="ascii")
    monkeypatch.setattr("sys.stdout", out)
    left = iter(["game caf\u00e9", "quit"])
    monkeypatch.setattr("builtins.input", lambda _: next(left))
    assert run(["--plain", str(folder)]) == 0
    out.seek(0)
    assert r"Caf\u00e9 \u2192 Bay" in out.read()


def test_a_folder_may_be_called_as_a_command_is(
    stages: Shelf,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    stages.copy("empty", tmp_path / "index")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("builtins.input", lambda _: "quit")
    assert run(["--plain", "index"]) == 0
    assert "Everything is saved." in capsys.readouterr().out

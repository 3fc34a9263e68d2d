"""The main job by typed lines alone: nothing is drawn, moved or coloured."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from io import BytesIO, TextIOWrapper
from pathlib import Path

import pytest

from engine import open_workshop
from engine.model import Stage
from tests.conftest import draw_cover
from tests.tui.shelf import Shelf
from tui.actions import BY_ID
from tui.cli import NAMES
from tui.cli.dispatch import ELSEWHERE, parser, run
from tui.plain.commands import PlainParser
from tui.plain.vocabulary import WORDS
from tui.words import MENDS

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
        "Colour, accepted: blue, #336699, white letters",
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
    assert "batch: 5 games, now 6 games" in said


TYPED = {
    "pace": "progress",
    "press": "press",
    "press_part": "press --part-full --fillers",
    "cut_pages": "press --cut-page",
    "job": "press --job",
    "keep_offcut": "offcuts 1 --keep 1",
    "withdraw": "withdraw 1",
    "next_clash": "shelf",
    "what_if": "shelf --what-if order=colour",
    "arrange": "setup --order colour",
    "dividers": "setup --dividers",
    "file_under": "shelf --file lantern-bay=Bay",
    "move_back": "shelf --move lantern-bay=-1",
    "move_on": "shelf --move lantern-bay=1",
    "new_case": "cases new",
    "trial": "cases snap-shell --trial --out trial.pdf",
    "correct": "cases snap-shell --correct long.width=+0.5",
    "far_titles": "titles",
    "papers": "papers",
    "check_page": "check-page --measured",
    "health": "check",
    "where": "where bay",
    "room": "room Top --size 800x220x180",
    "labels": "dividers --add",
    "supplies": "supplies",
    "ink_use": "ink",
    "index_file": "index --out index.pdf",
    "shelf_file": "shelf --out shelf.png",
    "shelf": "shelf",
    "proof_file": "proof lantern-bay --out proof.png",
    "net_file": "cases snap-shell --out net.svg",
    "export": "export out",
    "undo": "undo",
    "redo": "redo",
    "history": "history --to 1",
    "read": "read",
    "declare": "declare fitted lantern-bay",
}
"""The commands that do what is no word's."""

SEEN = {"folded", "zoom", "farther", "closer", "theme", "other_list", "choose", "leave"}
"""Actions on what only an eye takes in, and the keys of dialogs."""

BY_A_KEY = {"stop"}
"""Control-C."""


def test_all_that_the_screens_can_do_is_typed() -> None:
    words = {act for word in WORDS.values() for act in word.acts}
    assert words.isdisjoint(TYPED)
    assert words | TYPED.keys() | SEEN | BY_A_KEY == BY_ID.keys()
    whole = parser(kind=PlainParser)
    for line in TYPED.values():
        whole.parse_args(line.split())
    for act in MENDS.values():
        assert act in WORDS[BY_ID[act].label.lower()].acts, "clashes name the word"


def test_art_is_moved_trimmed_and_straightened_in_words(typed: Typed) -> None:
    said = typed(
        "batch",
        *("art", "crop left", "crop down 20", "trim top 2", "trim top -1", "turn left 1.5"),
        *("split", "spine begins 1", "split", "matte", "inkmode", "details", "pattern", "undo"),
    )
    for line in (
        "Crop: about 40% across, 50% down.",
        "Crop: about 40% across, 70% down.",
        "Trim: top 2.0%.",
        "Trim: top 1.0%.",
        "Turn: 1.50\u00b0.",
        "Split: spine 48.5% to 52.5%.",
        "Split: whole.",
        "Matte: base colour.",
        "Ink: greys.",
        "Pattern: ",
    ):
        assert line in said
    assert "Taken back: changed Lantern Bay." in said


def test_games_are_found_marked_and_done_together(typed: Typed, tmp_path: Path) -> None:
    said = typed(
        "batch",
        *("find bay", "only maker quayworks", "list", "mark 1 to 2", "find", "sort title", "list"),
        *("more", "mark all", "unmark 2 4", "unmark all", "mark 3", "mark 1", "unmark 3"),
        *("marked", "marked title x", "marked declare not-wanted", "no"),
        *("marked case keep-case", "yes", "marked declare fitted", "yes", "marked delete", "oh"),
    )
    assert "6 games with the words bay, as listed. list tells them." in said
    assert "2 games maker Quayworks, with the words bay, as listed." in said
    assert "1: Harbour Bay, listed, sure, snap-shell, in the batch." in said
    assert "2 games marked." in said
    assert "14 games by title. list tells them." in said
    assert "5 games left: more tells them." in said
    assert "14 games marked." in said
    assert "12 games marked." in said
    assert "> Ember Reef\n1 game marked." in said
    assert "title: is not for several games." in said
    assert "Declare: 1 game marked.\n" in said
    assert said.count("Left as it is.") == 2
    assert "Done for 1 game." in said
    assert "oh: no such word." in said
    assert counts(tmp_path / "harbour-street") == {Stage.LISTED: 13, Stage.FITTED: 1}


def test_a_sheet_is_settled_cut_and_fitted_in_words(typed: Typed, tmp_path: Path) -> None:
    said = typed(
        "pressed",
        *("sheet 1", "good", "spoiled", "insert 2", "good", "spoiled", *["good"] * 3, "yes"),
        *("cuts 1", "step", "step back", "step 99", "fitting", "fitting 1", "later", "fitted"),
        *("fitted", "undo"),
    )
    assert "Insert 1 of 6: Lantern Bay, snap-shell. good or spoiled?" in said
    assert "Insert 2 of 6: Tin Bay, snap-shell, found spoiled. good or spoiled?" in said
    assert "All are looked at: settle sheet 1.\n5 inserts are good, and printed then." in said
    assert "Spoiled, so to be printed again: Harbour Bay." in said
    assert "Sheet 1 is settled.\n5 inserts to cut and fit: cuts 1, then fitting 1." in said
    assert said.count("Score a, step 1 of ") == 2
    assert "fitting 1 tells how each goes into its case." in said
    assert "Sheet 1: 5 inserts to fit." in said
    assert "Insert 1, Lantern Bay, into Clear snap shell" in said
    assert "4 inserts left." in said
    assert "It goes in like the one before." in said
    assert "Taken back: fitted " in said
    assert counts(tmp_path / "harbour-street")[Stage.FITTED] == 1


def test_the_list_is_pasted_written_and_deleted(typed: Typed, tmp_path: Path) -> None:
    picture = tmp_path / "found here" / "back of it.png"
    picture.parent.mkdir()
    draw_cover(picture, (90, 20, 20))
    said = typed(
        "listed",
        *("paste", "Copper Reef", "Brass Lamp", "", "yes", "add Tall Tale", "edit series Tales"),
        *(f"covers '{picture.parent}'", "no"),
        *("edit", f"side back '{picture}'", f"side none {picture}", "story", "delete", "yes"),
        *("undo", "set batch size 3", "set storage", "set dividers no", "start", "help crop"),
        *("help settle", "settle --help"),
    )
    assert "2 new games." in said
    assert "2 games added." in said
    assert "Tall Tale. Listed, in doubt." in said
    assert "Series: Tales." in said
    assert "1 picture in the folder." in said, "quoted, as a terminal pastes what is dropped"
    assert "back: back of it.png, 100% sure" in said
    assert "1 game deleted. undo takes that back." in said
    assert "Batch size: 3 games" in said
    assert "\ndrawer: standing in a box or drawer\n" in said
    assert "List, 17 games. " in said
    assert "crop left or right or up or down, and perhaps PERCENT: Keep more" in said
    assert said.count("--spoiled N,N: the spoiled inserts") == 2


def test_what_stands_in_columns_is_said_in_a_row(typed: Typed) -> None:
    lines = ("progress", "supplies", "ink lantern-bay", "setup", "papers", "cases", "shelf", "room")
    said = typed("settled", *lines, "history", "sheets 1", "index", "propose", "titles", "colours")
    assert "   " not in said, "nothing is parted by blanks"
    assert "printed: 6." in said
    assert "sheets needed, 0 in the house, " in said
    assert "lantern-bay: cyan " in said
    assert "Cutting rule: trimmer" in said
    assert "a5-card: A5 card, 200 g/m\u00b2, 148 \u00d7 210 mm" in said
    assert "Lantern Bay, printed, dark blue, " in said
    assert "Cut 1: " in said
    assert "Insert 1: lantern-bay" in said
    assert "sheet 1: pressed, 6 inserts, now settled, " in said
    assert not set(said) & set("\u25a0\u25a1\u2588\u2192"), "no sign that only an eye takes in"


COMPLAINTS = {
    "acept": "acept: no such word. Did you mean accept? help lists them.",
    "": "Type a word, such as accept or skip",
    "game nobody": "nobody: no such game",
    "case nosuch": "nosuch: no such case kind",
    "colour blue-ish": "blue-ish",
    "picture 3": "3: is no number of the list",
    "title": "title: nothing is said",
    "crop sideways": "sideways: is no way to go.",
    "trim left much": "much: is no number.",
    "marked accept": "No game is marked.",
    "good": "No sheet is at hand.",
    "mark 9": "9: is no number of the list.",
    "set colour of the sea 3": "begins with no setting.",
    "fit": "Lantern Bay: not printed as designed",
    "settle 9": "sheet 9",
    "settle": "the following arguments are required: SHEET",
}
"""What is said to lines that cannot be done."""


def test_what_cannot_be_is_said_and_the_work_goes_on(typed: Typed) -> None:
    said = typed("batch", *(one for line in COMPLAINTS for one in (line, "again")))
    answers = said.split("> ")[1::2]
    for (line, complaint), answer in zip(COMPLAINTS.items(), answers, strict=False):
        assert complaint in answer, line
    assert said.count("Game 1 of 6: Lantern Bay.") == len(COMPLAINTS) + 1


def test_every_word_and_command_is_in_the_help(typed: Typed) -> None:
    said = typed("empty", "help all", "accept")
    for word in WORDS.values():
        assert f"{word.shown}: {word.about}" in said
    for name in set(NAMES) - ELSEWHERE:
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


def test_a_folder_is_asked_for_and_a_command_is_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["--plain", "shelf"]) == 2
    assert "shelf: is a command." in capsys.readouterr().err
    left = iter(["quit", "my-shelf", "quit"])
    monkeypatch.setattr("builtins.input", lambda _: next(left))
    assert run(["--plain", "./shelf"]) == 0
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("tui.cli.dispatch.folder_to_hand", lambda: None)
    assert run(["--plain"]) == 0
    assert "Type the folder of one" in capsys.readouterr().out
    assert {"shelf", "my-shelf"} <= {one.name for one in tmp_path.iterdir()}


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

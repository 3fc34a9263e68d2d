"""How the program ends: what it says and its exit code, as the whole program in a process."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine import InputError
from engine.collection import files
from engine.collection.newfiles import NewFiles
from tests.tui.conftest import Said
from tui.__main__ import main
from tui.cli.beginning import begin
from tui.cli.dispatch import run
from tui.cli.showing import show
from tui.ending import SIGNALS, code_of


@pytest.fixture
def heeded() -> Iterator[None]:
    """Lets signals do what they do where nobody chose otherwise; puts back what they did before.

    Whatever started the tests may ignore some, as nohup does, and the program then keeps to that.
    """
    before = {number: signal.getsignal(number) for number in SIGNALS}
    for number in SIGNALS:
        signal.signal(number, signal.SIG_DFL)
    yield
    for number, heed in before.items():
        signal.signal(number, heed)


@pytest.mark.usefixtures("heeded")
@pytest.mark.parametrize("number", SIGNALS)
def test_a_signal_to_end_leaves_nothing_half_done(
    say: Said, number: signal.Signals, monkeypatch: pytest.MonkeyPatch
) -> None:
    """128 and the number of the signal: bash manual, 'Exit Status'."""
    say("propose", "--accept", "lantern-bay-1")
    real = NewFiles.sheet_page

    def ended(files: NewFiles, sheet: int, page: bytes) -> None:
        real(files, sheet, page)
        assert list((say.folder / "sheets").iterdir())
        os.kill(os.getpid(), number)

    monkeypatch.setattr(NewFiles, "sheet_page", ended)
    with pytest.raises(SystemExit) as left:
        main(["press", "--part-full", "--collection", str(say.folder)])
    assert left.value.code == 128 + number
    assert say.capsys.readouterr() == ("", "Stopped. What was done before is kept.\n")
    assert not list((say.folder / "sheets").iterdir())


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no /dev/full here")
def test_an_answer_that_cannot_be_written_is_told(say: Said) -> None:
    """/dev/full fails each write with ENOSPC: full(4) of the Linux manual."""
    with Path("/dev/full").open("w") as full:
        ran = subprocess.run(
            [sys.executable, "-m", "tui", "undo", "--json", "--collection", str(say.folder)],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert ran.returncode == 3
    assert ran.stderr == (
        "The answer could not be written (no space left on device). The command itself came to "
        "its end.\n"
    )
    assert say.json("progress")["games"] == 0


def test_a_closed_answer_is_told(say: Said, monkeypatch: pytest.MonkeyPatch) -> None:
    """Python has None for a channel that was closed by ``>&-``: library reference, sys.stdout."""
    monkeypatch.setattr(sys, "stdout", None)
    with pytest.raises(SystemExit) as left:
        main(["cases", "--collection", str(say.folder)])
    assert left.value.code == 3
    assert "could not be written (bad file descriptor)" in say.capsys.readouterr().err


def test_closed_errors_are_not_told_in_the_place_of_the_answer(
    say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stderr", None)
    with pytest.raises(SystemExit) as left:
        main(["settle", "7", "--collection", str(say.folder)])
    assert left.value.code == 2
    assert say.capsys.readouterr().out == ""


@pytest.mark.parametrize("words", [(), ("--plain",)])
def test_without_keys_no_screen_is_opened(
    words: tuple[str, ...], say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    assert run([*words, str(say.folder)]) == 2
    assert say.capsys.readouterr().err == (
        "--plain: reads what is typed, and its input is closed. Leave it open.\n"
        if words
        else "The terminal program needs a terminal. spinery --help tells what works without.\n"
    )


def test_what_the_disk_does_not_confirm_is_told_apart_from_what_it_refuses(
    say: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_: Path) -> None:
        raise OSError(5, os.strerror(5))

    monkeypatch.setattr("engine.collection.opening.force_folder", lambda _: None)
    monkeypatch.setattr(files, "force_folder", refuse)
    said = say("propose", "--accept", "--sure", code=3)
    assert "this is done and written, but the disk did not confirm it (input/output error)" in said
    monkeypatch.undo()
    assert say.json("progress")["stages"]["title set"] == 12


def test_a_fault_of_the_program_is_told_and_written_down(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """70 is EX_SOFTWARE of sysexits(3)."""

    def fail(_: object) -> int:
        raise ZeroDivisionError("of the program")

    monkeypatch.setattr("tui.cli.dispatch.run", fail)
    with pytest.raises(SystemExit) as left:
        main(["sheets"])
    assert left.value.code == 70
    said = capsys.readouterr().err
    assert (
        "failed by a fault of its own (ZeroDivisionError: of the program). What was saved" in said
    )
    log = Path(said.rsplit("stands in ", 1)[1].strip().removesuffix("."))
    assert "ZeroDivisionError: of the program" in log.read_text("utf-8")


def test_a_damaged_collection_goes_back_by_one_command(say: Said) -> None:
    say("propose", "--accept", "--sure")
    file = say.folder / "collection.json"
    file.write_bytes(file.read_bytes()[:-100])
    assert "goes back to the newest good backup" in say("progress", code=2)
    assert "Went back to collection-" in say("restore")
    assert "set-aside-" in say("restore", "--list")
    assert say.json("progress")["games"] == 12


def test_control_c_is_told_as_shells_tell_it() -> None:
    assert code_of(KeyboardInterrupt()) == 130


@pytest.mark.parametrize("name", ["dumb", "vt100", "unknown", ""])
def test_a_terminal_of_lines_only_is_told_what_works_in_it(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", name)
    with pytest.raises(InputError, match=rf"TERM={name}: .*spinery --plain works in it"):
        show(Path("nowhere"))


def test_nothing_is_asked_on_a_terminal_of_lines_only(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TERM", "vt100")
    monkeypatch.setattr("tui.cli.beginning.at_terminal", lambda: True)
    with pytest.raises(InputError, match="TERM=vt100: "):
        begin()


def test_without_a_terminal_the_terminal_program_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm-256color")
    with Path(os.devnull).open() as nothing, monkeypatch.context() as patch:
        patch.setattr("sys.stdin", nothing)
        with pytest.raises(InputError, match="needs a terminal"):
            show(Path("nowhere"))

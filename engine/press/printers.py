"""Printers: through CUPS, by the programs that every system with CUPS has, ``lp`` and ``lpstat``.

They are asked in the C locale, so that what they say can be read. The page is sent as it is, with
the two things said that a print queue must not choose: no scaling (``print-scaling`` of PWG
5100.13) and the size of the paper (PWG 5101.1).
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from shutil import which
from time import sleep

from engine.model import Reverse, Stock, Value
from engine.model.errors import PrinterError
from engine.model.waiting import Cancel, go_on
from engine.press.media import media_name

_SECONDS = 20.0
"""How long a print system may take to answer."""
_POLL = 0.5
_KEYWORD = re.compile(r"[\w.-]+")
"""What a keyword of a printer is written with: a space would begin an option of its own."""


class Printer(Value, frozen=True):
    """A print queue."""

    name: str
    state: str
    """idle, printing or stopped."""
    accepts: bool
    """Whether it takes jobs."""
    said: str = ""
    """What it says of itself: why it stopped, what it lacks; often nothing."""
    usual: bool = False
    """Whether it is the one that is used where none is named."""


def has_printing() -> bool:
    """Return whether this machine has CUPS' programs."""
    return which("lp") is not None and which("lpstat") is not None


def printers() -> tuple[Printer, ...]:
    """Return the printers with their states. Raises PrinterError where there is no CUPS."""
    if not has_printing():
        raise PrinterError(
            "printers", "this machine has no lp", "Open the sheet's PDF and print it from there"
        )
    usual = re.search(r"system default destination: (\S+)", _ask("lpstat", "-d"))
    refusing = set(re.findall(r"^(\S+) not accepting requests", _ask("lpstat", "-a"), re.MULTILINE))
    found = []
    for entry in re.split(r"^printer ", _ask("lpstat", "-p"), flags=re.MULTILINE)[1:]:
        first, *rest = entry.splitlines()
        name, _, state = first.partition(" ")
        found.append(
            Printer(
                name=name,
                state=_state(state),
                accepts=name not in refusing,
                said=" ".join(line.strip() for line in rest if line.strip()),
                usual=usual is not None and usual[1] == name,
            )
        )
    return tuple(found)


def send(
    path: Path,
    title: str,
    printer: str,
    stock: Stock,
    tray: str = "",
    reverse: Reverse = "none",
) -> str:
    """Hand a PDF to a printer, as it is and on the paper it was made for; return the job's id.

    ``tray`` is as the printer calls it (``media-source``); empty leaves it to the printer.
    ``reverse`` is the edge over which the paper is turned for a back. Raises
    PrinterError, for a printer that there is not or that takes no jobs, too.
    """
    known = {one.name: one for one in printers()}
    if printer not in known:
        have = f"There are {', '.join(known)}" if known else "There are none: set one up in CUPS"
        raise PrinterError(printer, "there is no such printer", have)
    if not known[printer].accepts:
        said = known[printer].said or "it takes no jobs"
        raise PrinterError(printer, said, "Start it again (cupsaccept), or choose another")
    if tray and not _KEYWORD.fullmatch(tray):
        raise PrinterError(tray, "is no name of a tray", "Give it as the printer calls it")
    options = {
        "print-scaling": "none",
        "media": media_name(stock),
        "sides": "one-sided" if reverse == "none" else f"two-sided-{reverse}-edge",
        "number-up": "1",
        "print-color-mode": "color",
        **({"media-source": tray} if tray else {}),
    }
    given = [part for key, value in options.items() for part in ("-o", f"{key}={value}")]
    said = _ask("lp", "-d", printer, "-t", title, *given, "--", str(path))
    found = re.search(r"request id is (\S+)", said)
    if found is None:
        raise PrinterError(printer, f"lp said: {said.strip()}", "Print the file from a viewer")
    return found[1]


def follow(
    job: str,
    printer: str,
    tell: Callable[[str], None] = lambda _: None,
    cancel: Cancel | None = None,
) -> None:
    """Wait until a job is printed; ``tell`` is told what the printer says meanwhile, once each.

    Raises PrinterError where it was stopped or given up, Cancelled when ``cancel`` says so: the
    job goes on then.
    """
    from engine.press.ipp import ABORTED, CANCELED, job_state

    last = ""
    while not _has_ended(job):
        go_on(cancel)
        said = next((one.said for one in printers() if one.name == printer), "")
        if said and said != last:
            tell(said)
            last = said
        sleep(_POLL)
    failed = {CANCELED: "it was cancelled", ABORTED: "the print system gave it up"}
    why = failed.get(job_state(int(job.rpartition("-")[2])) or 0)
    if why:
        mend = "See to the printer, then print again"
        raise PrinterError(job, f"was not printed: {why}", f"{last}. {mend}" if last else mend)


def show(path: Path) -> None:
    """Open a file in the system's viewer. Raises PrinterError where there is none."""
    opener = {"darwin": "open", "win32": "explorer"}.get(sys.platform, "xdg-open")
    found = which(opener)
    if found is None:
        raise PrinterError(str(path), "there is no viewer to open it in", "Open it yourself")
    subprocess.Popen(  # noqa: S603 - the system's own opener and a file of ours
        [found, str(path)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )


def _state(words: str) -> str:
    if words.startswith("is idle"):
        return "idle"
    return "printing" if words.startswith("now printing") else "stopped"


def _has_ended(job: str) -> bool:
    ended = _ask("lpstat", "-W", "completed", "-o").splitlines()
    return any(line.split(" ", 1)[0] == job for line in ended)


def _ask(program: str, *arguments: str) -> str:
    """Return what one of CUPS' programs says. Raises PrinterError where it fails."""
    try:
        done = subprocess.run(  # noqa: S603 - CUPS' own programs
            [which(program) or program, *arguments],
            check=False,
            capture_output=True,
            text=True,
            timeout=_SECONDS,
            env={**os.environ, "LC_ALL": "C"},
        )
    except (OSError, subprocess.TimeoutExpired) as fault:
        raise PrinterError(program, "does not answer", "Start CUPS, or print the file") from fault
    if done.returncode and "No destinations added" not in done.stderr:
        said = done.stderr.strip().removeprefix(f"{program}: ") or "it failed"
        raise PrinterError(program, said.rstrip("."), "Start CUPS, or print the file from a viewer")
    return done.stdout

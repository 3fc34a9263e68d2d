"""Printing through CUPS to a real IPP printer, which tells what arrived.

The printer is ``ippeveprinter``, the CUPS project's reference printer of IPP Everywhere (PWG
5100.14); a private CUPS scheduler stands between, as on a person's machine. All of it listens on
loopback and is started, and ended, by the test.
"""

from __future__ import annotations

import os
import re
import socket
import subprocess
from collections.abc import Iterator
from pathlib import Path
from shutil import chown, which
from time import monotonic, sleep

import pytest

from engine.model.errors import PrinterError
from engine.model.stocks import STOCKS
from engine.press import printers
from engine.press.media import media_name
from tests.press.making import insert, place, sheet

PATH = f"{os.environ.get('PATH', '')}:/usr/sbin:/sbin"
NEEDED = ("cupsd", "lpadmin", "lp", "lpstat", "ippeveprinter", "dbus-daemon", "avahi-daemon")
MISSING = [name for name in NEEDED if which(name, path=PATH) is None]

pytestmark = pytest.mark.xdist_group("printers")
real = pytest.mark.skipif(
    bool(MISSING) or getattr(os, "geteuid", lambda: 1)() != 0,
    reason=f"needs root for a scheduler of its own, and {', '.join(MISSING) or 'nothing more'}",
)


# PWG 5101.1-2013, table 5; ISO 216:2007; the inch is 25.4 mm.
@pytest.mark.parametrize(
    ("stock", "name"),
    [
        ("a4-card", "iso_a4_210x297mm"),
        ("a5-copy", "iso_a5_148x210mm"),
        ("letter-card", "na_letter_8.5x11in"),
        ("photo-4x6", "na_index-4x6_4x6in"),
    ],
)
def test_each_paper_has_its_standard_name(stock: str, name: str) -> None:
    assert media_name(STOCKS[stock]) == name


def test_without_cups_one_is_told_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "/nowhere")
    with pytest.raises(PrinterError, match="no lp"):
        printers.printers()


# RFC 8011 (IPP/1.1), 5.2.8 "sides".
@pytest.mark.parametrize(
    ("reverse", "sides"),
    [("none", "one-sided"), ("long", "two-sided-long-edge"), ("short", "two-sided-short-edge")],
)
def test_a_sheet_with_a_back_is_printed_on_both_sides(
    monkeypatch: pytest.MonkeyPatch, reverse: str, sides: str
) -> None:
    asked: list[str] = []
    hall = printers.Printer(name="hall", state="idle", accepts=True)
    monkeypatch.setattr(printers, "printers", lambda: (hall,))
    monkeypatch.setattr(
        printers, "_ask", lambda *given: asked.extend(given) or "request id is hall-7 (1 file(s))"
    )
    path = Path("sheet-0007.pdf")
    assert printers.send(path, "Sheet 7", "hall", STOCKS["a4-card"], "", reverse) == "hall-7"
    assert f"sides={sides}" in asked


class Office:
    """A scheduler with one queue, and the printer behind it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.got = folder / "got"
        self.port = _free_port()
        """Of the scheduler."""
        self.printer_port = 0
        """Of the printer, once it is switched on."""
        self.running: dict[str, subprocess.Popen] = {}
        self.env = {
            **os.environ,
            "PATH": PATH,
            "CUPS_SERVER": f"127.0.0.1:{self.port}",
            "DBUS_SYSTEM_BUS_ADDRESS": f"unix:path={folder}/bus",
        }

    def open(self) -> None:
        """Start everything: the printer asks a message bus for its name on the network."""
        for name in ("spool", "cache", "run", "etc", "got"):
            (self.folder / name).mkdir()
        self._write()
        self._start("dbus-daemon", "--nofork", "--nopidfile", f"--config-file={self.folder}/dbus")
        self._wait((self.folder / "bus").exists)
        self._start(
            *("avahi-daemon", "-f", f"{self.folder}/avahi"),
            *("--no-drop-root", "--no-chroot", "--no-rlimits"),
        )
        self._start(
            *("cupsd", "-f", "-c", f"{self.folder}/etc/cupsd.conf"),
            *("-s", f"{self.folder}/etc/files.conf"),
        )
        self.print_on()
        self._wait(lambda: _answers(self.port))
        uri = f"ipp://localhost:{self.printer_port}/ipp/print"
        command = ["lpadmin", "-p", "hall", "-E", "-v", uri]
        subprocess.run(command, check=True, env=self.env, timeout=30, capture_output=True)

    def print_on(self) -> None:
        """Switch the printer on."""
        given = self.printer_port
        for _ in range(20):  # it gives up where the message bus is not ready, or a port taken
            self.printer_port = given or _free_port()
            printer = self._start(
                *("ippeveprinter", "-r", "off", "-k", "-vv", "-d", str(self.got)),
                *("-p", str(self.printer_port), "-n", "localhost", "-f", "application/pdf", "Hall"),
            )
            sleep(0.5)
            if printer.poll() is None:
                break
        else:
            raise AssertionError("the printer does not start")
        self._wait(lambda: _answers(self.printer_port))

    def close(self) -> None:
        for process in reversed(self.running.values()):
            process.terminate()
        for process in self.running.values():
            process.wait(10)

    def said(self) -> str:
        """Return what the printer noted of all that it was asked."""
        return (self.folder / "ippeveprinter.log").read_text(errors="replace")

    def _start(self, program: str, *arguments: str) -> subprocess.Popen:
        command = [which(program, path=PATH) or program, *arguments]
        with (self.folder / f"{program}.log").open("ab") as log:
            process = subprocess.Popen(command, stdout=log, stderr=log, env=self.env)
        self.running[program] = process
        return process

    def _wait(self, done) -> None:
        end = monotonic() + 30
        while not done():
            assert monotonic() < end, "the printing system does not start"
            sleep(0.1)

    def _write(self) -> None:
        here = self.folder
        (here / "dbus").write_text(
            "<!DOCTYPE busconfig PUBLIC '-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN'"
            " 'http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd'><busconfig>"
            f"<type>session</type><listen>unix:path={here}/bus</listen><auth>EXTERNAL</auth>"
            "<policy context='default'><allow send_destination='*' eavesdrop='true'/>"
            "<allow eavesdrop='true'/><allow own='*'/></policy></busconfig>"
        )
        (here / "avahi").write_text("[server]\nallow-interfaces=lo\nenable-dbus=yes\nuse-ipv6=no\n")
        (here / "etc" / "files.conf").write_text(
            f"ServerRoot {here}/etc\nRequestRoot {here}/spool\nCacheDir {here}/cache\n"
            f"StateDir {here}/run\nTempDir {here}/cache\nErrorLog {here}/error\n"
            f"AccessLog {here}/access\nPageLog {here}/pages\nSystemGroup root\nUser lp\nGroup lp\n"
        )
        allow = "Order allow,deny\nAllow all\n"
        (here / "etc" / "cupsd.conf").write_text(
            f"Listen 127.0.0.1:{self.port}\nBrowsing No\nWebInterface No\n"
            f"DefaultAuthType None\n<Location />\n{allow}</Location>\n"
            f"<Location /admin>\n{allow}</Location>\n"
        )
        for path in (here, *here.rglob("*")):
            chown(path, "lp", "lp")
        for path in (here, *here.parents):
            if path.stat().st_mode & 0o005 != 0o005 and path.is_relative_to("/tmp"):  # noqa: S108
                path.chmod(path.stat().st_mode | 0o055)


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def _answers(port: int) -> bool:
    with socket.socket() as one:
        return one.connect_ex(("127.0.0.1", port)) == 0


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Office]:
    one = Office(tmp_path_factory.mktemp("office"))
    try:
        one.open()
        yield one
    finally:
        one.close()


@pytest.fixture
def at_office(office: Office, monkeypatch: pytest.MonkeyPatch) -> Office:
    for name in ("PATH", "CUPS_SERVER"):
        monkeypatch.setenv(name, office.env[name])
    monkeypatch.setattr(printers, "_POLL", 0.1)
    return office


@pytest.fixture(scope="module")
def page(picture: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    from engine.press import sheet_page

    one = insert("snap-shell", "Kite", picture)
    laid = sheet(STOCKS["a4-card"], [place("kite", one, 13, 27)])
    path = tmp_path_factory.mktemp("page") / "sheet-0007.pdf"
    path.write_bytes(sheet_page(laid, {"kite": one}, {"kite": "Kite"}))
    return path


@real
def test_the_printer_gets_the_very_page_and_is_told_not_to_scale(
    at_office: Office, page: Path
) -> None:
    (one,) = printers.printers()
    assert (one.name, one.state, one.accepts) == ("hall", "idle", True)
    job = printers.send(page, "Sheet 7", "hall", STOCKS["a4-card"], tray="main")
    told: list[str] = []
    printers.follow(job, "hall", told.append)
    arrived = [path for path in at_office.got.iterdir() if path.suffix == ".pdf"]
    assert [path.read_bytes() for path in arrived] == [page.read_bytes()]
    asked = at_office.said().split("operation-id=Create-Job")[1].split("Response:")[0]
    attributes = dict(re.findall(r"^ +([\w-]+) \(\w+\) (.+)$", asked, re.MULTILINE))
    assert attributes["print-scaling"] == "none"  # PWG 5100.13
    assert attributes["media"] == "iso_a4_210x297mm"  # PWG 5101.1
    assert attributes["media-source"] == "main"
    assert attributes["sides"] == "one-sided"
    assert attributes["print-color-mode"] == "color"
    assert attributes["job-name"] == "Sheet 7"


@real
def test_what_goes_wrong_is_told(at_office: Office, page: Path) -> None:
    with pytest.raises(PrinterError, match=r"attic: there is no such printer\. There are hall"):
        printers.send(page, "Sheet 7", "attic", STOCKS["a4-card"])
    stop = ["cupsdisable", "-r", "the drum is worn", "hall"]
    subprocess.run(stop, check=True, env=at_office.env, timeout=30)
    job = printers.send(page, "Sheet 8", "hall", STOCKS["a4-card"])
    (one,) = printers.printers()
    assert (one.state, one.said) == ("stopped", "the drum is worn")
    told: list[str] = []

    def cancel_once_told(words: str) -> None:
        told.append(words)
        subprocess.run(["cancel", job], check=True, env=at_office.env, timeout=30)

    with pytest.raises(PrinterError, match="was not printed: it was cancelled"):
        printers.follow(job, "hall", cancel_once_told)
    assert told == ["the drum is worn"]
    subprocess.run(["cupsreject", "hall"], check=True, env=at_office.env, timeout=30)
    with pytest.raises(PrinterError, match="hall: Rejecting Jobs"):
        printers.send(page, "Sheet 9", "hall", STOCKS["a4-card"])

"""What is done with a fuzzed file by a worker process. Each returns a traceback, or nothing."""

from __future__ import annotations

import os
import sys
import traceback
import unicodedata
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from random import Random

from engine.model.errors import SpineryError


def looked_at(use: Callable[[bytes, int], None]) -> Callable[[bytes, int], str]:
    """Return what uses a file and returns the traceback, but for what refuses it as it should."""

    @wraps(use)
    def attempt(path: bytes, seed: int) -> str:
        try:
            use(path, seed)
        except (SpineryError, MemoryError):
            raise
        except Exception:  # noqa: BLE001 - it is what is looked for
            return traceback.format_exc()
        return ""

    return attempt


@looked_at
def picture(path: bytes, seed: int) -> None:
    """Take a picture in, then draw it as art of some panel."""
    from engine.artwork.inspecting import look
    from engine.artwork.rendering import ArtRequest, lay
    from engine.artwork.windows import Bleed
    from engine.model import Art, Fit, Matte, Size

    dice = Random(seed)
    art = Art(picture="a", fit=dice.choice([*Fit]), matte=dice.choice([*Matte]))
    panel = Size(*dice.choice(((64.5, 103.0), (13.0, 183.0), (130.0, 183.0), (3.0, 100.0))))
    look(path)
    lay(ArtRequest(os.fsdecode(path), art, panel, Bleed(1, 1, 1, 1), "#336699"))


@looked_at
def font(path: bytes, seed: int) -> None:
    """Try a font as it is tried when it is chosen, then set a title in it and put it on a page."""
    from fontTools.misc.transform import Transform

    from engine.lettering import facts, shape, weighted
    from engine.lettering.trying import attempt
    from engine.model import FontRef, Size
    from engine.press import PdfDocument

    attempt(path, 0)
    chosen = weighted(facts(FontRef(os.fsdecode(path))))
    document = PdfDocument("a title")
    line = shape("Oyster AB\u0308 123", chosen, 9.0)
    document.page(Size(100, 100)).text(line, Transform(1, 0, 0, 1, 10, 10), "#000000")
    document.finish()


@looked_at
def kind(path: bytes, seed: int) -> None:
    """Read a case kind, and lay out, fold and draw it."""
    from engine.cases import flatten, fold
    from engine.cases.kindfile import read_kind
    from engine.press.netdrawing import net_pdf

    found = read_kind(Path(os.fsdecode(path)))
    net_pdf(flatten(found, 0.2))
    fold(found, 0.2)


@looked_at
def games(path: bytes, seed: int) -> None:
    """Read a list."""
    from engine.intake.lists import read_list

    read_list(Path(os.fsdecode(path)))


def _open_the_front_door() -> None:
    """Import the engine as the program does: to a worker its front door is shut."""
    if not hasattr(sys.modules.get("engine"), "__file__"):
        sys.modules.pop("engine", None)
    import engine  # noqa: F401


COMMANDS = (
    ("progress", "--json"),
    ("propose",),
    ("propose", "--accept"),
    ("sheets", "--json"),
    ("colours",),
    ("titles",),
    ("check",),
    ("press", "--part-full"),
    ("undo",),
)


def collection(path: bytes, seed: int) -> str:
    """Work by the command line in a copy of a collection whose file this is."""
    import contextlib
    import io
    import tempfile

    _open_the_front_door()
    from tui.cli.dispatch import run

    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "collection.json").write_bytes(Path(os.fsdecode(path)).read_bytes())
        for command in COMMANDS:
            said = io.StringIO()
            try:
                with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
                    code = run([*command, "--collection", folder])
            except MemoryError:
                raise
            except BaseException:  # noqa: BLE001
                return f"{command}: {traceback.format_exc()}"
            if acts := [one for one in said.getvalue() if not _is_still(one)]:
                return f"{command} printed {acts!r}"
            if code == 2 and command == COMMANDS[0]:
                break
    return ""


_TURNING = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}


def _is_still(sign: str) -> bool:
    """Return whether a sign neither acts on a terminal nor turns round what stands beside it.

    By the classes of the Unicode Character Database, as Python has them.
    """
    controls = unicodedata.category(sign) in {"Cc", "Cs"} and not sign.isspace()
    return not controls and unicodedata.bidirectional(sign) not in _TURNING


def title(path: bytes, seed: int) -> str:
    """Work in a collection in which a game, its series and its notes are called like this."""
    import json
    import tempfile

    _open_the_front_door()
    from tests.fuzz.targets import collections

    text = Path(os.fsdecode(path)).read_bytes().decode("utf-8", "surrogateescape")
    said = json.dumps(text)[1:-1].encode()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "titled.json")
        file.write_bytes(
            collections()[0]
            .replace(b"Oyster Clock", said)
            .replace(b'"Tide"', b'"%b"' % said)
            .replace(b'"notes": "a"', b'"notes": "%b"' % said)
        )
        return collection(os.fsencode(file), seed)

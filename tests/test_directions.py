"""Which way imports point: the contracts of ``pyproject.toml``, and what only running shows."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent


def test_imports_point_the_way_the_contracts_say() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports; exit(lint_imports())"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout


HEAVY = ("PIL", "icu", "natsort", "numpy", "rapidfuzz", "scipy", "shapely", "textual_image.widget")
"""What takes long to import, and is not needed to open a collection or to show it."""
OPENING = ("engine.service", "engine.state", "msgspec", "tui.screens.bench", "tui.words")
"""What opens a collection and shows it: the frame is painted before that is imported."""


def test_what_is_heavy_is_imported_where_it_is_used() -> None:
    """A command that only prints goes without Textual, too."""
    work = (
        "import sys, tui.cli.dispatch\n"
        "early = {'textual'} & sys.modules.keys()\n"
        "import tui.app, tui.terminal\n"
        f"early |= {set(OPENING)!r} & sys.modules.keys()\n"
        "import engine, tui.screens\n"
        "engine.open_workshop, tui.screens.BenchScreen\n"
        f"print([*early, *(name for name in {HEAVY} if name in sys.modules)])"
    )
    done = subprocess.run(
        [sys.executable, "-c", work], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_the_engine_works_without_the_terminal_program() -> None:
    """A graph of imports cannot see those made late: here the engine is put to work."""
    work = (
        "import sys, tempfile\n"
        "from pathlib import Path\n"
        "import engine\n"
        "shop = engine.open_workshop(Path(tempfile.mkdtemp()) / 'shelf')\n"
        "shop.check(); shop.progress(); shop.sheets.report(); shop.close()\n"
        "print([name for name in sys.modules if name.split('.')[0] in {'tui', 'textual'}])\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", work], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"

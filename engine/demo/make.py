"""Making the demo: its list and pictures, and a collection that is well under way."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from engine.demo import covers, harbour, scans
from engine.errors import CollectionError

Progressing = Callable[[int, int], None]
"""Called with how many covers were drawn, and of how many."""


class DemoInputs(NamedTuple):
    """What a person would begin with: a list and a folder of pictures."""

    list_file: Path
    pictures_folder: Path


def make_demo_inputs(folder: Path, progress: Progressing | None = None) -> DemoInputs:
    """Write the Harbour Street list and its pictures into ``folder``, made if need be.

    The same files every time. Raises CollectionError where they cannot be written.
    """
    wanted = harbour.covers()
    inputs = DemoInputs(folder / harbour.LIST_NAME, folder / "pictures")
    try:
        inputs.pictures_folder.mkdir(parents=True, exist_ok=True)
        inputs.list_file.write_text(harbour.list_text(), encoding="utf-8", newline="")
        for done, cover in enumerate(wanted, start=1):
            scans.write(inputs.pictures_folder / cover.file, covers.draw(cover), cover.finish)
            if progress:
                progress(done, len(wanted))
    except OSError as fault:
        raise CollectionError(
            str(folder), f"the demo cannot be written ({fault.strerror})", "Choose another folder"
        ) from fault
    return inputs

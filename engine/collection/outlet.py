"""Files that a person asks for outside their collection."""

from __future__ import annotations

from pathlib import Path

from engine.model.errors import InputError


def write_out(path: Path, data: bytes) -> None:
    """Write a file whole or not at all. Raises InputError where it cannot be written."""
    if path.is_dir():
        raise InputError(str(path), "is a folder", "Give a file name in it")
    unfinished = path.with_name(f"{path.name}.part")
    try:
        unfinished.write_bytes(data)
        unfinished.replace(path)
    except OSError as error:
        unfinished.unlink(missing_ok=True)
        raise InputError(
            str(path), f"cannot be written ({error.strerror})", "Give a folder that may be written"
        ) from error

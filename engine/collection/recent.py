"""Which collection was opened last: the one thing kept outside a collection's folder."""

from __future__ import annotations

from pathlib import Path

from engine.collection.opening import FILE


def _note() -> Path:
    from platformdirs import user_state_path

    return user_state_path("spinery") / "last-opened"


def remember(folder: Path) -> None:
    """Note that this collection was opened. Fails in silence: it is a convenience."""
    note = _note()
    try:
        note.parent.mkdir(parents=True, exist_ok=True)
        note.write_text(f"{folder.resolve()}\n", encoding="utf-8")
    except OSError:
        return


def last_opened() -> Path | None:
    """Return the collection last opened, or None if there is none or the note is unreadable."""
    try:
        said = _note().read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError):
        return None
    return Path(said) if said else None


def holds_collection(folder: Path) -> bool:
    """Return whether a folder holds a collection."""
    return (folder.expanduser() / FILE).is_file()

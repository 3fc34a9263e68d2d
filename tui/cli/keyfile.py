"""The file in which a person chooses keys of their own."""

from __future__ import annotations

import tomllib
from pathlib import Path

from engine import InputError


def key_file() -> Path:
    """Return where the file lies, or would."""
    from platformdirs import user_config_path

    return user_config_path("spinery") / "keys.toml"


def own_keys() -> dict[str, str]:
    """Return the keys that the person chose, by the ids of actions; none where there is no file.

    Raises InputError for what is wrong in it.
    """
    file = key_file()
    try:
        text = file.read_text(encoding="utf-8")
    except FileNotFoundError:
        return {}
    except (OSError, UnicodeDecodeError) as error:
        raise InputError(
            str(file), f"it cannot be read ({error})", "Mend it or delete it"
        ) from error
    from tui.actions.keymap import read_keymap

    try:
        chosen = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        what = f"it is no TOML ({error})"
        raise InputError(str(file), what, 'Write lines such as accept = "f2"') from error
    return read_keymap(chosen, str(file))

"""On which line of a TOML file a key stands."""

from __future__ import annotations

import re

Place = tuple[str | int, ...]
"""Where in a file, from the outside in: ("panels", 1, "width")."""

_QUOTED = re.compile(
    r'"""(?:\\.|[^\\])*?"""|\'\'\'.*?\'\'\'|"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'|#[^\n]*', re.DOTALL
)
_HEADER = re.compile(r"\s*(\[\[?)\s*([\w.-]+)\s*\]\]?\s*$")
_KEY = re.compile(r"\s*([\w-]+)\s*=")


def line_of(text: str, path: Place) -> int | None:
    """Return the line (from 1) of the key or table at ``path``, or of what holds it.

    The text must be TOML that parses. None where nothing of the path is found.
    """
    found = places(text)
    for length in range(len(path), 0, -1):
        if path[:length] in found:
            return found[path[:length]]
    return None


def places(text: str) -> dict[Place, int]:
    """Return the line of every key, table header and inline table that begins a line."""
    found: dict[Place, int] = {}
    counts: dict[str, int] = {}
    table: Place = ()
    holder: Place = ()
    depth = item = 0
    for number, line in enumerate(_masked(text).split("\n"), start=1):
        if depth == 0 and (header := _HEADER.match(line)):
            table = _table(header, counts)
            found.setdefault(table[:1], number)
            found.setdefault(table, number)
            continue
        if depth == 0 and (key := _KEY.match(line)):
            holder, item = (*table, key[1]), 0
            found.setdefault(holder, number)
        elif depth == 1 and line.lstrip().startswith("{"):
            found[(*holder, item)] = number
            item += 1
        depth += sum(line.count(c) for c in "[{") - sum(line.count(c) for c in "]}")
    return found


def _table(header: re.Match[str], counts: dict[str, int]) -> Place:
    name = header[2]
    if header[1] == "[":
        return tuple(name.split("."))
    counts[name] = counts.get(name, -1) + 1
    return (name, counts[name])


def _masked(text: str) -> str:
    """Return the text with strings and comments blanked, but for quoted keys."""
    return _QUOTED.sub(_blanked, text)


def _blanked(found: re.Match[str]) -> str:
    said = found[0]
    if said[0] != "#" and found.string[found.end() :].lstrip(" \t").startswith("="):
        return said.strip("\"'")
    return re.sub(r"[^\n]", " " if said[0] == "#" else "_", said)

"""Finding a picture by a few letters of its name."""

from __future__ import annotations

from collections.abc import Mapping

from engine.intake.titles import title_key


def search(query: str, sources: Mapping[str, str]) -> tuple[str, ...]:
    """Return the keys of ``sources`` (key to file name), most like ``query`` first.

    An empty query gives all of them in the order of their names, numbers as numbers.
    """
    from natsort import humansorted
    from rapidfuzz import fuzz, process

    if not query.strip():
        return tuple(key for key, _ in humansorted(sources.items(), key=lambda pair: pair[1]))
    names = {key: title_key(source.rsplit(".", 1)[0]) for key, source in sources.items()}
    found = process.extract(title_key(query), names, scorer=fuzz.WRatio, limit=None)
    return tuple(key for _, _, key in found)

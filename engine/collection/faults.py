"""What is wrong with a record, in words."""

from __future__ import annotations

import re

import msgspec

_FOUND = re.compile(r"^(?P<what>.*?)(?: - at `\$\.?(?P<path>.*)`)?$", re.DOTALL)
_FIELD = re.compile(
    r"^Object (?P<what>missing|contains unknown) (?:required )?field `(?P<name>.*)`"
)
_WORDS = {
    "str": "text",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "array": "a list",
    "object": "a record",
    "null": "nothing",
    "datetime": "a time",
}


def in_words(error: msgspec.ValidationError) -> str:
    """Return ', field title: expected text, got a whole number'; no field, only ': ...'."""
    found = _FOUND.match(str(error))
    what, path = (found["what"], found["path"] or "") if found else (str(error), "")
    field = _FIELD.match(what)
    if field:
        path = f"{path}.{field['name']}" if path else field["name"]
        what = "missing" if field["what"] == "missing" else "unknown"
    what = what.replace("Invalid RFC3339 encoded datetime", "no time as ISO 8601 writes it")
    what = what.replace("`datetime` with a timezone component", "a time with its zone")
    what = re.sub(r"`(\w+)`", lambda word: _WORDS.get(word[1], word[1]), what)
    what = what[:1].lower() + what[1:]
    return f", field {path}: {what}" if path else f": {what}"

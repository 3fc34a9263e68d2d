"""Case kinds as TOML: read strictly, every fault told with its file, line and field."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any, Literal

import msgspec

from engine.cases.faults import Fault, NetError, faults
from engine.cases.layout import lay_out
from engine.cases.lines import line_of
from engine.cases.model import (
    CaseKind,
    Corner,
    Fits,
    Measure,
    Notch,
    Outside,
    Panel,
    Pose,
    Side,
    Tongue,
)
from engine.model import PictureRole, Value
from engine.model.errors import CaseError

ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
"""What a kind's file may be called: what a person types to name it."""

_TRIED_ON = 0.25
"""The caliper in mm on which a net is tried: card of about 200 g/m2."""


class KindFile(Value, frozen=True):
    """A case kind as it stands in its file. The fields are those of ``CaseKind``."""

    name: str
    panels: tuple[Panel, ...]
    unit: Literal["mm"] = "mm"
    inside: dict[str, float] | None = None
    """What was measured inside the case: the insert goes into these."""
    around: dict[str, float] | None = None
    """What was measured round a body: the insert wraps these."""
    clearance: float = 0.0
    measured_on: float = 0.0
    front: str = ""
    back: str = ""
    up: Side = Side.TOP
    pose: Pose = Pose.SHELF
    grain: bool = False
    outside: Outside | None = None
    glued: bool = False
    notches: tuple[Notch, ...] = ()
    tongues: tuple[Tongue, ...] = ()
    corners: tuple[Corner, ...] = ()
    sources: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


def read_kind(path: Path) -> CaseKind:
    """Return the case kind that a file describes; its id is the file's name.

    Raises CaseError that names the file, the line and the field.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise CaseError(path.name, f"cannot be read ({error.strerror})") from error
    except UnicodeDecodeError as error:
        raise CaseError(path.name, "is not UTF-8 text", "Save it as UTF-8") from error
    return parse_kind(text, path.name)


def parse_kind(text: str, file: str) -> CaseKind:
    """Return the case kind that the text of a TOML file describes; see ``read_kind``.

    Its net is laid out once, so that what overlaps or cannot be folded is refused here.
    """
    kind = described(text, file)
    try:
        lay_out(kind, _TRIED_ON, frozenset())
    except NetError as error:
        names = [p.name for p in kind.panels]
        at = ("panels", max(names.index(name) for name in error.panels))
        raise _told(Fault(at, error.what, error.mend), text, file) from error
    return kind


def described(text: str, file: str) -> CaseKind:
    """Return the case kind of a TOML file without laying its net out; see ``read_kind``."""
    kind_id = file.removesuffix(".toml")
    if not ID.fullmatch(kind_id):
        raise CaseError(file, "is no name for a case kind", "Use small letters, digits and hyphens")
    kind = _kind(kind_id, _decoded(text, file))
    for fault in faults(kind):
        raise _told(fault, text, file)
    return kind


def kind_text(kind: CaseKind) -> str:
    """Return a case kind as the text of its TOML file."""
    import tomli_w

    record, usual = _file(kind), KindFile(name="", panels=())
    said = {
        key: value
        for key, value in msgspec.to_builtins(record).items()
        if getattr(record, key) != getattr(usual, key)
    }
    return tomli_w.dumps(said)


def _decoded(text: str, file: str) -> KindFile:
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CaseError(*_syntax(error, file)) from error
    try:
        record = msgspec.convert(data, KindFile)
    except msgspec.ValidationError as error:
        raise _told(_plain(str(error), data), text, file) from error
    if (record.inside is None) == (record.around is None):
        raise _told(
            Fault(
                ("around",) if record.around is not None else (),
                "needs its measures in one table, [inside] or [around]",
                "[inside] is a space that the insert goes into, [around] a body it wraps",
            ),
            text,
            file,
        )
    return record


def _kind(kind_id: str, record: KindFile) -> CaseKind:
    measures = record.inside if record.inside is not None else record.around
    shared = {
        name: getattr(record, name)
        for name in KindFile.__struct_fields__
        if name not in ("unit", "inside", "around")
    }
    return CaseKind(
        id=kind_id,
        measures=tuple(Measure(name, value) for name, value in (measures or {}).items()),
        fits=Fits.INSIDE if record.inside is not None else Fits.AROUND,
        **shared,
    )


def _file(kind: CaseKind) -> KindFile:
    shared = {
        name: getattr(kind, name)
        for name in CaseKind.__struct_fields__
        if name not in ("id", "measures", "fits")
    }
    measures = {m.name: m.value for m in kind.measures}
    if kind.fits is Fits.INSIDE:
        return KindFile(inside=measures, **shared)
    return KindFile(around=measures, **shared)


def _told(fault: Fault, text: str, file: str) -> CaseError:
    line = line_of(text, fault.path)
    field = next((str(step) for step in reversed(fault.path) if isinstance(step, str)), "")
    where = f"{file}, line {line}" if line else file
    where = f"{where}, {field}" if field else where
    return CaseError(*(_one_line(words) for words in (where, fault.what, fault.mend)))


def _one_line(words: str) -> str:
    return "".join(c if c.isprintable() else " " for c in words)


def _syntax(error: tomllib.TOMLDecodeError, file: str) -> tuple[str, str, str]:
    found = re.search(r"^(.*?) \(at (?:line (\d+), column \d+|end of document)\)$", str(error))
    words, line = (found[1], found[2]) if found else (str(error), None)
    where = f"{file}, line {line}" if line else f"{file}, at its end"
    return where, f"is not TOML: {words[0].lower()}{words[1:]}", ""


_STEP = re.compile(r"\.(\w+)|\[(\d+)\]")


def _plain(message: str, data: dict[str, Any]) -> Fault:
    """Return what msgspec found wrong, in the words of someone who edits the file."""
    said, _, at = message.partition(" - at `")
    path = tuple(
        int(found[2]) if found[2] else found[1] for found in _STEP.finditer(at.rstrip("`"))
    )
    if at.rstrip("`").endswith("[...]"):
        path = (*path, _no_number(data[str(path[-1])]))
    if unknown := re.search(r"unknown field `(.+)`", said):
        return Fault((*path, unknown[1]), "is not a key that is known here", "Delete or mend it")
    if missing := re.search(r"missing required field `(.+)`", said):
        return Fault(path, f'the key "{missing[1]}" is missing', "Add it")
    value = _quoted(data, path)
    if path == ("unit",):
        return Fault(path, f"{value} is not the unit", 'Lengths are in mm: give them as "mm"')
    if "Invalid enum value" in said:
        return Fault(path, f"{value} is not one of its values{_allowed(path)}")
    wanted = re.search(r"Expected `(.+?)`", said)
    asked = wanted[1].removesuffix(" | null") if wanted else ""
    return Fault(path, f"{value} is not {_TYPES.get(asked, 'allowed here')}")


_TYPES = {
    "float": "a number",
    "int": "a whole number",
    "float | str": "a number or a measure's name",
    "str": "text",
    "bool": "true or false",
    "array": "a list",
    "object": "a table",
}


def _allowed(path: tuple[str | int, ...]) -> str:
    allowed: dict[str, tuple[str, ...]] = {
        "role": ("art", "edge", "blank"),
        "part": ("front", "spine", "back"),
        "takes": tuple(PictureRole),
        "side": tuple(Side),
        "up": tuple(Side),
        "pose": tuple(Pose),
        "shape": ("rectangle", "round", "wedge", "bevel"),
        "corner": ("bottom left", "bottom right", "top right", "top left", "all"),
    }
    return ": " + ", ".join(allowed.get(str(path[-1]), ())) if path else ""


def _no_number(measures: dict[str, Any]) -> str:
    """Return the first measure that is none."""
    return next(
        name
        for name, value in measures.items()
        if isinstance(value, bool) or not isinstance(value, int | float)
    )


def _quoted(data: Any, path: tuple[str | int, ...]) -> str:
    """Return the value at a path as it may stand in the file."""
    for step in path:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return "this"
    if isinstance(data, dict | list):
        return "this"
    return f'"{data}"' if isinstance(data, str) else str(data).lower()

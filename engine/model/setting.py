"""What can be set: declared at its field, and read off there by all who show or change it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple, get_type_hints

import msgspec
from msgspec import Meta, inspect

from engine.model.errors import InputError
from engine.model.naming import Of, There
from engine.model.takes import (
    ByKind,
    Choice,
    Figure,
    Flag,
    FontFile,
    KindsThat,
    Lengths,
    Name,
    Phrases,
    Pins,
    Several,
    Takes,
    Usual,
    Words,
)


def setting(
    title: str,
    about: str,
    *,
    ge: float | None = None,
    le: float | None = None,
    **more: object,
) -> Meta:
    """Return what marks a field as a setting.

    ``title`` names it, ``about`` says in a sentence or two what it does, ``ge`` and ``le`` bound
    a figure. What it takes follows from the field's type. ``more`` may be:

    - ``option``: on the command line, without dashes; the field's name by default, '' for none;
    - ``name``: in JSON, and the option's; the field's name by default;
    - ``counts``: the thing that a whole number counts;
    - ``said``: what each of a few values is for, by the value;
    - ``usual``: its default in words, to which it can be taken back; ``back``: what a person
      types for that, 'usual' by default;
    - ``of``: what a name names, ``every``: what is kept under "" holds for every case kind.
    """
    return Meta(title=title, description=about, ge=ge, le=le, extra={"setting": True, **more})


class Settable(NamedTuple):
    """Something that a person sets."""

    id: str
    """Its field."""
    home: str
    """The field of the settings in which it stands; '' where it stands there itself."""
    title: str
    about: str
    """What it does, in a sentence or two."""
    takes: Takes
    more: Mapping[str, Any]
    """What else was declared, its unit too; see ``setting``."""
    type: Any
    """Of its field, for ``msgspec.convert``."""

    @property
    def name(self) -> str:
        """What it is called in JSON, without its unit."""
        apart = isinstance(self.takes, ByKind) and not self.takes.every
        return str(self.more.get("name", self.id)) + ("_by_case" if apart else "")

    @property
    def key(self) -> str:
        """What it is called in JSON, with its unit."""
        unit = self.more.get("unit", "")
        return f"{self.name}_{unit}" if unit else self.name

    @property
    def option(self) -> str:
        """What it is called on the command line, without its dashes; '' where it is not there."""
        said = self.more.get("option", self.more.get("name", self.id))
        return str(said).replace("_", "-")

    @property
    def called(self) -> str:
        """What it is called in a sentence: 'the cutting rule'."""
        return f"the {self.title[0].lower()}{self.title[1:]}"

    def value(self, settings: object) -> Any:
        """Return what is set."""
        return getattr(getattr(settings, self.home) if self.home else settings, self.id)

    def changed(self, settings: object, value: object, there: There) -> Any:
        """Return what is set once it is changed to ``value``, or as far as ``value`` says.

        Of what is there, such as a stock, the id is returned. Raises InputError for what it may
        not be, CaseError for a kind that is not there.
        """
        new, present = self.takes.taken(value, there), self.value(settings)
        if isinstance(self.takes, Name):
            return new
        if isinstance(present, Mapping) and isinstance(new, Mapping):
            new = {key: one for key, one in {**present, **new}.items() if one}
        elif isinstance(self.takes, ByKind) and isinstance(new, Mapping):
            new = sorted({key for key in (*present, *new) if new.get(key, True)})
        try:
            return msgspec.convert(msgspec.to_builtins(new), self.type)
        except msgspec.ValidationError as error:
            may_be = self.takes.may_be
            what = f"it is {may_be}" if may_be else str(error)
            raise InputError(self.id.replace("_", " "), what, "Give another value") from error


def declared(struct: type[msgspec.Struct], home: str = "") -> Iterator[Settable]:
    """Yield the settings among the fields of a struct, and among those of the structs in it."""
    hints = get_type_hints(struct, include_extras=True)
    found = inspect.type_info(struct)
    for field in found.fields if isinstance(found, inspect.StructType) else ():
        kind, more, schema = _unwrapped(field.type)
        if "setting" in more:
            title, about = schema["title"], schema["description"]
            takes = _takes(kind, more)
            if "usual" in more and not isinstance(takes, ByKind):
                default = None if field.default is msgspec.NODEFAULT else field.default
                takes = Usual(takes, default, more.get("back", "usual"), more["usual"])
            yield Settable(field.name, home, title, about, takes, more, hints[field.name])
        if isinstance(kind, inspect.StructType) and not home:
            yield from declared(kind.cls, field.name)


def _unwrapped(kind: inspect.Type) -> tuple[inspect.Type, Mapping[str, Any], Mapping[str, Any]]:
    """Return a type, what is declared with it, and what it is called; None is left away."""
    if isinstance(kind, inspect.Metadata):
        inner, more, schema = _unwrapped(kind.type)
        return inner, {**more, **(kind.extra or {})}, {**schema, **(kind.extra_json_schema or {})}
    if isinstance(kind, inspect.UnionType):
        (one,) = (part for part in kind.types if not isinstance(part, inspect.NoneType))
        return _unwrapped(one)
    return kind, {}, {}


def _takes(kind: inspect.Type, more: Mapping[str, Any]) -> Takes:
    """Return what a field of a type takes."""
    match kind:
        case inspect.BoolType():
            return Flag()
        case inspect.IntType() | inspect.FloatType():
            whole = isinstance(kind, inspect.IntType)
            unit = more.get("counts", more.get("unit", ""))
            return Figure(unit, whole, kind.ge or 0, kind.le)
        case inspect.LiteralType() | inspect.EnumType():
            values = kind.values if isinstance(kind, inspect.LiteralType) else tuple(kind.cls)
            return Choice(more.get("said") or dict.fromkeys(values, ""))
        case inspect.VarTupleType() | inspect.DictType():
            return _takes_many(kind, more)
        case inspect.StructType() if "of" not in more:
            names = tuple(field.name for field in kind.fields)
            return FontFile() if "path" in names else Lengths(names)
    return Name(more["of"]) if "of" in more else Words()


def _takes_many(kind: inspect.VarTupleType | inspect.DictType, more: Mapping[str, Any]) -> Takes:
    if isinstance(kind, inspect.VarTupleType):
        _, of, _ = _unwrapped(kind.item_type)
        return KindsThat(Flag(), every=True) if of["of"] is Of.KIND else Several(of["of"])
    _, key, _ = _unwrapped(kind.key_type)
    if key.get("of") is not Of.KIND:
        return Pins() if isinstance(kind.value_type, inspect.DictType) else Phrases()
    value, inner, _ = _unwrapped(kind.value_type)
    one = _takes(value, {**more, **inner})
    if "usual" in more:
        one = Usual(one, None, "usual", more["usual"])
    return ByKind(one, every="every" in more)

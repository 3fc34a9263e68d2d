"""What a setting takes: a figure, one of a few words, the name of something, and so on.

Each of these reads what a person types, says in words what is set, and says what may be.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Literal

from engine.model.errors import CaseError, InputError
from engine.model.units import figure


class Of(StrEnum):
    """What a name names, where only the collection knows what there is."""

    KIND = "case kind"
    STOCK = "stock"
    PANEL = "panel"
    COLUMN = "column"
    """Of the list."""
    GROUPS = "column of groups"
    """Of the list, and it says something of any game."""
    MARK = "column or =sign"
    """Of the list, or ``=`` and a sign of the person's own, the same on every edge."""
    FONT = "font"


There = Mapping[Of, Mapping[str, str]]
"""What a collection has of each: its id, and a name for people."""

OWN_SIGN = "="
"""A mark that begins so is no column."""


def known(of: Of, said: str, there: There) -> str:
    """Return the id of what a person means by its id or name. Raises InputError for none."""
    wanted = said.strip().casefold()
    for key, name in there[of].items():
        if wanted in {key.casefold(), name.casefold()}:
            return key
    if of is Of.MARK and said.startswith(OWN_SIGN) and said.removeprefix(OWN_SIGN).strip():
        return said.strip()
    thing = {Of.MARK: Of.COLUMN, Of.GROUPS: Of.COLUMN}.get(of, of)
    listed = f"{thing.split()[-1].capitalize()}s are {', '.join(there[of])}"
    fault = CaseError if of is Of.KIND else InputError
    raise fault(said, f"no such {thing}", listed if there[of] else "The list has none")


@dataclass(frozen=True)
class Takes:
    """What a setting takes."""

    @property
    def may_be(self) -> str:
        """What it may be, after the words 'it is'; '' where that takes knowing what there is."""
        return ""

    @property
    def sign(self) -> str:
        """What stands for it in a line of help."""
        return "TEXT"

    def parse(self, said: str) -> object:
        """Return the value of what a person types. Raises ValueError with a sentence."""
        return said.strip()

    def typed(self, value: Any) -> str:
        """Return a value as a person would type it."""
        return "" if value is None else str(value)

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002  some look things up
        """Return a value in words."""
        return str(value)

    def choices(self, there: There) -> dict[Any, str]:  # noqa: ARG002  some look things up
        """Return the values to choose from, in words; none where it is typed."""
        return {}

    def taken(self, value: Any, there: There) -> object:  # noqa: ARG002  some look things up
        """Return a value with its names known. Raises InputError for what is not there."""
        return value


@dataclass(frozen=True)
class Figure(Takes):
    """A number between bounds."""

    unit: str = ""
    """mm, pt, or the thing that is counted."""
    whole: bool = False
    least: float | None = None
    most: float | None = None

    @property
    def may_be(self) -> str:
        """Return 'from 3 to 72 pt', '0 mm or more'."""
        unit = "" if self.whole else self.unit
        if self.most is None:
            return "any figure" if self.least is None else f"{_amount(self.least, unit)} or more"
        return f"from {self.least or 0:g} to {_amount(self.most, unit)}"

    @property
    def sign(self) -> str:
        """Return the unit, or N."""
        return "N" if self.whole else self.unit.upper() or "PART"

    def parse(self, said: str) -> float:
        """Return a figure, typed with a point or a comma."""
        value = figure(said)
        if value is None:
            raise ValueError(f"{said or 'nothing'} is no figure")
        if not self.whole:
            return value
        if value != int(value):
            raise ValueError(f"{said} is no whole number")
        return int(value)

    def typed(self, value: Any) -> str:
        """Return the figure without its unit."""
        return f"{value:g}"

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return '4 sheets', '0.25 mm'."""
        many = "s" if self.whole and value != 1 else ""
        return _amount(float(str(value)), f"{self.unit}{many}")


@dataclass(frozen=True)
class Figures(Takes):
    """Several lengths in mm, each by its name."""

    names: tuple[str, ...]

    @property
    def may_be(self) -> str:
        """Return 'left,right,top,bottom in mm'."""
        return f"{self.sign} in mm, 0 or more"

    @property
    def sign(self) -> str:
        """Return the names as they are typed."""
        return ",".join(self.names)

    def parse(self, said: str) -> tuple[float, ...]:
        """Return the lengths of '6,6,6,12'."""
        found = [figure(part) for part in said.split(",")]
        lengths = tuple(length for length in found if length is not None and length >= 0)
        if len(lengths) != len(self.names) or len(found) != len(lengths):
            raise ValueError(f"{said}: write {self.may_be}")
        return lengths

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return 'left 6 mm, right 6 mm'."""
        return " ".join(f"{name} {getattr(value, name):g}" for name in self.names) + " mm"

    def taken(self, value: Any, there: There) -> object:  # noqa: ARG002
        """Return lengths in a row by their names."""
        if isinstance(value, list | tuple) and len(value) == len(self.names):
            return dict(zip(self.names, value, strict=True))
        return value


@dataclass(frozen=True)
class Choice(Takes):
    """One of a few."""

    said: Mapping[str | int, str]
    """What each is for, '' where it says so itself."""

    @property
    def may_be(self) -> str:
        """Return 'even or free'."""
        *others, last = map(str, self.said)
        return f"{', '.join(others)} or {last}"

    @property
    def sign(self) -> str:
        """Return them all."""
        return "|".join(map(str, self.said))

    def parse(self, said: str) -> object:
        """Return the one that was typed."""
        for value in self.said:
            if str(value) == said.strip():
                return value
        raise ValueError(f"{said}: give {self.may_be}")

    def words(self, value: Any, there: There) -> str:
        """Return 'trimmer: every cut goes edge to edge'."""
        return self.choices(there).get(value, str(value))

    def choices(self, there: There) -> dict[Any, str]:  # noqa: ARG002
        """Return each with what it is for."""
        return {
            value: f"{value}: {words}" if words else f"{value}"
            for value, words in self.said.items()
        }


@dataclass(frozen=True)
class Flag(Takes):
    """Yes or no."""

    @property
    def may_be(self) -> str:
        """Return 'yes or no'."""
        return "yes or no"

    def words(self, value: Any, there: There) -> str:
        """Return yes or no."""
        return self.choices(there)[bool(value)]

    def choices(self, there: There) -> dict[Any, str]:  # noqa: ARG002
        """Return both."""
        return {True: "yes", False: "no"}


@dataclass(frozen=True)
class Name(Takes):
    """One of the things that there are."""

    of: Of

    @property
    def sign(self) -> str:
        """Return KIND, ID, COLUMN."""
        return {Of.KIND: "KIND", Of.STOCK: "ID", Of.PANEL: "PANEL"}.get(self.of, "COLUMN")

    def typed(self, value: Any) -> str:
        """Return its id."""
        return str(getattr(value, "id", value))

    def words(self, value: Any, there: There) -> str:
        """Return its name."""
        key = self.typed(value)
        return there[self.of].get(key, key)

    def choices(self, there: There) -> dict[Any, str]:
        """Return the names of all."""
        return dict(there[self.of])

    def taken(self, value: Any, there: There) -> object:
        """Return its id."""
        return known(self.of, self.typed(value), there)


@dataclass(frozen=True)
class Names(Takes):
    """Some of the things that there are."""

    of: Of

    @property
    def sign(self) -> str:
        """Return KIND, PANEL."""
        return Name(self.of).sign

    def words(self, value: Any, there: There) -> str:
        """Return their names."""
        return ", ".join(Name(self.of).words(one, there) for one in _items(value)) or "none"

    def choices(self, there: There) -> dict[Any, str]:
        """Return what there is to say of all."""
        return dict(there[self.of])

    def taken(self, value: Any, there: There) -> object:  # noqa: ARG002
        """Return them sorted, each once; whether they are there hangs on what goes with them."""
        return sorted({str(one) for one in _items(value)})


@dataclass(frozen=True)
class Phrases(Takes):
    """Words, and what stands for them."""

    @property
    def sign(self) -> str:
        """Return how one is typed."""
        return "WORDS=FORM"

    def parse(self, said: str) -> tuple[str, str]:
        """Return one of them; no form takes it back."""
        words, found, form = said.partition("=")
        if not found or not words.strip():
            raise ValueError(f"{said}: write the words and the form, as Adventure=Adv.")
        return words.strip(), form.strip()

    def typed(self, value: Any) -> str:
        """Return all in a line."""
        return ", ".join(f"{words}={form}" for words, form in _pairs(value))

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return all in a line."""
        return ", ".join(f"{words}: {form}" for words, form in _pairs(value)) or "none"


@dataclass(frozen=True)
class FontFile(Takes):
    """A font file, and which font of it."""

    @property
    def sign(self) -> str:
        """Return FILE."""
        return "FILE"

    def words(self, value: Any, there: There) -> str:
        """Return what it calls itself."""
        return there[Of.FONT].get(getattr(value, "path", ""), "your own")


@dataclass(frozen=True)
class GroupColours(Takes):
    """The colours that a person gave to groups, by column and group."""

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return how many there are."""
        given = sum(len(groups) for _, groups in _pairs(value))
        return f"{given} of your own" if given else "as chosen"


@dataclass(frozen=True)
class Usual(Takes):
    """What may be left to what is usual."""

    one: Takes
    value: Any
    """What is kept then."""
    said: str
    """The word that leaves it."""
    usual: str
    """What is then, in words."""

    @property
    def may_be(self) -> str:
        """Return what it may be otherwise, or the word."""
        return f"{self.one.may_be}, or {self.said}" if self.one.may_be else ""

    @property
    def sign(self) -> str:
        """Return that of what it is otherwise."""
        return f"{self.one.sign}|{self.said}" if isinstance(self.one, Choice) else self.one.sign

    def parse(self, said: str) -> object:
        """Return the value, or what is kept where it is left."""
        return self.value if said.strip() in {self.said, ""} else self.one.parse(said)

    def typed(self, value: Any) -> str:
        """Return the value, or the word."""
        return self.said if value == self.value else self.one.typed(value)

    def words(self, value: Any, there: There) -> str:
        """Return the value in words, or what is usual."""
        return self.usual if value == self.value else self.one.words(value, there)

    def choices(self, there: There) -> dict[Any, str]:
        """Return those there are, and last to leave it."""
        return {**self.one.choices(there), self.value: self.usual}

    def taken(self, value: Any, there: There) -> object:
        """Return the value, or what is kept where it is left."""
        if value is None or value in (self.value, self.said):
            return self.value
        return self.one.taken(value, there)


@dataclass(frozen=True)
class ByKind(Takes):
    """Something for each case kind, kept by the kind's id."""

    one: Takes
    every: bool
    """What is kept under "" holds for every kind."""
    kept: Literal["values", "names"] = "values"
    """Kept are the values, or only the names of the kinds that have it."""

    @property
    def sign(self) -> str:
        """Return how one is typed."""
        return f"KIND={self.one.sign}"

    def parse(self, said: str) -> tuple[str, object]:
        """Return a kind and its value."""
        kind, parted, value = said.partition("=")
        if not parted:
            raise ValueError(f"{said}: write {self.sign}, or KIND=usual for the usual")
        return kind.strip(), self.one.parse(value)

    def of(self, value: Any, kind: str) -> object:
        """Return what is kept for a kind, or for every kind under ""."""
        if self.kept == "names":
            return kind in _items(value)
        nothing = () if isinstance(self.one, Names) else None
        return dict(_pairs(value)).get(kind, nothing)

    def words(self, value: Any, there: There) -> str:
        """Return the kinds that are set apart, with what for."""
        if self.kept == "names":
            return ", ".join(_kind(kind, there) for kind in _items(value)) or "no case kind"
        found = (
            f"{self.one.words(one, there)} ({_kind(key, there)})" for key, one in _pairs(value)
        )
        return ", ".join(found) or ("none" if self.every else "no case kind")

    def taken(self, value: Any, there: There) -> object:
        """Return what is changed by the kinds' ids; a list of names is all there will be."""
        if self.kept == "names" and not isinstance(value, Mapping):
            return sorted({_kind_id(one, there) for one in _items(value)})
        return {_kind_id(key, there): self.one.taken(one, there) for key, one in _pairs(value)}


def _kind(kind: str, there: There) -> str:
    return there[Of.KIND].get(kind, kind) or "every kind"


def _kind_id(said: object, there: There) -> str:
    return known(Of.KIND, str(said), there) if said else ""


def _amount(value: float, unit: str) -> str:
    return f"{value:g} {unit}".strip()


def _items(value: Any) -> Iterable[Any]:
    return value if isinstance(value, list | tuple | set | frozenset) else ()


def _pairs(value: Any) -> Iterable[tuple[str, Any]]:
    return value.items() if isinstance(value, Mapping) else ()

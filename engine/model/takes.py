"""What a setting takes: a figure, one of a few words, the name of something, and so on.

Each of these reads what a person types, says in words what is set, and says what may be.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine.model.naming import Of, There, known
from engine.model.units import figure


class Takes:
    """What a setting takes."""

    @property
    def may_be(self) -> str:
        """What that is, after the words 'it is'; empty where it hangs on what there is."""
        return ""

    @property
    def sign(self) -> str:
        """What stands for it in a line of help."""
        return "TEXT"

    def parse(self, said: str) -> Any:
        """Return the value of what a person types. Raises ValueError with a sentence."""
        return said.strip()

    def typed(self, value: Any) -> str:
        """Return a value as a person would type it."""
        return str(value)

    def words(self, value: Any, there: There) -> str:
        """Return a value in words."""
        return self.choices(there).get(value, str(value))

    def choices(self, there: There) -> dict[Any, str]:  # noqa: ARG002  names look there
        """Return the values to choose from, in words; none where it is typed."""
        return {}

    def taken(self, value: Any, there: There) -> Any:  # noqa: ARG002  names look there
        """Return a value by the ids of what it names. Raises InputError for what is not there."""
        return value


@dataclass(frozen=True)
class Figure(Takes):
    """A number between bounds."""

    unit: str = ""
    """mm, pt, or the thing that a whole number counts."""
    whole: bool = False
    least: float = 0.0
    most: float | None = None

    @property
    def may_be(self) -> str:
        """Return 'from 3 to 72 pt', '0 mm or more'."""
        unit = "" if self.whole else self.unit
        if self.most is None:
            return f"{_amount(self.least, unit)} or more"
        return f"from {self.least:g} to {_amount(self.most, unit)}"

    @property
    def sign(self) -> str:
        """Return the unit, or N."""
        return "N" if self.whole else self.unit.upper() or "PART"

    def parse(self, said: str) -> float:
        """Return a figure, typed with a point or a comma."""
        value = figure(said)
        if value is None:
            raise ValueError(f"{said or 'nothing'} is no figure")
        if self.whole and value != int(value):
            raise ValueError(f"{said} is no whole number")
        return int(value) if self.whole else value

    def typed(self, value: Any) -> str:
        """Return the figure without its unit."""
        return f"{value:g}"

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return '4 sheets', '0.25 mm'."""
        return _amount(value, f"{self.unit}s" if self.whole and value != 1 else self.unit)


class Words(Takes):
    """Anything, in a few words."""


@dataclass(frozen=True)
class Lengths(Takes):
    """Several lengths in mm, each by its name."""

    names: tuple[str, ...]

    @property
    def may_be(self) -> str:
        """Return 'left,right,top,bottom in mm, 0 or more'."""
        return f"{self.sign} in mm, 0 or more"

    @property
    def sign(self) -> str:
        """Return the names as the lengths are typed."""
        return ",".join(self.names)

    def parse(self, said: str) -> tuple[float, ...]:
        """Return the lengths of '6,6,6,12'."""
        lengths = [figure(part) for part in said.split(",")]
        found = tuple(length for length in lengths if length is not None)
        if len(found) != len(lengths) or len(found) != len(self.names):
            raise ValueError(f"{said}: write {self.may_be}")
        return found

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return 'left 6 right 6 mm'."""
        return " ".join(f"{name} {getattr(value, name):g}" for name in self.names) + " mm"

    def taken(self, value: Any, there: There) -> Any:  # noqa: ARG002
        """Return lengths in a row by their names."""
        many = _is_many(value) and len(value) == len(self.names)
        return dict(zip(self.names, value, strict=True)) if many else value


@dataclass(frozen=True)
class Choice(Takes):
    """One of a few."""

    said: Mapping[Any, str]
    """What each is for, '' where it says so itself."""

    @property
    def may_be(self) -> str:
        """Return 'even or free'."""
        *others, last = map(self.typed, self.said)
        return f"{', '.join(others)} or {last}"

    @property
    def sign(self) -> str:
        """Return them all."""
        return "|".join(map(self.typed, self.said))

    def parse(self, said: str) -> Any:
        """Return the one that was typed."""
        for value in self.said:
            if self.typed(value) == said.strip():
                return value
        raise ValueError(f"{said}: give {self.may_be}")

    def typed(self, value: Any) -> str:
        """Return its word."""
        return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)

    def choices(self, there: There) -> dict[Any, str]:  # noqa: ARG002
        """Return each with what it is for: 'trimmer: every cut goes edge to edge'."""
        return {
            one: ": ".join(filter(None, (self.typed(one), what))) for one, what in self.said.items()
        }


class Flag(Choice):
    """Yes or no."""

    def __init__(self) -> None:
        super().__init__({True: "", False: ""})


@dataclass(frozen=True)
class Name(Takes):
    """One of the things that there are."""

    of: Of

    @property
    def sign(self) -> str:
        """Return KIND, ID, COLUMN."""
        signs = {Of.KIND: "KIND", Of.STOCK: "ID", Of.PANEL: "PANEL", Of.LANGUAGE: "LANGUAGE"}
        return signs.get(self.of, "COLUMN")

    def typed(self, value: Any) -> str:
        """Return its id."""
        return str(getattr(value, "id", value))

    def words(self, value: Any, there: There) -> str:
        """Return its name."""
        return there[self.of].get(self.typed(value), self.typed(value))

    def choices(self, there: There) -> dict[Any, str]:
        """Return the names of all."""
        return dict(there[self.of])

    def taken(self, value: Any, there: There) -> str:
        """Return its id."""
        return known(self.of, self.typed(value), there)


@dataclass(frozen=True)
class Several(Name):
    """Some of the things that there are."""

    def typed(self, value: Any) -> str:
        """Return their ids in a row."""
        return " ".join(value)

    def words(self, value: Any, there: There) -> str:
        """Return them in a row."""
        names = {} if self.of is Of.PANEL else there[self.of]
        return ", ".join(names.get(one, one) for one in value) or "none"

    def taken(self, value: Any, there: There) -> Any:
        """Return them sorted, each once; whether panels are there hangs on their case kind."""
        if not _is_many(value):
            return value
        if self.of is Of.PANEL:
            return sorted(set(value))
        return tuple(sorted({known(self.of, one, there) for one in value}))


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
        return ", ".join(f"{words}={form}" for words, form in value.items())

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return all in a line."""
        return self.typed(value) or "none"


class FontFile(Takes):
    """A font file, and which font of it."""

    @property
    def sign(self) -> str:
        """Return FILE."""
        return "FILE"

    def words(self, value: Any, there: There) -> str:
        """Return what it calls itself."""
        return there[Of.FONT].get(value.path, "your own")


class Pins(Takes):
    """The colours that a person gave to groups, by column and group."""

    def words(self, value: Any, there: There) -> str:  # noqa: ARG002
        """Return how many there are."""
        given = sum(map(len, value.values()))
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

    def parse(self, said: str) -> Any:
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

    def taken(self, value: Any, there: There) -> Any:
        """Return the value, or what is kept where it is left."""
        left = value is None or value in (self.value, self.said)
        return self.value if left else self.one.taken(value, there)


@dataclass(frozen=True)
class ByKind(Takes):
    """Something for each case kind, kept by the kind's id."""

    one: Takes
    every: bool = False
    """What is kept under "" holds for every kind."""

    @property
    def sign(self) -> str:
        """Return how one is typed."""
        return "KIND=VALUE"

    def parse(self, said: str) -> tuple[str, Any]:
        """Return a kind and its value."""
        kind, parted, value = said.partition("=")
        if not parted:
            raise ValueError(f"{said}: write the case kind and the value, as KIND={self.one.sign}")
        return kind.strip(), self.one.parse(value)

    def of(self, value: Any, kind: str) -> Any:
        """Return what is kept for a kind, or for every kind under ""."""
        return value.get(kind, () if isinstance(self.one, Several) else None)

    def words(self, value: Any, there: There) -> str:
        """Return the kinds that are set apart, with what is set."""
        kinds = (
            f"{_kind(kind, there)}: {self.one.words(one, there)}" for kind, one in value.items()
        )
        return "; ".join(kinds) or "none"

    def taken(self, value: Any, there: There) -> Any:
        """Return what is changed, by the kinds' ids."""
        return {self.kind(kind, there): self.one.taken(one, there) for kind, one in value.items()}

    def kind(self, said: str, there: There) -> str:
        """Return the id of a kind, "" for every kind. Raises CaseError."""
        return "" if self.every and not said else known(Of.KIND, said, there)


@dataclass(frozen=True)
class KindsThat(ByKind):
    """Yes for some case kinds, which alone are kept."""

    def of(self, value: Any, kind: str) -> bool:
        """Return whether a kind, or with "" every kind, is among them."""
        return kind in value

    def words(self, value: Any, there: There) -> str:
        """Return the kinds."""
        return ", ".join(_kind(kind, there) for kind in value) or "none"

    def taken(self, value: Any, there: There) -> Any:
        """Return what is changed by the kinds' ids; or all that there will be, of a row of them."""
        if isinstance(value, Mapping):
            return super().taken(value, there)
        return sorted({self.kind(kind, there) for kind in value})


def _kind(kind: str, there: There) -> str:
    return there[Of.KIND].get(kind, kind) or "every kind"


def _amount(value: float, unit: str) -> str:
    return f"{value:g} {unit}".strip()


def _is_many(value: object) -> bool:
    return isinstance(value, list | tuple | set | frozenset)

"""The titles on the edges of a game: what was accepted stands, the rest is proposed.

Titles of one case kind and edge are set as a shelf, so that they can be of one size and none
is abridged to what could be taken for another.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import NamedTuple

import msgspec

from engine import lettering
from engine.cases import FlatNet, FlatPanel, Role, Spine
from engine.cases.casing import Casing
from engine.lettering import Abridged, Mode, Names, Setting, Shelf, Show, TypeStyle, edgemarks
from engine.lettering.results import EdgeReport, Wording
from engine.lettering.signs import room_for
from engine.model import EdgeTitle, FontRef, Furniture, Game, Logo, Picture, Sign, Size, bare
from engine.model.columns import value_of
from engine.model.errors import FontError
from engine.model.settings import Settings

SHOWN = {
    Show.LOGO: "It stands for the title.",
    Show.BOTH: "It stands beside the title.",
    Show.TITLE: "The title is set instead.",
}
"""What an edge shows, a sentence each."""


class Titled(NamedTuple):
    """How a game's title stands on its edges."""

    titles: tuple[EdgeTitle, ...]
    """What its design carries."""
    edges: tuple[EdgeReport, ...]
    """The same in numbers."""
    doubts: tuple[str, ...]
    """What is wrong with it, a sentence each."""


class Entry(NamedTuple):
    """A game as far as the titles of others hang on it."""

    title: str
    case: str
    left_out: frozenset[str]
    words: str
    """What the person wrote on its edges, where no abridging comes to that."""
    mark: str
    stripe: str


class ShelfKey(NamedTuple):
    """What the edges have in common whose titles are set together."""

    case: str
    panel: str
    edge: Size
    runs: Spine | None


class Titler:
    """Proposes titles for one state of the collection. Shelves are set once, when first asked."""

    def __init__(
        self,
        casing: Casing,
        settings: Settings,
        games: Mapping[str, Game],
        fonts: Path,
        signs: tuple[Sign, ...],
    ) -> None:
        """Propose for these games under this setup; the collection's fonts lie in ``fonts``.

        Every edge keeps room for the second ``signs`` that groups have.
        """
        self._signs = signs
        self._casing = casing
        self._set = settings.lettering
        self._fonts = fonts
        self._shelves: dict[ShelfKey, Shelf] = {}
        self._found: dict[FontRef, FontRef | FontError] = {}
        self._roll = self._read(games)

    def same_as(self, other: Titler) -> bool:
        """Return whether titles are proposed alike, given the same setup."""
        return self._roll == other._roll and self._signs == other._signs

    # --- the font ------------------------------------------------------------------------

    @cached_property
    def _chosen(self) -> tuple[FontRef | None, str]:
        """The font of the setup as designs carry it, and a sentence where it cannot be used."""
        if self._set.font is None:
            return None, ""
        try:
            self._opened(self._set.font)
        except FontError as error:
            return None, f"{error} Titles are proposed in the font that ships."
        return self._set.font, ""

    @property
    def chosen_font(self) -> FontRef | None:
        """The font of what is proposed, as designs carry it; None is the one that ships."""
        return self._chosen[0]

    @property
    def distance(self) -> float:
        """From how far the edges are to be read, in mm."""
        return self._set.distance

    @property
    def font_note(self) -> str:
        """What is wrong with the font of the setup, a sentence; empty for nothing."""
        return self._chosen[1]

    def font(self, stored: FontRef | None) -> FontRef:
        """Return a font of a design, found in the collection; None is the one that ships."""
        return lettering.default_font() if stored is None else lettering.kept(stored, self._fonts)

    def _opened(self, stored: FontRef) -> FontRef:
        """Return a font of the collection once it is seen to be there. Raises FontError."""
        if stored not in self._found:
            font = self.font(stored)
            try:
                self._found[stored] = lettering.choose_font(Path(font.path), font.face, font.axes)
            except FontError as error:
                self._found[stored] = error
        found = self._found[stored]
        if isinstance(found, FontError):
            raise found
        return found

    # --- proposing -----------------------------------------------------------------------

    def titled(self, game: Game, net: FlatNet) -> Titled:
        """Return how a game's title stands on each edge of its net."""
        given = {title.panel: title for title in game.accepted.title or ()}
        titles: list[EdgeTitle] = []
        edges: list[EdgeReport] = []
        doubts: list[str] = []
        for panel in edges_of(net):
            if panel.name in given:
                title = given[panel.name]
                setting, apart = self._judged(title, panel, game.title), ""
            else:
                setting, apart = self._proposed(game, net.kind, panel)
                title = self._title(game, panel, setting)
            titles.append(title)
            edges.append(_report(panel, title, setting, apart, self.distance))
            if not lettering.is_sure(setting):
                why = ", ".join((*setting.notes, *map(str, setting.steps)))
                doubts.append(f"The title on {panel.name}: {why}.")
        if doubts and self.font_note:
            doubts.append(self.font_note)
        return Titled(tuple(titles), tuple(edges), tuple(doubts))

    def worded(self, game: Game, net: FlatNet, lines: tuple[str, ...]) -> tuple[EdgeTitle, ...]:
        """Return the person's own lines on each edge: as large as they can be, but for even."""
        font = self.font(self.chosen_font)
        titles = []
        for panel in edges_of(net):
            style, size = self.style(net.kind, panel), self.shelf(net.kind, panel).size
            setting = lettering.set_lines(lines, panel.reading, font, style)
            if size and setting.size > size:
                setting = lettering.judge(setting.lines, size, panel.reading, font, style)
            titles.append(self._title(game, panel, setting))
        return tuple(titles)

    def wordings(self, game: Game, net: FlatNet) -> tuple[Wording, ...]:
        """Return the title, then what it may be abridged to, step by step, as on no other game."""
        chain = lettering.abridgements(game.title, self._dictionary)
        found = {one.text: one for one in chain if self.is_free(game, one)}
        for panel in edges_of(net):
            setting, _ = self._proposed(game, net.kind, panel)
            if setting.steps:
                found.setdefault(
                    setting.steps[-1].after, Abridged(setting.steps[-1].after, setting.steps)
                )
        shown = {_letters(title.lines) for title in self.titled(game, net).titles}
        return tuple(
            Wording(text=text, steps=tuple(map(str, one.steps)), now={_letters((text,))} == shown)
            for text, one in found.items()
        )

    def reworded(self, game: Game, net: FlatNet, text: str) -> tuple[EdgeTitle, ...]:
        """Return a wording of the title on each edge, broken and sized as a proposal is."""
        font = self.font(self.chosen_font)
        titles = []
        for panel in edges_of(net):
            style, size = self.style(net.kind, panel), self.shelf(net.kind, panel).size
            setting = lettering.set_among(Abridged(text), size, panel.reading, font, style)
            titles.append(self._title(game, panel, setting))
        return tuple(titles)

    def with_logo(
        self, game: Game, net: FlatNet, picture: Picture, share: float, *, alone: bool
    ) -> tuple[tuple[EdgeTitle, ...], tuple[str, ...]]:
        """Return a logo on each edge, the title beside it or instead where it is too small.

        ``share`` is the part of its height that its letters take, 0 for an estimate; it stands
        by itself whatever its size if it is wanted ``alone``. Then what came of it, in words.
        """
        font, shape = self.font(self.chosen_font), picture.width / picture.height
        titles, words = [], []
        for panel in edges_of(net):
            found = lettering.propose_logo(
                game.title,
                Size(picture.width, picture.height),
                panel.reading,
                font,
                self.style(net.kind, panel),
                share=share or None,
                alone=alone,
            )
            beside = found.show is Show.BOTH
            setting = found.title or Setting((), self._set.smallest, 0.0, 0.0, fits=True)
            title = self._title(game, panel, setting)
            if found.show is not Show.TITLE:
                logo = bare(Logo(picture.name, shape, beside=beside, share=share))
                furniture = found.style.furniture
                title = msgspec.structs.replace(title, logo=logo, furniture=furniture)
            titles.append(bare(title))
            words.append(f"{panel.name}: {found.words} {SHOWN[found.show]}")
        return tuple(titles), tuple(words)

    def style(self, case: str, panel: FlatPanel) -> TypeStyle:
        """Return the style in which titles are set on an edge of a case kind."""
        chosen = self._set
        upright = panel.runs is not None and not {case, ""}.isdisjoint(chosen.upright)
        return TypeStyle(
            smallest=chosen.smallest,
            largest=chosen.largest,
            lines=chosen.lines,
            narrowest=chosen.narrowest,
            distance=chosen.distance,
            upright=upright,
            spine=panel.runs or Spine.DESCENDING,
            furniture=self._furniture(panel),
            dictionary=self._dictionary,
        )

    def shelf(self, case: str, panel: FlatPanel) -> Shelf:
        """Return how the titles of all games of a case kind are set on one of its edges."""
        key = ShelfKey(case, panel.name, panel.reading, panel.runs)
        if key not in self._shelves:
            titles = {
                game: one.title
                for game, one in self._roll.items()
                if one.case == case and panel.name not in one.left_out
            }
            self._shelves[key] = lettering.set_shelf(
                titles,
                panel.reading,
                self.font(self.chosen_font),
                self.style(case, panel),
                Mode(self._set.mode),
                names=self._names,
            )
        return self._shelves[key]

    def is_free(self, game: Game, wording: Abridged) -> bool:
        """Return whether no other game of the collection could be meant by a wording."""
        return self._names.free(game.id, wording)

    # --- within --------------------------------------------------------------------------

    def _read(self, games: Mapping[str, Game]) -> dict[str, Entry]:
        mark, stripe = self._set.mark, self._set.stripe
        colours = edgemarks.stripes_of(games.values(), stripe) if stripe else {}
        return {
            game.id: Entry(
                title=game.title,
                case=self._casing.case_of(game),
                left_out=self._casing.left_out(game),
                words=self._own_words(game),
                mark=edgemarks.mark_of(game, mark) if mark else "",
                stripe=colours.get(value_of(game, stripe), "") if stripe else "",
            )
            for game in games.values()
        }

    def _own_words(self, game: Game) -> str:
        known = lettering.forms(game.title, self._dictionary)
        said = (" ".join(title.lines) for title in game.accepted.title or ())
        return next((words for words in said if words.casefold() not in known), "")

    @property
    def _dictionary(self) -> tuple[tuple[str, str], ...]:
        return tuple(self._set.dictionary.items())

    def _furniture(self, panel: FlatPanel) -> Furniture:
        return Furniture(
            mark=self._set.mark_room if self._set.mark else 0.0,
            mark_end=self._set.mark_end,
            mark_across=self._set.mark_across and panel.runs is not None,
            stripe=self._set.stripe_room if self._set.stripe else 0.0,
            sign=max((room_for(sign, panel.reading) for sign in self._signs), default=0.0),
        )

    @cached_property
    def _names(self) -> Names:
        """What every game of the collection is or may be called."""
        own = {f"{key} as worded": one.words for key, one in self._roll.items() if one.words}
        titles = {key: one.title for key, one in self._roll.items()}
        return Names({**titles, **own}, self._dictionary)

    def _proposed(self, game: Game, case: str, panel: FlatPanel) -> tuple[Setting, str]:
        """Return a proposed setting, and why it is not like the rest of the shelf."""
        shelf = self.shelf(case, panel)
        return shelf.settings[game.id], shelf.apart.get(game.id, "")

    def _judged(self, title: EdgeTitle, panel: FlatPanel, whole: str) -> Setting:
        """Return the numbers of what was accepted, with the steps that led there."""
        style = self._style_of(title, panel)
        if title.logo and not title.logo.beside:
            return _logo_judged(title, title.logo, panel, style)
        at, note = title.font, ""
        try:
            font = self.font(None) if at is None else self._opened(at)
        except FontError as error:
            font, note = self.font(None), str(error).rstrip(".")
        setting = lettering.judge(
            title.lines, title.size, panel.reading, font, style, width=title.width
        )
        if note:
            setting = msgspec.structs.replace(setting, fits=False, notes=(*setting.notes, note))
        said = _letters(title.lines)
        for one in lettering.abridgements(whole, self._dictionary):
            if _letters((one.text,)) == said:
                return msgspec.structs.replace(setting, steps=one.steps)
        return setting

    def _style_of(self, title: EdgeTitle, panel: FlatPanel) -> TypeStyle:
        chosen = TypeStyle(
            smallest=self._set.smallest, largest=self._set.largest, distance=self._set.distance
        )
        return lettering.style_of(title, panel.runs, chosen)

    def _title(self, game: Game, panel: FlatPanel, setting: Setting) -> EdgeTitle:
        """Return what a design carries of a setting."""
        entry = self._roll[game.id]
        return bare(
            EdgeTitle(
                panel=panel.name,
                lines=setting.lines,
                size=setting.size,
                width=setting.width,
                font=self.chosen_font,
                upright=setting.upright,
                furniture=self._furniture(panel),
                mark=entry.mark,
                stripe=entry.stripe,
            )
        )


def _logo_judged(title: EdgeTitle, logo: Logo, panel: FlatPanel, style: TypeStyle) -> Setting:
    """Return the numbers of a logo that stands for the title: of its letters."""
    size = Size(logo.shape, 1.0)
    height = lettering.logo_height(size, panel.reading, style, logo.share or None)
    reads_at = lettering.reading_distance(height)
    return Setting((), title.size, height, reads_at, fits=True)


def edges_of(net: FlatNet) -> Iterator[FlatPanel]:
    """Yield the edges of a net, in its order."""
    return (panel for panel in net.panels if panel.role is Role.EDGE)


def _letters(lines: tuple[str, ...]) -> str:
    """Return lines as one, without the spaces at which they may be broken."""
    return "".join("".join(lines).split())


def _report(
    panel: FlatPanel, title: EdgeTitle, setting: Setting, apart: str, distance: float
) -> EdgeReport:
    steps = tuple(map(str, setting.steps))
    notes = setting.notes or ((apart,) if apart and not steps else ())
    return EdgeReport(
        panel=panel.name,
        lines=title.lines,
        size=title.size,
        cap_height=setting.cap_height,
        reads_at=setting.reads_at,
        turn=panel.turn,
        steps=steps,
        notes=notes,
        width=title.width,
        upright=title.upright,
        mark=title.mark,
        stripe=title.stripe,
        reaches=setting.reads_at >= distance,
        logo="" if title.logo is None else "logo and title" if title.logo.beside else "logo",
    )

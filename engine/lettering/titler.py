"""The titles on the edges of a game: what was accepted stands, the rest is proposed.

Titles of one case kind and edge are set as a shelf, so that they can be of one size and none
is abridged to what could be taken for another.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

import msgspec

from engine import lettering
from engine.cases import FlatNet, FlatPanel, Role, Spine
from engine.cases.casing import Casing
from engine.lettering.abridging import Abridged, abridgements
from engine.lettering.logos import Show
from engine.lettering.results import EdgeReport, Wording
from engine.lettering.roll import Roll, RollChange
from engine.lettering.setting import Setting
from engine.lettering.shelf import Mode, Shelf
from engine.lettering.signs import room_for
from engine.lettering.sizing import Sizing
from engine.lettering.standins import StandIns
from engine.lettering.style import TypeStyle, style_of
from engine.lettering.titlefonts import TitleFonts
from engine.model import EdgeTitle, Furniture, Game, Logo, Picture, Sign, Size, bare
from engine.model.settings import Lettering

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


class ShelfKey(NamedTuple):
    """What the edges have in common whose titles are set together."""

    case: str
    panel: str
    edge: Size
    runs: Spine | None


class Titler:
    """Proposes titles for one state of the collection. Shelves are set as far as they are asked."""

    def __init__(
        self, chosen: Lettering, roll: Roll, fonts: TitleFonts, signs: tuple[Sign, ...]
    ) -> None:
        """Propose as was ``chosen``; see ``Titler.of``."""
        self.fonts = fonts
        self._set = chosen
        self._roll = roll
        self._signs = signs
        self._shelves: dict[ShelfKey, Shelf] = {}

    @classmethod
    def of(
        cls,
        casing: Casing,
        chosen: Lettering,
        games: Mapping[str, Game],
        stand_ins: StandIns,
        signs: tuple[Sign, ...] = (),
    ) -> Titler:
        """Return who proposes titles for these games under this setup.

        Every edge keeps room for the second ``signs`` that groups have.
        """
        roll = Roll.of(casing, chosen, games)
        return cls(chosen, roll, TitleFonts(chosen, stand_ins), signs)

    def after(
        self, changed: Mapping[str, Game | None], signs: tuple[Sign, ...] = ()
    ) -> tuple[Titler, frozenset[str]]:
        """Return who proposes titles once some games have changed, come (last), or gone (None).

        Under the same setup. It proposes just what a new one would, and shares with this one
        what still holds; where nothing changed that titles hang on, it is this one. Then the
        games whose proposed titles may be other ones now, of those that were asked for here.
        """
        change = self._roll.after(changed)
        if change.roll is self._roll and signs == self._signs:
            return self, frozenset()
        new = Titler(self._set, change.roll, self.fonts, signs)
        if signs != self._signs:
            return new, frozenset({*self._roll.entries, *change.entries})
        touched = {*change.entries, *change.restriped}
        for key, shelf in self._shelves.items():
            new._shelves[key], others = self._brought_up(key, shelf, change)
            touched |= others
        return new, frozenset(touched)

    def _brought_up(
        self, key: ShelfKey, shelf: Shelf, change: RollChange
    ) -> tuple[Shelf, frozenset[str]]:
        titles = {
            game: entry.title if entry and entry.stands_on(key.case, key.panel) else None
            for game, entry in change.entries.items()
        }
        titles = {game: said for game, said in titles.items() if said != shelf.titles.get(game)}
        names = change.roll.names
        if not titles and names is self._roll.names:
            return shelf, frozenset()
        return shelf.after(titles, names, change.forms)

    @property
    def distance(self) -> float:
        """From how far the edges are to be read, in mm."""
        return self._set.distance

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
                shelf = self.shelf(net.kind, panel)
                setting, apart = shelf.setting(game.id), shelf.why(game.id)
                title = self._title(game, panel, setting, game.title)
            titles.append(title)
            edges.append(_report(panel, title, setting, apart, self.distance))
            if not lettering.is_sure(setting):
                why = ", ".join((*setting.notes, *map(str, setting.steps)))
                doubts.append(f"The title on {panel.name}: {why}.")
        if doubts and self.fonts.note:
            doubts.append(self.fonts.note)
        return Titled(tuple(titles), tuple(edges), tuple(doubts))

    def worded(self, game: Game, net: FlatNet, lines: tuple[str, ...]) -> tuple[EdgeTitle, ...]:
        """Return the person's own lines on each edge: as large as they can be, but for even."""
        font, text = self.fonts.font, " ".join(lines)
        titles = []
        for panel in edges_of(net):
            style, size = self.style(net.kind, panel, text), self.shelf(net.kind, panel).size
            setting = lettering.set_lines(lines, panel.reading, font, style)
            if size and setting.size > size:
                setting = lettering.judge(setting.lines, size, panel.reading, font, style)
            titles.append(self._title(game, panel, setting, text))
        return tuple(titles)

    def wordings(self, game: Game, net: FlatNet) -> tuple[Wording, ...]:
        """Return the title, then what it may be abridged to, step by step, as on no other game."""
        chain = abridgements(game.title, self._roll.dictionary)
        found = {one.text: one for one in chain if self.is_free(one)}
        for panel in edges_of(net):
            setting = self.shelf(net.kind, panel).setting(game.id)
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
        titles = []
        for panel in edges_of(net):
            sizing = Sizing(panel.reading, self.fonts.font, self.style(net.kind, panel, text))
            setting = sizing.among(text, self.shelf(net.kind, panel).size)
            titles.append(self._title(game, panel, setting, text))
        return tuple(titles)

    def with_logo(
        self, game: Game, net: FlatNet, picture: Picture, share: float, *, alone: bool
    ) -> tuple[tuple[EdgeTitle, ...], tuple[str, ...]]:
        """Return a logo on each edge, the title beside it or instead where it is too small.

        ``share`` is the part of its height that its letters take, 0 for an estimate; it stands
        by itself whatever its size if it is wanted ``alone``. Then what came of it, in words.
        """
        font, shape = self.fonts.font, picture.width / picture.height
        titles, words = [], []
        for panel in edges_of(net):
            found = lettering.propose_logo(
                game.title,
                Size(picture.width, picture.height),
                panel.reading,
                font,
                self.style(net.kind, panel, game.title),
                share=share or None,
                alone=alone,
            )
            beside = found.show is Show.BOTH
            setting = found.title or Setting((), self._set.smallest, 0.0, 0.0, fits=True)
            title = self._title(game, panel, setting, game.title)
            if found.show is not Show.TITLE:
                logo = bare(Logo(picture.name, shape, beside=beside, share=share))
                furniture = found.style.furniture
                title = msgspec.structs.replace(title, logo=logo, furniture=furniture)
            titles.append(bare(title))
            words.append(f"{panel.name}: {found.words} {SHOWN[found.show]}")
        return tuple(titles), tuple(words)

    def style(self, case: str, panel: FlatPanel, text: str = "") -> TypeStyle:
        """Return the style in which ``text`` is proposed on an edge of a case kind."""
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
            dictionary=self._roll.dictionary,
            fallbacks=self.fonts.fallbacks(text),
        )

    def shelf(self, case: str, panel: FlatPanel) -> Shelf:
        """Return how the titles of all games of a case kind are set on one of its edges."""
        key = ShelfKey(case, panel.name, panel.reading, panel.runs)
        if key not in self._shelves:
            self._shelves[key] = Shelf(
                self._roll.titles(case, panel.name),
                panel.reading,
                self.fonts.font,
                self.style(case, panel),
                Mode(self._set.mode),
                names=self._roll.names,
                fallbacks=self.fonts.fallbacks,
            )
        return self._shelves[key]

    def is_free(self, wording: Abridged) -> bool:
        """Return whether no other game than that of a wording could be meant by it."""
        return self._roll.names.free(wording)

    # --- within --------------------------------------------------------------------------

    def _furniture(self, panel: FlatPanel) -> Furniture:
        return Furniture(
            mark=self._set.mark_room if self._set.mark else 0.0,
            mark_end=self._set.mark_end,
            mark_across=self._set.mark_across and panel.runs is not None,
            stripe=self._set.stripe_room if self._set.stripe else 0.0,
            sign=max((room_for(sign, panel.reading) for sign in self._signs), default=0.0),
        )

    def _judged(self, title: EdgeTitle, panel: FlatPanel, whole: str) -> Setting:
        """Return the numbers of what was accepted, with the steps that led there."""
        style = TypeStyle(
            smallest=self._set.smallest, largest=self._set.largest, distance=self._set.distance
        )
        font, fallbacks, notes = self.fonts.of(title)
        style = style_of(title, panel.runs, fallbacks, style)
        if title.logo and not title.logo.beside:
            return _logo_judged(title, title.logo, panel, style)
        setting = lettering.judge(
            title.lines, title.size, panel.reading, font, style, width=title.width
        )
        if notes:
            setting = msgspec.structs.replace(setting, fits=False, notes=(*setting.notes, *notes))
        said = _letters(title.lines)
        for one in abridgements(whole, self._roll.dictionary):
            if _letters((one.text,)) == said:
                return msgspec.structs.replace(setting, steps=one.steps)
        return setting

    def _title(self, game: Game, panel: FlatPanel, setting: Setting, text: str) -> EdgeTitle:
        """Return what a design carries of a setting of ``text``, or of a part of it."""
        mark = self._roll.entries[game.id].mark
        return bare(
            EdgeTitle(
                panel=panel.name,
                lines=setting.lines,
                size=setting.size,
                width=setting.width,
                font=self.fonts.chosen,
                upright=setting.upright,
                furniture=self._furniture(panel),
                mark=mark,
                stripe=self._roll.stripe(game.id),
                stand_ins=self.fonts.named(text, "".join(setting.lines), mark),
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

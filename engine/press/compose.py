"""A design on a net becomes an insert: something that draws itself onto a pen.

Drawn in this order, all of it clipped to the dieline grown by the bleed: the base colour;
the art on its panels; the base colour again on every panel without art, so that bleed of the
art never reaches one; what stands on the edges. Ink modes without art lay the base colour on the
edges alone. Past each fold runs what must not lack there; see ``folds``.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from contextlib import nullcontext
from pathlib import Path
from typing import NamedTuple

import msgspec
from fontTools.misc.transform import Transform

from engine.artwork import ArtRequest, Bleed, Laid, base_in, draw_pattern, laid, room, text_in
from engine.cases import FlatNet, FlatPanel, Role
from engine.lettering import set_block
from engine.lettering.signs import draw_sign
from engine.model import (
    Art,
    Colours,
    Design,
    End,
    FontRef,
    Furniture,
    InkMode,
    Pattern,
    Rect,
    Size,
)
from engine.model.errors import PictureError
from engine.press.edges import NO_LOGOS, Kept, draw_edge
from engine.press.folds import CARRIED, past_scores, scored_to, within
from engine.press.pens.base import Pen, Ring, box, frame

_HAIR = 0.001
"""In mm: a hundredth of what a length may be off by."""

_BLANK = frozenset({Role.BLANK})
WHITE = "#ffffff"

WITHOUT_ART = {InkMode.EDGES, InkMode.LETTERS}
"""Modes that leave everything white but the edges."""


class Insert(NamedTuple):
    """A finished insert, not yet anywhere on paper. Made by ``compose``."""

    design: Design
    net: FlatNet
    picture: Path | None
    kept: Kept
    """What its edges are drawn with."""
    others: Mapping[str, Path] = NO_LOGOS
    """The pictures of other panels than the main one, by name."""

    def draw(self, pen: Pen, bleed: float) -> None:
        """Draw it in the net's frame, colour running ``bleed`` mm past every cut.

        Raises PictureError where the picture cannot be opened, FontError for a bad font.
        """
        outline = self.net.bleed(bleed)
        with pen.clip(outline):
            if self.design.ink not in WITHOUT_ART:
                pen.fill(outline, self.colours.base)
            self._draw_panels(pen, self.net.panels, bleed)

    def draw_panel(self, pen: Pen, name: str) -> None:
        """Draw one panel as ``draw`` does, cut out, where it lies in the net's frame.

        Raises CaseError for a panel that the net lacks, and what ``draw`` raises.
        """
        panel = self.net.panel(name)
        area = [box(panel.rect)]
        with pen.clip(self.net.dieline), pen.clip(area):
            pen.fill(area, WHITE if self.design.ink in WITHOUT_ART else self.colours.base)
            self._draw_panels(pen, (panel,), 0.0)

    def panel_requests(self, name: str) -> tuple[ArtRequest, ...]:
        """Return the art that ``draw_panel`` will ask for."""
        panel = self.net.panel(name)
        shown = self._shown(panel) if panel in self._art_panels() else None
        return (self._request(panel, *shown, 0.0),) if shown else ()

    def _draw_panels(self, pen: Pen, panels: tuple[FlatPanel, ...], bleed: float) -> None:
        """Draw what these panels show over the base colour of the whole."""
        base, art = self.colours.base, self._art_panels()
        if self.design.ink in WITHOUT_ART:
            self._draw_edges_alone(pen, panels, bleed)
        for panel in art:
            if panel in panels:
                self._draw_art(pen, panel, bleed)
        for panel in panels:
            if art and panel not in art:
                pen.fill([self._plain(panel, art)], base)
        if art or self.design.ink in WITHOUT_ART:
            self._carry_edges(pen, art, bleed)
        self._draw_titles(pen, panels, bleed)
        for panel in panels:
            if panel.role is Role.EDGE:
                self._draw_sign(pen, panel)

    def _draw_titles(self, pen: Pen, panels: tuple[FlatPanel, ...], bleed: float) -> None:
        names = {panel.name for panel in panels}
        for title in self.design.title:
            if title.panel in names:
                panel = self.net.panel(title.panel)
                sides = self._sides(panel, bleed, {Role.ART, Role.BLANK})
                draw_edge(pen, panel, title, self.colours, self.kept, sides, self.design.ink)

    @property
    def colours(self) -> Colours:
        """The colours of the edges as the ink mode prints them."""
        base, text, sign = (
            self.design.colours.base,
            self.design.colours.text,
            self.design.colours.sign,
        )
        mode = self.design.ink
        return Colours(base_in(base, mode), text_in(base, text, mode), sign)

    def _art_panels(self) -> tuple[FlatPanel, ...]:
        """Return the panels on which something else than the base colour is drawn."""
        art = self.design.art
        if self.design.ink in WITHOUT_ART:
            return ()
        every = self.net.art
        if self.picture is None and (art.pattern is not Pattern.PLAIN or art.words):
            return every
        pictured = self._pictured()
        said = [one for one in every if (art.back or art.on(one.name)) and one not in pictured]
        return (*pictured, *said)

    def _pictured(self) -> tuple[FlatPanel, ...]:
        """Return the panels that show the picture: the main one, or those of a split scan.

        The spine of a scan shows only where no title is set over it.
        """
        if self.picture is None:
            return ()
        main = self.net.art[:1]
        if self.design.art.split is None:
            return main
        taken = {one.panel for one in self.design.title if any(one.lines) or one.logo}
        taken.update(one.panel for one in self.design.art.others)
        return (
            tuple(
                panel
                for panel in self.net.panels
                if panel.part and panel.role is not Role.BLANK and panel.name not in taken
            )
            or main
        )

    def _draw_art(self, pen: Pen, panel: FlatPanel, bleed: float) -> None:
        """Draw the picture on ``panel``, or what stands in for one, and the words it has."""
        sides = self._sides(panel, bleed)
        at, art = frame(panel.rect, panel.turn), self.design.art
        shown = self._shown(panel)
        if shown is not None:
            its = shown[1]
            self._draw_picture(pen, self._request(panel, *shown, bleed), at, panel)
            self._draw_words(pen, band(panel.reading, its), at, its.words, its.lines)
            return
        base = self.design.colours.base
        for patch in draw_pattern(art.pattern, panel.reading, sides, base):
            rings = [_moved(ring, at) for ring in patch.rings]
            pen.fill(rings, base_in(patch.colour, self.design.ink))
        whole = Rect(0.0, 0.0, *panel.reading)
        if self.picture is None and panel in self.net.art[:1]:
            self._draw_words(pen, whole, at, art.words, art.lines)
        elif art.back:
            self._draw_words(pen, whole, at, art.back[0], art.back[1:])

    def _shown(self, panel: FlatPanel) -> tuple[Path, Art] | None:
        """Return the picture that a panel shows, and how it lies; None where it shows none."""
        own = self.design.art.on(panel.name)
        if own is not None:
            return (self.others[own.picture], own) if own.picture is not None else None
        if self.picture is not None and panel in self._pictured():
            return self.picture, self.design.art
        return None

    def _draw_picture(self, pen: Pen, asked: ArtRequest, at: Transform, panel: FlatPanel) -> None:
        """Draw a picture on all of ``panel``, whose frame is ``at``, but its band of words."""
        at = at.translate(0.0, panel.reading.height - asked.panel.height)
        self._lay(pen, at, laid(asked), asked.panel, asked.bleed)

    def _lay(self, pen: Pen, at: Transform, art: Laid, size: Size, sides: Bleed) -> None:
        """Put ``art`` on a panel of ``size`` whose frame ``at`` places, and on its bleed."""
        outline = [_moved(_grown(size, sides), at)]
        if art.ground:
            pen.fill(outline, art.ground)
        x, y, width, height = art.place
        beyond = x < -sides.left - _HAIR or x + width > size.width + sides.right + _HAIR
        beyond |= y < -sides.bottom - _HAIR or y + height > size.height + sides.top + _HAIR
        with pen.clip(outline) if beyond else nullcontext():
            pen.image(art.data, at.translate(x, y).scale(width, height))

    def _request(self, panel: FlatPanel, picture: Path, art: Art, bleed: float) -> ArtRequest:
        sides = self._sides(panel, bleed)
        size, design = panel.reading, self.design
        its = room(size, art)
        sides = sides._replace(
            bottom=sides.bottom if its.height == size.height else 0.0,
            right=sides.right if its.width == size.width else 0.0,
        )
        bare = msgspec.structs.replace(art, band=0.0, others=())
        return ArtRequest(
            str(picture), bare, its, sides, design.colours.base, panel.part, design.ink
        )

    def requests(self, bleed: float) -> tuple[ArtRequest, ...]:
        """Return the art that ``draw`` will ask for."""
        found = ((panel, self._shown(panel)) for panel in self._art_panels())
        return tuple(self._request(panel, *shown, bleed) for panel, shown in found if shown)

    def _draw_edges_alone(self, pen: Pen, panels: tuple[FlatPanel, ...], bleed: float) -> None:
        """Lay the base colour on the edges and their bleed, and nothing anywhere else."""
        for panel in panels:
            if panel.role is Role.EDGE:
                sides = reading_sides(panel, self.net.cut_sides(panel.name), bleed)
                grown = _moved(_grown(panel.reading, sides), frame(panel.rect, panel.turn))
                pen.fill([grown], self.colours.base)

    def _sides(self, panel: FlatPanel, bleed: float, onto: Collection[Role] = _BLANK) -> Bleed:
        """Return how far past each side of ``panel`` it is drawn, as it is read.

        Past cuts it runs by the bleed, past folds to panels of the roles ``onto`` a little.
        """
        onto = () if panel.role is Role.BLANK else onto
        past = reading_sides(panel, scored_to(self.net, panel, onto), CARRIED)
        cut = reading_sides(panel, self.net.cut_sides(panel.name), bleed)
        return Bleed(*map(max, cut, past))

    def _plain(self, panel: FlatPanel, art: Collection[FlatPanel]) -> Ring:
        """Return what of a panel has the base colour: a blank one leaves its neighbour's art."""
        taken = panel.role is Role.BLANK and any(one.role is Role.ART for one in art)
        return box(within(self.net, panel, CARRIED) if taken else panel.rect)

    def _carry_edges(self, pen: Pen, art: Collection[FlatPanel], bleed: float) -> None:
        """Lay the base colour of the edges a little past their folds."""
        for panel in self.net.panels:
            if panel.role is Role.EDGE and panel not in art:
                for strip in past_scores(self.net, panel, CARRIED, bleed):
                    pen.fill([box(strip)], self.colours.base)

    def _draw_words(
        self, pen: Pen, area: Rect, at: Transform, title: str, lines: tuple[str, ...]
    ) -> None:
        """Set a title large and lines below it in ``area``, in a panel's reading frame."""
        if not title or min(area.width, area.height) <= 0.0:
            return
        font = self.kept.font
        fallbacks = self.kept.fallbacks(font, self.design.art.stand_ins)
        there = at.translate(area.x, area.y)
        for line in set_block(title, lines, Size(area.width, area.height), font, fallbacks):
            pen.text(line.run, there.transform(line.at), self.colours.text)

    def _draw_sign(self, pen: Pen, panel: FlatPanel) -> None:
        title = next((one for one in self.design.title if one.panel == panel.name), None)
        beside = title.furniture if title else Furniture()
        start = beside.stripe if beside.stripe_end is End.HEAD else 0.0
        at = frame(panel.rect, panel.turn).translate(start, 0.0)
        edge = Size(panel.reading.width - start, panel.reading.height)
        rings = [_moved(ring, at) for ring in draw_sign(self.colours.sign, edge)]
        if rings:
            pen.fill(rings, self.colours.text)


def band(panel: Size, art: Art) -> Rect:
    """Return what of ``panel`` the band of words takes, in its reading frame."""
    its = room(panel, art)
    if its.height < panel.height:
        return Rect(0.0, 0.0, panel.width, panel.height - its.height)
    return Rect(its.width, 0.0, panel.width - its.width, panel.height)


def _moved(ring: Ring, at: Transform) -> Ring:
    return [at.transformPoint(point) for point in ring]


def _grown(size: Size, sides: Bleed) -> Ring:
    """Return the outline of a panel with its bleed, in its reading frame."""
    width = size.width + sides.left + sides.right
    height = size.height + sides.bottom + sides.top
    return box(Rect(-sides.left, -sides.bottom, width, height))


def compose(
    design: Design,
    net: FlatNet,
    picture: Path | None,
    font: FontRef,
    *,
    fonts: Path | None = None,
    logos: Mapping[str, Path] = NO_LOGOS,
    others: Mapping[str, Path] = NO_LOGOS,
) -> Insert:
    """Return the insert of ``design`` on ``net``.

    ``picture`` is the file of the design's art; it may be None only where that is plain. ``font``
    is for titles that name none; the fonts that they name lie in ``fonts``, their logos are
    ``logos`` by name, the pictures of other panels ``others``. Raises CaseError for a title on a
    panel that the net lacks, PictureError for a picture that is missing.
    """
    for title in design.title:
        net.panel(title.panel)
    kept = Kept(font, fonts, logos)
    files = {name: others.get(name) for name in design.art.pictures}
    if design.art.picture is not None:
        files[design.art.picture] = picture
    for name, file in files.items():
        if file is None or not file.is_file():
            where = name if file is None else file.name
            raise PictureError(where, "the picture is gone", "Put it back or choose another")
    return Insert(design, net, picture if design.art.picture else None, kept, others)


def reading_sides(panel: FlatPanel, cut: Collection[str], bleed: float) -> Bleed:
    """Return the bleed on each side of ``panel`` as it is read.

    ``cut`` names the sides of its rectangle on the net that meet a cut.
    """
    around = ("right", "top", "left", "bottom")
    quarter = panel.turn // 90
    turned = {around[i]: around[(i + quarter) % 4] for i in range(4)}
    names = set(cut)
    return Bleed(**{side: bleed if turned[side] in names else 0.0 for side in Bleed._fields})

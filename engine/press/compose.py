"""A design on a net becomes an insert: something that draws itself onto a pen.

Drawn in this order, all of it clipped to the dieline grown by the bleed: the base colour;
the picture on its panels; the base colour again on every panel without a picture, so that
bleed of the art never reaches one; what stands on the edges.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import NamedTuple

from engine.artwork import Sides, render
from engine.cases import FlatNet, FlatPanel, Role
from engine.errors import PictureError
from engine.press.edges import NO_LOGOS, Kept, draw_edge
from engine.press.pens.base import Pen, box, frame
from engine.values import Design, FontRef


class Insert(NamedTuple):
    """A finished insert, not yet anywhere on paper. Made by ``compose``."""

    design: Design
    net: FlatNet
    picture: Path | None
    kept: Kept
    """What its edges are drawn with."""

    def draw(self, pen: Pen, bleed: float) -> None:
        """Draw it in the net's frame, colour running ``bleed`` mm past every cut.

        Raises PictureError where the picture cannot be opened, FontError for a bad font.
        """
        outline = self.net.bleed(bleed)
        base = self.design.colours.base
        pictured = self._pictured()
        with pen.clip(outline):
            pen.fill(outline, base)
            for panel in pictured:
                self._draw_art(pen, panel, bleed)
            for panel in self.net.panels:
                if pictured and panel not in pictured:
                    pen.fill([box(panel.rect)], base)
            for title in self.design.title:
                panel = self.net.panel(title.panel)
                sides = reading_sides(panel, self.net.cut_sides(panel.name), bleed)
                draw_edge(pen, panel, title, self.design.colours, self.kept, sides)

    def _pictured(self) -> tuple[FlatPanel, ...]:
        """Return the panels that show the picture: the main one, or those of a split scan.

        The spine of a scan shows only where no title is set over it.
        """
        if self.picture is None:
            return ()
        art = [panel for panel in self.net.panels if panel.role is Role.ART]
        if self.design.art.split is None:
            return tuple(art[:1])
        titled = {one.panel for one in self.design.title if any(one.lines) or one.logo}
        return tuple(
            panel
            for panel in self.net.panels
            if panel.part and panel.role is not Role.BLANK and panel.name not in titled
        ) or tuple(art[:1])

    def _draw_art(self, pen: Pen, panel: FlatPanel, bleed: float) -> None:
        if self.picture is None:
            return
        sides = reading_sides(panel, self.net.cut_sides(panel.name), bleed)
        size = panel.reading
        base = self.design.colours.base
        data = render(self.picture, self.design.art, size, sides, base, panel.part)
        width = size.width + sides.left + sides.right
        height = size.height + sides.bottom + sides.top
        at = frame(panel.rect, panel.turn).translate(-sides.left, -sides.bottom)
        pen.image(data, at.scale(width, height))


def compose(
    design: Design,
    net: FlatNet,
    picture: Path | None,
    font: FontRef,
    *,
    fonts: Path | None = None,
    logos: Mapping[str, Path] = NO_LOGOS,
) -> Insert:
    """Return the insert of ``design`` on ``net``.

    ``picture`` is the file of the design's art; it may be None only where that is plain.
    ``font`` is for titles that name none; the fonts that they name lie in ``fonts``, their
    logos are ``logos`` by name. Raises CaseError for a title on a panel that the net lacks,
    PictureError for a picture that is missing.
    """
    for title in design.title:
        net.panel(title.panel)
    kept = Kept(font, fonts, logos)
    wanted = design.art.picture
    if wanted is None:
        return Insert(design, net, None, kept)
    if picture is None or not picture.is_file():
        where = wanted if picture is None else picture.name
        raise PictureError(where, "the picture is gone", "Put it back or choose another")
    return Insert(design, net, picture, kept)


def reading_sides(panel: FlatPanel, cut: Collection[str], bleed: float) -> Sides:
    """Return the bleed on each side of ``panel`` as it is read.

    ``cut`` names the sides of its rectangle on the net that meet a cut.
    """
    around = ("right", "top", "left", "bottom")
    quarter = panel.turn // 90
    turned = {around[i]: around[(i + quarter) % 4] for i in range(4)}
    names = set(cut)
    return Sides(**{side: bleed if turned[side] in names else 0.0 for side in Sides._fields})

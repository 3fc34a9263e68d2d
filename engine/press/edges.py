"""An edge as it is drawn: its stripe, its mark, and the title or its logo."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from engine import lettering
from engine.artwork import ArtRequest, Bleed, base_in, laid
from engine.cases import FlatPanel
from engine.model import Art, Colours, EdgeTitle, End, Fit, FontRef, InkMode, Rect, Size
from engine.model.errors import FontError, PictureError
from engine.press.pens.base import Pen, box, frame

NO_LOGOS: Mapping[str, Path] = MappingProxyType({})


class Kept(NamedTuple):
    """Where the edges of an insert find what they are drawn with."""

    font: FontRef
    """For titles that name none."""
    fonts: Path | None = None
    """The folder of the fonts that titles name."""
    logos: Mapping[str, Path] = NO_LOGOS
    """Pictures by their names."""

    def opened(self, named: FontRef | None) -> FontRef:
        """Return a font that a design names. Raises FontError where it is not to be had."""
        if named is None:
            return self.font
        if self.fonts is None:
            raise FontError(named.path, "the font is gone", "Set it up anew from its file")
        return lettering.kept(named, self.fonts)

    def fallbacks(self, font: FontRef, stand_ins: Iterable[FontRef]) -> tuple[FontRef, ...]:
        """Return the fonts to ask for what an opened one lacks. Raises FontError."""
        return lettering.fallbacks(font, map(self.opened, stand_ins))

    def logo(self, name: str) -> Path:
        """Return the file of a logo. Raises PictureError where it is gone."""
        path = self.logos.get(name)
        if path is None or not path.is_file():
            raise PictureError(name, "the logo is gone", "Put it back or set the title in type")
        return path


LOGO_MODES = {InkMode.EDGES: InkMode.FULL, InkMode.LETTERS: InkMode.GREY}
"""How a logo is drawn where it is not as the art is: it stands for letters."""


def draw_edge(
    pen: Pen,
    panel: FlatPanel,
    title: EdgeTitle,
    colours: Colours,
    kept: Kept,
    bleed: Bleed,
    mode: InkMode = InkMode.FULL,
) -> None:
    """Draw all that ``title`` says of an edge, a stripe running into the ``bleed``.

    ``colours`` are as ``mode`` prints them. Raises FontError for a bad font, PictureError for a
    logo that is gone.
    """
    at = frame(panel.rect, panel.turn)
    font, edge = kept.opened(title.font), panel.reading
    style = lettering.style_of(title, panel.runs, kept.fallbacks(font, title.stand_ins))
    logo = title.logo
    furnished = lettering.furnish(
        edge,
        font,
        style,
        mark=title.mark,
        symbol=bool(logo and logo.beside),
        stripe=bool(title.stripe),
    )
    if furnished.stripe is not None:
        stripe = _bled(furnished.stripe, title.furniture.stripe_end, bleed)
        ring = [at.transformPoint(point) for point in box(stripe)]
        pen.fill([ring], base_in(title.stripe, mode))
    if logo is not None:
        room = furnished.symbol or lettering.safe_area(edge, title.furniture)
        place = lettering.fitted(Size(logo.shape, 1.0), room)
        data = _logo(kept.logo(logo.picture), place, colours.base, LOGO_MODES.get(mode, mode))
        pen.image(data, at.translate(place.x, place.y).scale(place.width, place.height))
    laid = lettering.lay(title.lines, title.size, edge, font, style, width=title.width)
    for line in (*furnished.mark, *laid):
        pen.text(line.run, at.transform(line.at), colours.text)


def _logo(path: Path, place: Rect, ground: str, mode: InkMode) -> bytes:
    """Return a picture that fills ``place``, what is clear in it showing the ground."""
    art = Art(picture=path.name, fit=Fit.STRETCH)
    size = Size(place.width, place.height)
    return laid(ArtRequest(str(path), art, size, Bleed(), ground, mode=mode)).data


def _bled(stripe: Rect, end: End, bleed: Bleed) -> Rect:
    """Return a stripe drawn out past the cuts that it meets."""
    left = bleed.left if end is End.HEAD else 0.0
    right = bleed.right if end is End.FOOT else 0.0
    return Rect(
        stripe.x - left,
        stripe.y - bleed.bottom,
        stripe.width + left + right,
        stripe.height + bleed.bottom + bleed.top,
    )

"""One panel of an insert, cut out of the page that prints and turned as it is read."""

from __future__ import annotations

from io import BytesIO

from engine.artwork import page_pixels
from engine.model.units import MM_PER_INCH
from engine.press.compose import Insert
from engine.press.proof import AROUND, insert_page

ASIDE = 2.0
"""What is left beside what stands on a panel that is looked at closely, in mm."""


def panel_picture(insert: Insert, name: str, ppi: float = 300.0, *, closely: bool = False) -> bytes:
    """Return a PNG of a panel at ``ppi`` pixels to the inch, upright as it is read.

    ``closely`` leaves out what is bare at its ends. Raises CaseError if there is no such panel,
    else what drawing the insert raises.
    """
    from PIL import Image, ImageChops

    panel, size = insert.net.panel(name), insert.net.size
    page = page_pixels(insert_page(insert), ppi=ppi)
    dots = ppi / MM_PER_INCH

    def at(mm: float) -> int:
        return round((AROUND + mm) * dots)

    left, top = panel.rect.x, size.height - panel.rect.y - panel.rect.height
    right, foot = left + panel.rect.width, top + panel.rect.height
    cut = page.crop((at(left), at(top), at(right), at(foot)))
    level = cut.rotate(-panel.turn, expand=True)
    if closely:
        bare = Image.new(level.mode, level.size, insert.colours.base)
        stands = ImageChops.difference(level, bare).getbbox()
        if stands:
            aside = round(ASIDE * dots)
            level = level.crop(
                (max(0, stands[0] - aside), 0, min(level.width, stands[2] + aside), level.height)
            )
    file = BytesIO()
    level.save(file, "PNG", dpi=(ppi, ppi))
    return file.getvalue()

"""What of a picture a proposal would print, and where: the windows that rendering uses."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from engine.artwork.windows import PixelRect, part_of, window
from engine.cases import FlatNet, FlatPanel, Role
from engine.model import Art, Fit, Size


class View(NamedTuple):
    """A panel, and what it shows. Boxes are in pixels of the straightened picture."""

    panel: str
    part: str
    """The part of a flat wrap that it takes; empty where the art is not split."""
    size: Size
    """Of the panel as it is read, in mm."""
    taken: PixelRect
    """What trim and split leave of the picture for this panel."""
    shown: PixelRect
    """What lies on the panel; reaches beyond ``taken`` where a matte shows."""
    band: float = 0.0
    """Part of the panel that a band of words covers: below, or where negative at its right."""

    @property
    def seen(self) -> PixelRect:
        """What of the picture is in sight."""
        left, top, right, bottom = self.shown
        clear = self.shown._replace(
            right=right + min(0.0, self.band) * (right - left),
            bottom=bottom - max(0.0, self.band) * (bottom - top),
        )
        return overlap(self.taken, clear)

    @property
    def across(self) -> float:
        """Pixels to a mm across the panel."""
        return self.shown.width / self.size.width

    @property
    def down(self) -> float:
        """Pixels to a mm down the panel."""
        return self.shown.height / self.size.height

    @property
    def stretch(self) -> float:
        """How much longer one side is drawn than the other: 0.06 is 6 %."""
        return max(self.across, self.down) / min(self.across, self.down) - 1.0

    @property
    def empty(self) -> float:
        """Part of the panel's area that shows no picture."""
        return 1.0 - area(self.seen) / area(self.shown)

    def placed(self, box: PixelRect) -> PixelRect:
        """Return where a box of the picture lies, in mm from the panel's upper left corner."""
        return PixelRect(
            (box.left - self.shown.left) / self.across,
            (box.top - self.shown.top) / self.down,
            (box.right - self.shown.left) / self.across,
            (box.bottom - self.shown.top) / self.down,
        )


def views(
    art: Art, net: FlatNet, size: tuple[int, int], dot: int, titled: Collection[str]
) -> tuple[View, ...]:
    """Return the panels that show a picture of ``size`` pixels, the main one first.

    ``dot`` is the pixels to a side of one dot of a screenshot, 0 for other pictures; ``titled``
    names the panels on which a title is set, where the spine of a split scan does not show.
    """
    if art.picture is None:
        return ()
    main = [panel for panel in net.panels if panel.role is Role.ART][:1]
    if art.split is None:
        panels = main
    else:
        panels = [
            panel
            for panel in net.panels
            if panel.part and panel.role is not Role.BLANK and panel.name not in titled
        ] or main
    return tuple(_view(art, panel, size, dot) for panel in panels)


def _view(art: Art, panel: FlatPanel, size: tuple[int, int], dot: int) -> View:
    left, top, right, bottom = map(round, part_of(size, art, panel.part))
    taken = PixelRect(left, top, max(right, left + 1), max(bottom, top + 1))
    each = max(dot, 1) if art.fit is Fit.PIXELS else 1
    dots = (max(1, int(taken.width) // each), max(1, int(taken.height) // each))
    shown = window(dots, panel.reading, art)
    shown = PixelRect(
        taken.left + each * shown.left,
        taken.top + each * shown.top,
        taken.left + each * shown.right,
        taken.top + each * shown.bottom,
    )
    part = panel.part if art.split is not None else ""
    return View(panel.name, part, panel.reading, taken, shown, art.band)


def overlap(one: PixelRect, other: PixelRect) -> PixelRect:
    """Return what two boxes have in common; without width or height where that is nothing."""
    left, top = max(one.left, other.left), max(one.top, other.top)
    return PixelRect(
        left, top, max(left, min(one.right, other.right)), max(top, min(one.bottom, other.bottom))
    )


def pixels(box: PixelRect) -> tuple[int, int, int, int]:
    """Return a box on whole pixels."""
    return round(box.left), round(box.top), round(box.right), round(box.bottom)


def area(box: PixelRect) -> float:
    """Return the area of a box."""
    return box.width * box.height

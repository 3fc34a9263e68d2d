"""The edge of a case that faces the person, as it is seen."""

from __future__ import annotations

from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.cases import FlatNet, FlatPanel, Folded, Pose, Spine
from engine.model import Rect, Size
from engine.press import frame


class Faced(NamedTuple):
    """An edge before the person, in the frame of a view: x to their right, y up."""

    panel: FlatPanel
    pose: Pose

    @property
    def turn(self) -> int:
        """Degrees counter-clockwise by which its title is turned in the view."""
        return {Spine.DESCENDING: 270, Spine.ASCENDING: 90, None: 0}[self.panel.runs]

    @property
    def size(self) -> Size:
        """Width and height as it is seen."""
        width, height = self.panel.reading
        return Size(height, width) if self.turn else Size(width, height)

    def at(self, spot: Rect) -> Transform:
        """Return the transform from the net's frame to a view in which it fills ``spot``."""
        there = frame(spot, self.turn)
        return there.transform(frame(self.panel.rect, self.panel.turn).inverse())


def faced(net: FlatNet, folded: Folded, pose: Pose) -> Faced:
    """Return the edge that faces the person, of a net that is ``folded`` as it is stored.

    A case without an edge shows the panel of its art, or what it has: there is no other.
    """
    name = next(iter(folded.facing), "")
    shown = net.panel(name) if name else next(iter((*net.art, *net.panels)))
    return Faced(shown, pose)

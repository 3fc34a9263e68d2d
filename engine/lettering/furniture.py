"""What stands on an edge beside the title: a mark at one end, a stripe for a group.

The room they take is the same on every insert of a shelf, whether a game fills it or not, so
that titles and marks stand at one place all along the shelf.
"""

from __future__ import annotations

from engine.model import End, Furniture, Rect, Size

NO_FURNITURE = Furniture()


def safe_area(edge: Size, furniture: Furniture = NO_FURNITURE) -> Rect:
    """Return where the title may stand on an edge, in its reading frame, in mm.

    A safe zone of 5 mm is the habit (common practice, no published source) but would leave
    nothing of a 6 mm edge. Across the line it is an eighth of the edge, never less than
    0.6 mm, about what a home printer's feed errs (0.5 to 1 mm, common practice, no published
    source); along the line a thirtieth of its length, never less than across.
    """
    across, along = _insets(edge)
    left = right = along
    if furniture.stripe:
        left, right = _kept(left, right, furniture.stripe, furniture.stripe_end)
    if furniture.sign:
        left, right = _kept(left, right, furniture.sign, End.HEAD)
    if furniture.mark:
        left, right = _kept(left, right, furniture.mark + across, furniture.mark_end)
    return Rect(
        left, across, max(edge.width - left - right, 0.0), max(edge.height - 2 * across, 0.0)
    )


def mark_area(edge: Size, furniture: Furniture) -> Rect:
    """Return where the mark may stand; nothing wide where no room is kept for one."""
    across, along = _insets(edge)
    beside = furniture.stripe if furniture.stripe_end == furniture.mark_end else 0.0
    if furniture.mark_end is End.HEAD:
        beside += furniture.sign
    left = along + beside
    if furniture.mark_end is End.FOOT:
        left = edge.width - left - furniture.mark
    return Rect(left, across, furniture.mark, max(edge.height - 2 * across, 0.0))


def stripe_area(edge: Size, furniture: Furniture) -> Rect:
    """Return the rectangle of the stripe: the full height of the edge, right at its end."""
    left = 0.0 if furniture.stripe_end is End.HEAD else edge.width - furniture.stripe
    return Rect(left, 0.0, furniture.stripe, edge.height)


def _insets(edge: Size) -> tuple[float, float]:
    across = min(5.0, max(0.6, edge.height / 8.0))
    return across, min(5.0, max(across, edge.width / 30.0))


def _kept(left: float, right: float, room: float, end: End) -> tuple[float, float]:
    return (left + room, right) if end is End.HEAD else (left, right + room)

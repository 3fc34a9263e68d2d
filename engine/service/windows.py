"""Windows on the shelf: the part of it that is in sight around a game, and its page."""

from __future__ import annotations

from collections.abc import Sequence

from engine.artwork.printing import prepare
from engine.cases import Pose
from engine.model import Rect, Size
from engine.model.waiting import Cancel, go_on
from engine.service.shelved import Shelved
from engine.shelf import drawing, laying
from engine.shelf.drawing import Part
from engine.shelf.laying import Laid

_PILES = 2
"""Piles that are in sight where one row would be: they are narrower than a row is long."""
_RING = 12
"""Pixels of the ring around the game that is looked at: half a cell's height."""


def drawn(parts: Sequence[Part], cancel: Cancel | None = None) -> bytes:
    """Return the PDF of shelves one above the other, their pictures drawn on all cores."""
    prepare((one for part in parts for one in part.requests()), cancel)
    go_on(cancel)
    return drawing.shelf_page(parts)


def window_for(shelf: Shelved, game: str, pixels: tuple[int, int], rows: float) -> Size:
    """Return the size in mm of a window in which so many rows or piles are in sight."""
    pose = shelf.pose_of(game)
    largest = _largest(shelf, pose)
    if pose is Pose.SHELF:
        height = rows * largest + 2 * laying.CLOSE
        return Size(height * pixels[0] / pixels[1], height)
    width = _PILES * rows * largest + 2 * laying.CLOSE
    return Size(width, width * pixels[1] / pixels[0])


def row_of(shelf: Shelved, game: str) -> float:
    """Return the rows that let a game fill a window: less than 1 where others are larger."""
    faced = shelf.faced_of(game)
    return _needs(faced.pose, faced.size) / _largest(shelf, faced.pose)


def part_around(shelf: Shelved, game: str, pixels: tuple[int, int], rows: float) -> Part:
    """Return the part of a shelf that is in sight with a game: its screenful of rows or piles."""
    size = window_for(shelf, game, pixels, rows)
    laid = shelf.laid_in(size)
    pose, spot = shelf.pose_of(game), laid.spot(game)
    shown = max(1, int(rows * (1 if pose is Pose.SHELF else _PILES)))
    window = _window(laid, spot.line, size, shown, pose)
    if rows < 1 and pose is Pose.SHELF:
        middle = spot.rect.y + spot.rect.height / 2
        window = window._replace(y=middle - size.height / 2)
    part = shelf.part(laid)
    ring = _RING * size.width / pixels[0]
    return part._replace(look=part.look._replace(at=game, window=window, ring=ring))


def _largest(shelf: Shelved, pose: Pose) -> float:
    """Return the room of the largest row, or pile, of a shelf, in mm."""
    items = [item for one in shelf.sections if one.pose is pose for item in one.items if item.game]
    return max(_needs(pose, item.size) for item in items)


def _needs(pose: Pose, edge: Size) -> float:
    """Return how high a row has to be for an edge, or how wide a pile, in mm."""
    if pose is Pose.SHELF:
        return edge.height + laying.AIR + laying.BOARD
    return edge.width + laying.AIR


def _window(laid: Laid, line: int, size: Size, shown: int, pose: Pose) -> Rect:
    """Return the window on the screenful of lines that a line is in."""
    section = laid.lines[line].section
    begun = next(n for n, one in enumerate(laid.lines) if one.section == section)
    first = laid.lines[begun + (line - begun) // shown * shown]
    inside, board = first.inside, first.board
    x, y = inside.x - laying.CLOSE, inside.y + inside.height + laying.CLOSE
    if pose is Pose.SHELF:
        return Rect(x, y - size.height, size.width, size.height)
    return Rect(x, board.y - laying.CLOSE, size.width, size.height)

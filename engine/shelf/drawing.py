"""The shelf drawn on a pen, true to size: the edges are those of the press.

What is printed stands solid, with a pin on the board beneath it; what is planned is as light as
a draft, without one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import sqrt
from typing import NamedTuple

import msgspec
from fontTools.misc.transform import Transform

from engine.artwork import ArtRequest
from engine.cases import Pose
from engine.lettering import TypeStyle, default_font, lay
from engine.model import FontRef, InkMode, Rect, Size
from engine.model.errors import InputError
from engine.model.units import pixels, points
from engine.press import Insert, PdfDocument, Pen, box, frame, moved, page_picture, turned
from engine.shelf.facing import Faced
from engine.shelf.laying import Laid, Line, Spot

ROOM, BACK, SHADE, WOOD, LIGHT = "#f4eee1", "#3b322b", "#2b241f", "#8b6a49", "#a98560"
"""The wall, the inside of the furniture, its darkest part, its boards and their upper edge."""
PLASTIC, CARD, INK, FAINT = "#d8d2c6", "#efe6d2", "#2a2723", "#f1e3c6"
"""A case's wall, a divider, words on either, and words on a board."""
PIN, HERE = "#e8c778", "#d2502a"
"""On the board beneath what is printed; around the game that is looked at."""
_RIM = 0.45
"""How much of a case's wall is seen around its insert, in mm."""

MOST_PIXELS = 60_000_000
"""A picture of more is refused: it would take some 250 MB while it is drawn."""
USUAL_PIXELS = 8_000_000
"""As many as a picture has at most where nobody asks for more."""
USUAL_PPI = 120.0


class Stood(NamedTuple):
    """A game's insert, and how its edge is seen."""

    insert: Insert
    faced: Faced
    printed: bool

    @property
    def drawn(self) -> Insert:
        """The insert as the picture shows it."""
        design = self.insert.design
        if self.printed or design.ink is not InkMode.FULL:
            return self.insert
        return self.insert._replace(design=msgspec.structs.replace(design, ink=InkMode.DRAFT))


class Look(NamedTuple):
    """How a shelf is drawn."""

    fallbacks: tuple[FontRef, ...] = ()
    """Fonts for the names of groups, where the one that ships lacks their script."""
    at: str = ""
    """The game that is looked at."""
    window: Rect | None = None
    """What is in sight; all where it is None."""
    finished: bool = False
    """All as it will be once everything is printed: what is planned is as solid, without pins."""
    ring: float = 2.2
    """How broad the ring around the game that is looked at is, in mm."""


class Part(NamedTuple):
    """A shelf to be drawn: where all stands, and how it is seen."""

    laid: Laid
    stood: Callable[[str], Stood]
    """By game."""
    poses: Mapping[int, Pose]
    """Of its sections, by their number."""
    look: Look

    @property
    def window(self) -> Rect:
        """What is in sight, in mm."""
        return self.look.window or Rect(0.0, 0.0, *self.laid.size)

    @property
    def spots(self) -> Iterator[Spot]:
        """What stands in the window, in part at least; what is looked at is the last."""
        shown = [one for one in self.laid.spots if one.rect.inset(-3.0).overlaps(self.window)]
        return iter(sorted(shown, key=lambda one: bool(one.item.game == self.look.at != "")))

    def shown(self, game: str) -> Stood:
        """Return a game as it is drawn."""
        one = self.stood(game)
        return one._replace(printed=True) if self.look.finished else one

    def requests(self) -> Iterator[ArtRequest]:
        """Yield the art that ``draw`` will ask for: edges that show a picture are few."""
        for spot in self.spots:
            if spot.item.game:
                one = self.shown(spot.item.game)
                yield from one.drawn.panel_requests(one.faced.panel.name)

    def draw(self, pen: Pen) -> None:
        """Draw from the lower left of the window. Raises what drawing an insert raises."""
        window, look = self.window, self.look
        mine = moved(pen, turned(0, -window.x, -window.y))
        with mine.clip([box(window)]):
            mine.fill([box(window)], ROOM)
            for words, where in self.laid.captions:
                if where.overlaps(window):
                    _write(mine, words, Rect(where.x, where.y + 2.0, where.width, 5.0), INK, look)
            for line in self.laid.lines:
                if _whole(line).overlaps(window):
                    _draw_line(mine, line, self.poses[line.section], look)
            for spot in self.spots:
                upright = self.poses[self.laid.lines[spot.line].section] is Pose.SHELF
                if spot.item.game:
                    _draw_edge(mine, spot, self.shown(spot.item.game), look, upright=upright)
                else:
                    _draw_divider(mine, spot, look, upright=upright)


def size_of(parts: Sequence[Part]) -> Size:
    """Return the size in mm of shelves one above the other."""
    return Size(max(part.window.width for part in parts), sum(part.window.height for part in parts))


def shelf_page(parts: Sequence[Part], title: str = "shelf") -> bytes:
    """Return a PDF of one page with shelves one above the other, true to size.

    Raises what drawing an insert raises.
    """
    size = size_of(parts)
    document = PdfDocument(title)
    pen = document.page(size)
    pen.fill([box(Rect(0.0, 0.0, *size))], ROOM)
    top = size.height
    for part in parts:
        top -= part.window.height
        part.draw(moved(pen, turned(0, 0.0, top)))
    return document.finish()


def usual_ppi(size: Size) -> float:
    """Return how fine a picture of ``size`` in mm is where nobody said."""
    across, up = (pixels(side, USUAL_PPI) for side in size)
    return USUAL_PPI * min(1.0, sqrt(USUAL_PIXELS / max(1.0, across * up)))


def picture(page: bytes, size: Size, ppi: float) -> bytes:
    """Return a PNG of a page, at ``ppi`` pixels to the inch. Raises InputError for too many."""
    if pixels(size.width, ppi) * pixels(size.height, ppi) > MOST_PIXELS:
        least = usual_ppi(size)
        raise InputError("ppi", "the picture would be too large", f"Give {least:.0f} or so")
    return page_picture(page, ppi)


# --- within ------------------------------------------------------------------------------


def _whole(line: Line) -> Rect:
    low, inside = line.board, line.inside
    return Rect(low.x, low.y, low.width, inside.y + inside.height - low.y)


def _draw_line(pen: Pen, line: Line, pose: Pose, look: Look) -> None:
    """Draw the furniture behind a line, and on its board what stands there."""
    x, y, width, height = line.inside
    pen.fill([box(Rect(x, y, width, height))], BACK)
    pen.fill([box(Rect(x, y + height - 3.0, width, 3.0))], SHADE)
    board = line.board
    pen.fill([box(board)], WOOD)
    pen.fill([box(Rect(board.x, board.y + board.height - 0.7, board.width, 0.7))], LIGHT)
    pen.fill([box(Rect(board.x, board.y, board.width, 0.8))], SHADE)
    if pose is not Pose.SHELF:
        pen.fill([box(Rect(x, y, 1.2, height))], WOOD)
    if line.says:
        room = Rect(board.x + 3.0, board.y + 1.9, board.width - 6.0, 4.6)
        _write(pen, line.says, room, FAINT, look)


def _draw_edge(pen: Pen, spot: Spot, one: Stood, look: Look, *, upright: bool) -> None:
    rect = spot.rect
    if spot.item.game == look.at:
        pen.fill([box(rect.inset(-look.ring))], HERE)
        pen.fill([_arrow(rect, look.ring, upright=upright)], HERE)
    pen.fill([box(rect.inset(-_RIM))], PLASTIC)
    one.drawn.draw_panel(moved(pen, one.faced.at(rect)), one.faced.panel.name)
    if one.printed and not look.finished:
        pen.fill([_pin(rect, upright=upright)], PIN)


def _arrow(rect: Rect, ring: float, *, upright: bool) -> list[tuple[float, float]]:
    """Return a triangle on the board, or at the side, that points to an edge."""
    if upright:
        x, y = rect.x + rect.width / 2, rect.y
        return [(x, y), (x - 3 * ring, y - 3 * ring), (x + 3 * ring, y - 3 * ring)]
    x, y = rect.x, rect.y + rect.height / 2
    return [(x, y), (x - 3 * ring, y + 3 * ring), (x - 3 * ring, y - 3 * ring)]


def _pin(rect: Rect, *, upright: bool) -> list[tuple[float, float]]:
    """Return a small diamond: on the board beneath an edge, or to its right."""
    if upright:
        x, y = rect.x + rect.width / 2, rect.y - 2.6
    else:
        x, y = rect.x + rect.width + 2.4, rect.y + rect.height / 2
    return [(x - 1.1, y), (x, y - 1.1), (x + 1.1, y), (x, y + 1.1)]


def _draw_divider(pen: Pen, spot: Spot, look: Look, *, upright: bool) -> None:
    rect = spot.rect
    pen.fill([box(rect)], CARD)
    if upright:
        reading, room = frame(rect, 270), Size(rect.height, rect.width)
    else:
        reading, room = frame(rect, 0), Size(rect.width, rect.height)
    words = Rect(1.6, 0.6, room.width - 3.2, room.height - 1.2)
    _write(moved(pen, reading), spot.item.group, words, INK, look)


def _write(pen: Pen, words: str, room: Rect, colour: str, look: Look) -> None:
    """Write words from the left of ``room``, as high as it is unless they are too long."""
    style, font = TypeStyle(fallbacks=look.fallbacks), default_font()
    size = points(room.height)
    for _ in range(2):
        placed = lay((words,), size, Size(room.width, room.height), font, style)
        left = min((one.x for one in placed), default=0.0)
        width = max((one.x + one.run.width for one in placed), default=0.0) - left
        if width <= room.width:
            break
        size *= room.width / width
    at = Transform().translate(room.x - left, room.y)
    for one in placed:
        pen.text(one.run, at.transform(one.at), colour)

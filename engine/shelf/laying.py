"""Edges side by side, in lines: rows on a shelf, files in a drawer, piles in a stack.

All lengths in mm, true to size; x to the right, y up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from engine.cases import Pose
from engine.model import Rect, Size

WALLS = 1.0
"""Between two edges: a wall of clear plastic of each case (0.5 mm each, common practice, no
published source)."""
AIR = 9.0
"""Above the highest case of a row, or beside the widest of a pile."""
BOARD = 7.0
"""What a row or a pile stands on."""
AROUND = 12.0
"""Around all of it, and between two sections."""
CLOSE = 3.0
"""The same where little room is to be lost."""
CAPTION = 9.0
"""Above a section that has a name."""
DIVIDER = 4.6
"""A divider as it is seen, with room for a line of type."""
TAB = 3.0
"""How far a divider stands out beyond the cases beside it."""


class Item(NamedTuple):
    """What stands in a line: the edge of a game, or a divider before a group."""

    game: str
    """Empty for a divider."""
    size: Size
    """As it is seen; of a divider only what it takes along the line counts."""
    group: str = ""
    """The group it stands in."""


class Spot(NamedTuple):
    """Where an item stands."""

    item: Item
    rect: Rect
    line: int
    """Counted from 0 through all sections."""


class Line(NamedTuple):
    """A row, a file or a pile."""

    inside: Rect
    """The room that it stands in."""
    board: Rect
    says: str
    """The groups in it, from first to last."""
    section: int


class Laid(NamedTuple):
    """Sections one above the other."""

    size: Size
    spots: tuple[Spot, ...]
    lines: tuple[Line, ...]
    captions: tuple[tuple[str, Rect], ...]
    """What is written above a section, and where."""

    def spot(self, game: str) -> Spot:
        """Return where a game stands."""
        return next(one for one in self.spots if one.item.game == game)


class Section(NamedTuple):
    """Cases that are stored alike, in their order."""

    pose: Pose
    items: tuple[Item, ...]
    caption: str = ""


def best_length(section: Section, aspect: float) -> float:
    """Return how long lines have to be for a section about ``aspect`` times as wide as high.

    They are as short as so many lines can be, so that the last is nearly as long as the others.
    """
    upright = section.pose is Pose.SHELF
    along = [_along(item.size, upright=upright) + WALLS for item in section.items]
    across = max(_across(item.size, upright=upright) for item in section.items)
    across += AIR + (BOARD if upright else 0.0)
    total = sum(along)
    wide = sqrt(total * across * aspect) if upright else sqrt(total * across / aspect)
    lines = max(1, round(total / wide))
    short, long = max(*along, total / lines), total + WALLS + 1.0
    while long - short > 1.0:
        tried = (short + long) / 2
        if sum(1 for _ in _wrapped(section.items, tried, upright=upright)) > lines:
            short = tried
        else:
            long = tried
    return long


def lay_out(
    sections: Sequence[Section], length: Callable[[Section], float], around: float = AROUND
) -> Laid:
    """Return sections laid out, each in lines no longer than ``length`` says for it.

    Wall is shown ``around`` them, and between them.
    """
    shown = [section for section in sections if section.items]
    blocks = [_block(section, length(section)) for section in shown]
    width = max((block.size.width for block in blocks), default=0.0) + 2 * around
    height = sum(
        block.size.height + around + (CAPTION if section.caption else 0.0)
        for block, section in zip(blocks, shown, strict=True)
    )
    height += around
    spots: list[Spot] = []
    lines: list[Line] = []
    captions: list[tuple[str, Rect]] = []
    top = height
    for nth, (block, section) in enumerate(zip(blocks, shown, strict=True)):
        top -= around
        if section.caption:
            top -= CAPTION
            captions.append((section.caption, Rect(around, top, width - 2 * around, CAPTION)))
        top -= block.size.height
        begun = len(lines)
        for line in block.lines:
            inside, board = _moved(line.inside, around, top), _moved(line.board, around, top)
            lines.append(Line(inside, board, line.says, nth))
        for spot in block.spots:
            rect = _moved(spot.rect, around, top)
            spots.append(Spot(spot.item, rect, spot.line + begun))
    return Laid(Size(width, height), tuple(spots), tuple(lines), tuple(captions))


class _Block(NamedTuple):
    """One section from its own lower left."""

    size: Size
    spots: list[Spot]
    lines: list[Line]


def _block(section: Section, length: float) -> _Block:
    upright = section.pose is Pose.SHELF
    rows = list(_wrapped(section.items, length, upright=upright))
    spots: list[Spot] = []
    lines: list[Line] = []
    if upright:
        longest = max(_taken(row, upright=True) for row in rows)
        depths = [_deepest(row, upright=True) + AIR for row in rows]
        height = sum(depths) + BOARD * len(rows)
        top = height
        for number, (row, depth) in enumerate(zip(rows, depths, strict=True)):
            top -= depth + BOARD
            inside = Rect(0.0, top + BOARD, longest, depth)
            lines.append(Line(inside, Rect(0.0, top, longest, BOARD), _says(row), 0))
            spots += _standing(row, inside, number)
        return _Block(Size(longest, height), spots, lines)
    longest = max(_taken(row, upright=False) for row in rows)
    left = 0.0
    for number, row in enumerate(rows):
        depth = _deepest(row, upright=False) + AIR
        inside = Rect(left, BOARD, depth, longest)
        lines.append(Line(inside, Rect(left, 0.0, depth, BOARD), _says(row), 0))
        spots += _lying(row, inside, number, downwards=section.pose is Pose.STACK)
        left += depth
    return _Block(Size(left, longest + BOARD), spots, lines)


def _standing(row: Sequence[Item], inside: Rect, line: int) -> Iterator[Spot]:
    """Yield the spots of a row, from the left, on the board."""
    x = inside.x + WALLS
    for place, item in enumerate(row):
        height = item.size.height if item.game else _beside(row, place).height + TAB
        yield Spot(item, Rect(x, inside.y, item.size.width, height), line)
        x += item.size.width + WALLS


def _lying(row: Sequence[Item], inside: Rect, line: int, *, downwards: bool) -> Iterator[Spot]:
    """Yield the spots of a file or pile: upwards from the person, or down from the top."""
    y = inside.y + WALLS
    places = range(len(row))
    for place in reversed(places) if downwards else places:
        item = row[place]
        width = item.size.width if item.game else _beside(row, place).width + TAB
        yield Spot(item, Rect(inside.x + AIR / 2, y, width, item.size.height), line)
        y += item.size.height + WALLS


def _beside(row: Sequence[Item], place: int) -> Size:
    """Return the size of the first case behind a divider."""
    return next((item.size for item in row[place:] if item.game), Size(TAB, TAB))


def _wrapped(items: Sequence[Item], length: float, *, upright: bool) -> Iterator[list[Item]]:
    """Yield items in lines; a divider never stands at a line's end."""
    row: list[Item] = []
    taken = WALLS
    for item in items:
        needs = _along(item.size, upright=upright) + WALLS
        if row and taken + needs > length:
            carried = [row.pop()] if not row[-1].game and len(row) > 1 else []
            yield row
            row, taken = carried, _taken(carried, upright=upright)
        row.append(item)
        taken += needs
    if row:
        yield row


def _taken(row: Sequence[Item], *, upright: bool) -> float:
    return WALLS + sum(_along(item.size, upright=upright) + WALLS for item in row)


def _deepest(row: Sequence[Item], *, upright: bool) -> float:
    return max((_across(item.size, upright=upright) for item in row if item.game), default=TAB)


def _along(size: Size, *, upright: bool) -> float:
    return size.width if upright else size.height


def _across(size: Size, *, upright: bool) -> float:
    return size.height if upright else size.width


def _says(row: Sequence[Item]) -> str:
    named = [item.group for item in row if item.group]
    if not named:
        return ""
    return named[0] if named[0] == named[-1] else f"{named[0]} – {named[-1]}"


def _moved(rect: Rect, x: float, y: float) -> Rect:
    return Rect(rect.x + x, rect.y + y, rect.width, rect.height)


# --- going from one to the next ----------------------------------------------------------


class Steps(NamedTuple):
    """The games that one comes to from a game, itself where there is none."""

    left: str
    right: str
    up: str
    down: str


def steps(laid: Laid, poses: Mapping[int, Pose]) -> dict[str, Steps]:
    """Return where one comes to from each game; ``poses`` are those of the sections."""
    lines: list[list[Spot]] = [[] for _ in laid.lines]
    for spot in laid.spots:
        if spot.item.game:
            lines[spot.line].append(spot)
    found: dict[str, Steps] = {}
    pose = [poses[line.section] for line in laid.lines]
    order = [
        spot.item.game
        for spots, kept in zip(lines, pose, strict=True)
        for spot in (reversed(spots) if kept is Pose.STACK else spots)
    ]
    place = {game: number for number, game in enumerate(order)}
    for number, spots in enumerate(lines):
        for spot in spots:
            here = spot.item.game
            at = place[here]
            last, following = order[max(at - 1, 0)], order[min(at + 1, len(order) - 1)]
            beside = (
                _nearest(lines[number - 1], spot) if number else here,
                _nearest(lines[number + 1], spot) if number + 1 < len(lines) else here,
            )
            match pose[number]:
                case Pose.SHELF:
                    found[here] = Steps(last, following, *beside)
                case Pose.DRAWER:
                    found[here] = Steps(*beside, following, last)
                case Pose.STACK:
                    found[here] = Steps(*beside, last, following)
    return found


def _nearest(line: Sequence[Spot], spot: Spot) -> str:
    def away(other: Spot) -> float:
        a, b = spot.rect, other.rect
        across = a.x + a.width / 2 - b.x - b.width / 2
        return abs(across) + abs(a.y + a.height / 2 - b.y - b.height / 2)

    return min(line, key=away).item.game if line else spot.item.game

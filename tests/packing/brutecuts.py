"""The fewest settings and turns for a small layout, by trying every cut of every piece."""

from heapq import heappop, heappush

Edges = tuple[int, int, int, int]
"""Left, lower, right and upper edge, in whole units."""
Piece = tuple[Edges, frozenset[Edges]]
Key = tuple[str, int]
"""The edge at the fence, and the distance from it."""


def fewest_changes(inserts: list[Edges], width: int, height: int, kerf: int = 0) -> int | None:
    """Settings and turns together; None where no cuts edge to edge free the inserts.

    One cut of one piece after the other, along any edge of any insert, in every order.
    """
    start = open_pieces([((0, 0, width, height), frozenset(inserts))])
    heap: list[tuple[int, int, frozenset[Piece], Key | None]] = [(0, 0, start, None)]
    costs: dict[tuple[frozenset[Piece], Key | None], int] = {(start, None): 0}
    turn = 0
    while heap:
        cost, _, pieces, last = heappop(heap)
        if not pieces:
            return cost
        if cost > costs[pieces, last]:
            continue
        for piece in pieces:
            for key, parts in cuts(piece, kerf):
                after = (pieces - {piece}) | open_pieces(parts)
                spent = cost + (1 if last is None else (key[0] != last[0]) + (key[1] != last[1]))
                if spent < costs.get((after, key), spent + 1):
                    costs[after, key] = spent
                    turn += 1
                    heappush(heap, (spent, turn, after, key))
    return None


def open_pieces(pieces: list[Piece]) -> frozenset[Piece]:
    return frozenset(one for one in pieces if one[1] and one[1] != {one[0]})


def cuts(piece: Piece, kerf: int) -> list[tuple[Key, list[Piece]]]:
    """Every way to cut a piece along an edge of an insert, clear of all inserts."""
    box, inserts = piece
    found = []
    for low, high, fences in ((0, 2, ("left", "right")), (1, 3, ("bottom", "top"))):
        blades = {(one[high], one[high] + kerf, one[high]) for one in inserts}
        blades |= {(one[low] - kerf, one[low], one[low]) for one in inserts}
        for first, second, edge in blades:
            below = frozenset(one for one in inserts if one[high] <= first)
            above = frozenset(one for one in inserts if one[low] >= second)
            if len(below) + len(above) < len(inserts) or not box[low] < edge < box[high]:
                continue
            parts = [(_with(box, high, first), below), (_with(box, low, second), above)]
            if first > box[low]:
                found.append(((fences[0], first - box[low]), parts))
            if second < box[high]:
                found.append(((fences[1], box[high] - second), parts))
    return found


def _with(box: Edges, side: int, edge: int) -> Edges:
    left, low, right, high = (edge if n == side else own for n, own in enumerate(box))
    return left, low, right, high

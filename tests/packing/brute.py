"""What a small sheet can hold, found by trying everything: no raster points, no bounds."""

from collections.abc import Callable
from functools import cache
from itertools import product

Sizes = tuple[tuple[int, int, bool], ...]
"""Width, height, and whether it may be turned; in whole units."""
Counts = tuple[int, ...]


def ways(size: tuple[int, int, bool]) -> set[tuple[int, int]]:
    width, height, turns = size
    return {(width, height), (height, width)} if turns else {(width, height)}


@cache
def guillotine(width: int, height: int, sizes: Sizes) -> frozenset[Counts]:
    """Every content of a piece when each cut goes edge to edge, at any whole unit."""
    found = {tuple(0 for _ in sizes)}
    for index, size in enumerate(sizes):
        if any(w <= width and h <= height for w, h in ways(size)):
            found.add(tuple(int(i == index) for i in range(len(sizes))))
    parts = [((x, height), (width - x, height)) for x in range(1, width // 2 + 1)]
    parts += [((width, y), (width, height - y)) for y in range(1, height // 2 + 1)]
    for one, other in parts:
        for a, b in product(guillotine(*one, sizes), guillotine(*other, sizes)):
            found.add(tuple(map(sum, zip(a, b, strict=True))))
    return frozenset(found)


@cache
def free(width: int, height: int, sizes: Sizes, counts: Counts) -> bool:
    """Whether ``counts`` can lie on a sheet anyhow, at whole units.

    Unit squares are gone through row by row: each that is free stays empty, or is the lower
    left corner of an insert.
    """
    whole = (1 << width * height) - 1
    dead: set[tuple[int, Counts]] = set()

    def search(taken: int, left: Counts, spare: int) -> bool:
        if not any(left):
            return True
        if spare < 0 or (taken, left) in dead:
            return False
        free_square = ~taken & whole & (taken + 1)
        y, x = divmod(free_square.bit_length() - 1, width)
        for index, count in enumerate(left):
            for w, h in ways(sizes[index]) if count else ():
                row = ((1 << w) - 1) << x
                place = sum(row << (width * (y + k)) for k in range(h))
                if x + w <= width and y + h <= height and not taken & place:
                    rest = tuple(n - (i == index) for i, n in enumerate(left))
                    if search(taken | place, rest, spare):
                        return True
        if search(taken | free_square, left, spare - 1):
            return True
        dead.add((taken, left))
        return False

    area = sum(n * w * h for n, (w, h, _) in zip(counts, sizes, strict=True))
    return search(0, counts, width * height - area)


def fewest(counts: Counts, holds: Callable[[Counts], bool]) -> int:
    """The fewest sheets for ``counts``, each of which ``holds`` its content."""
    contents = [one for one in product(*(range(n + 1) for n in counts)) if any(one) and holds(one)]

    @cache
    def sheets(left: Counts) -> int:
        if not any(left):
            return 0
        return 1 + min(
            sheets(tuple(a - b for a, b in zip(left, one, strict=True)))
            for one in contents
            if all(b <= a for a, b in zip(left, one, strict=True))
        )

    return sheets(counts)


def maximal(contents: frozenset[Counts]) -> set[Counts]:
    """The contents that no other holds."""

    def larger(one: Counts) -> set[Counts]:
        return {tuple(n + (i == k) for i, n in enumerate(one)) for k in range(len(one))}

    return {one for one in contents if any(one) and not larger(one) & contents}

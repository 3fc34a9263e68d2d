"""Contents of a sheet as whole numbers: one field of bits for each footprint's count.

Adding two numbers adds two contents, and one subtraction compares all counts at once: each
field keeps a spare bit above its count, which survives the subtraction where nothing was
borrowed. Above the counts stands what the content is worth, and is added along.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

Counts = tuple[int, ...]
"""How many of each footprint."""


def total(counts: Sequence[int], each: Iterable[int]) -> int:
    """Return what ``counts`` come to when one of each footprint counts for ``each``."""
    return sum(n * one for n, one in zip(counts, each, strict=True))


_FEW = 400
"""Below this many comparisons, comparing one by one is the faster way."""


class Packer:
    """Packs counts up to ``caps`` into integers, and compares them there."""

    def __init__(self, caps: Sequence[int], worth: Sequence[int] | None = None) -> None:
        """Reserve room for ``caps`` and for the sum of two contents within them."""
        self._fields: list[tuple[int, int]] = []
        shift = guard = 0
        for cap in caps:
            width = (2 * cap).bit_length()
            self._fields.append((shift, (1 << width) - 1))
            guard |= 1 << (shift + width)
            shift += width + 1
        self.guard = guard
        self.worth_shift = shift
        self.all_counts = (1 << shift) - 1
        self._worth = tuple(worth) if worth else (0,) * len(self._fields)
        self.units = tuple(
            (1 << at) | (worth << shift)
            for (at, _), worth in zip(self._fields, self._worth, strict=True)
        )
        self.caps = self.pack(caps)

    def pack(self, counts: Sequence[int]) -> int:
        """Return ``counts`` as one integer."""
        return sum(count * unit for count, unit in zip(counts, self.units, strict=True))

    def unpack(self, packed: int) -> Counts:
        """Return the counts in ``packed``."""
        return tuple(packed >> shift & mask for shift, mask in self._fields)

    def within(self, inner: int, outer: int) -> bool:
        """Return whether no count of ``inner`` is above that of ``outer``."""
        return ((outer | self.guard) - inner) & self.guard == self.guard

    def least(self, one: int, other: int) -> int:
        """Return the lower of both counts for each footprint."""
        return self.pack(tuple(map(min, self.unpack(one), self.unpack(other))))

    def clip(self, sums: Iterable[int]) -> list[int]:
        """Return ``sums`` with no count above the caps."""
        guard, caps = self.guard, self.caps
        roof = caps | guard
        return [one if (roof - one) & guard == guard else self.least(one, caps) for one in sums]

    def outermost(self, fresh: Collection[int], known: Collection[int] = ()) -> list[int]:
        """Return those of ``fresh`` that lie within no other of them and none of ``known``."""
        if not known and len(fresh) < 2:
            return list(fresh)
        if len(fresh) * (len(fresh) + len(known)) < _FEW:
            return self._outermost_of_few(fresh, known)
        return self._outermost_of_many(fresh, known)

    def _outermost_of_few(self, fresh: Collection[int], known: Collection[int]) -> list[int]:
        guard = self.guard
        roofs = [one | guard for one in known]
        kept = []
        # A content that lies within another is the smaller number, so the larger go first.
        for one in sorted(fresh, reverse=True):
            for roof in roofs:
                if (roof - one) & guard == guard:
                    break
            else:
                kept.append(one)
                roofs.append(one | guard)
        return kept

    def _outermost_of_many(self, fresh: Collection[int], known: Collection[int]) -> list[int]:
        """Mark for each count which contents reach it; who reaches all counts of one holds it."""
        reach: list[dict[int, int]] = [{} for _ in self._fields]
        columns = tuple(zip(reach, self._fields, strict=True))
        bit = 1

        def mark(one: int) -> None:
            for column, (shift, mask) in columns:
                for count in range(1, (one >> shift & mask) + 1):
                    column[count] = column.get(count, 0) | bit

        for one in known:
            mark(one)
            bit <<= 1
        kept = []
        for one in sorted(fresh, reverse=True):
            holders = -1
            for column, (shift, mask) in columns:
                count = one >> shift & mask
                if count:
                    holders &= column.get(count, 0)
                    if not holders:
                        break
            if not holders:
                kept.append(one)
                mark(one)
                bit <<= 1
        return kept

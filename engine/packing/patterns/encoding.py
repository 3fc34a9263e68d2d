"""Patterns as whole numbers: one field of bits for each footprint's count.

Adding two numbers adds two patterns, and one subtraction compares all counts at once: each
field keeps a spare bit above its count, which survives the subtraction where nothing was
borrowed. Above the counts stands what the pattern is worth, and is added along.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from engine.packing.rectangles import Counts


class Encoding:
    """Writes patterns up to ``caps`` as integers, and compares them there."""

    def __init__(self, caps: Counts, worth: Sequence[int] | None = None) -> None:
        """Reserve room for ``caps`` and for the sum of two patterns within them."""
        self._fields: list[tuple[int, int]] = []
        shift = self.guard = 0
        for cap in caps:
            width = (2 * cap).bit_length()
            self._fields.append((shift, (1 << width) - 1))
            self.guard |= 1 << (shift + width)
            shift += width + 1
        self.worth_shift = shift
        self.units = tuple(
            (1 << at) | (each << shift)
            for (at, _), each in zip(self._fields, worth or [0] * len(caps), strict=True)
        )
        self.caps = self.encode(caps)

    def encode(self, counts: Counts) -> int:
        """Return ``counts`` as one integer."""
        return sum(n * unit for n, unit in zip(counts, self.units, strict=True))

    def decode(self, code: int) -> Counts:
        """Return the counts in ``code``."""
        return tuple(code >> shift & mask for shift, mask in self._fields)

    def within(self, inner: int, outer: int) -> bool:
        """Return whether no count of ``inner`` is above that of ``outer``."""
        return ((outer | self.guard) - inner) & self.guard == self.guard

    def least(self, one: int, other: int) -> int:
        """Return the lower of both counts for each footprint."""
        return self.encode(tuple(map(min, self.decode(one), self.decode(other))))

    def clip(self, codes: Iterable[int], most: int) -> list[int]:
        """Return ``codes`` with no count above that of ``most``."""
        guard, roof = self.guard, most | self.guard
        return [one if (roof - one) & guard == guard else self.least(one, most) for one in codes]

    def outermost(self, codes: Collection[int]) -> list[int]:
        """Return those of ``codes`` that lie within no other, the largest first.

        For each count it is marked which patterns reach it: who reaches all of one holds it.
        """
        if len(codes) < 2:
            return list(codes)
        reach: list[dict[int, int]] = [{} for _ in self._fields]
        columns = tuple(zip(reach, self._fields, strict=True))
        kept = []
        bit = 1
        # A pattern that lies within another is the smaller number, so the larger go first.
        for one in sorted(codes, reverse=True):
            holders = -1
            for column, (shift, mask) in columns:
                count = one >> shift & mask
                if count:
                    holders &= column.get(count, 0)
                    if not holders:
                        break
            if not holders:
                kept.append(one)
                for column, (shift, mask) in columns:
                    for count in range(1, (one >> shift & mask) + 1):
                        column[count] = column.get(count, 0) | bit
                bit <<= 1
        return kept

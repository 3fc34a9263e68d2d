"""Contents of a sheet as whole numbers: one field of bits for each footprint's count.

Adding two numbers adds two contents, and one subtraction compares all counts at once: each
field keeps a spare bit above its count, which survives the subtraction where nothing was
borrowed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Counts = tuple[int, ...]
"""How many of each footprint."""


class Packer:
    """Packs counts up to ``most`` into integers, and compares them there."""

    def __init__(self, most: Sequence[int]) -> None:
        """Reserve room for the counts ``most``."""
        self._fields: list[tuple[int, int]] = []
        shift = 0
        self.guard = 0
        for top in most:
            width = top.bit_length()
            self._fields.append((shift, (1 << width) - 1))
            self.guard |= 1 << (shift + width)
            shift += width + 1

    def pack(self, counts: Sequence[int]) -> int:
        """Return ``counts`` as one integer."""
        return sum(count << shift for count, (shift, _) in zip(counts, self._fields, strict=True))

    def unpack(self, packed: int) -> Counts:
        """Return the counts in ``packed``."""
        return tuple(packed >> shift & mask for shift, mask in self._fields)

    def within(self, inner: int, outer: int) -> bool:
        """Return whether no count of ``inner`` is above that of ``outer``."""
        return ((outer | self.guard) - inner) & self.guard == self.guard

    def maximal(self, contents: Iterable[int]) -> tuple[int, ...]:
        """Return the contents that lie within no other, in a fixed order."""
        guard = self.guard
        kept: list[int] = []
        for content in sorted(set(contents), key=lambda one: (-sum(self.unpack(one)), one)):
            if all((((other | guard) - content) & guard) != guard for other in kept):
                kept.append(content)
        return tuple(kept)

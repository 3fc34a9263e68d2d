"""What rectpack makes of the same inserts: quick heuristics, most of them of free placement."""

from collections.abc import Sequence
from itertools import product
from typing import NamedTuple

import rectpack
from rectpack import PackingBin, PackingMode

ALGORITHMS = sorted(
    name
    for name, value in vars(rectpack).items()
    if isinstance(value, type) and name.startswith(("MaxRects", "Skyline", "Guillotine"))
)
ORDERS = sorted(name for name in vars(rectpack) if name.startswith("SORT_"))


class Setting(NamedTuple):
    """One way of using rectpack offline."""

    algorithm: str
    bins: str
    order: str


SETTINGS = (
    *(Setting(*one) for one in product(ALGORITHMS, ("BNF", "BFF", "BBF"), ORDERS)),
    *(Setting(algorithm, "Global", "SORT_NONE") for algorithm in ALGORITHMS),
)
"""All of them; the mode Global takes no order."""
USUAL = tuple(
    Setting(*one)
    for one in product(
        [name for name in ALGORITHMS if name.startswith("MaxRects")],
        ("BFF", "BBF"),
        ("SORT_SSIDE", "SORT_AREA", "SORT_PERI"),
    )
)
"""Those that lead on mixed inserts."""


def bins(
    setting: Setting, room: tuple[int, int], inserts: Sequence[tuple[int, int]], *, turns: bool
) -> int:
    """Return how many bins of ``room`` one setting takes for ``inserts``."""
    packer = rectpack.newPacker(
        PackingMode.Offline,
        getattr(PackingBin, setting.bins),
        getattr(rectpack, setting.algorithm),
        getattr(rectpack, setting.order),
        rotation=turns,
    )
    packer.add_bin(*room, count=float("inf"))
    for width, height in inserts:
        packer.add_rect(width, height)
    packer.pack()
    if sum(map(len, packer)) != len(inserts):
        raise RuntimeError(f"{setting} left inserts out")
    return len(packer)

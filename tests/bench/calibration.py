"""How true a sheet prints once its printer was measured with a ruler that is read so finely.

    python -m tests.bench.calibration

A thousand printers, drawn by chance within what home printers do (common practice, no published
source): scales within 1.5 %, turned by up to 0.5° and leaning by up to 0.1°, shifted by up to
2 mm. Told is how far the worst point of the field lies off after the correction, and lengths
of 100 mm across and up.
"""

from __future__ import annotations

import random
from datetime import UTC, datetime
from math import dist

from engine.model import Forme
from engine.model.stocks import STOCKS
from engine.press import CheckFigures, calibrated, check_lines
from engine.press.correcting import printed
from tests.press.printing import Printer

PRINTERS = 1000
NOW = datetime(2026, 3, 1, tzinfo=UTC)


def worst(step: float) -> tuple[float, float, float]:
    """Return how far points, and lengths of 100 mm, lie off with a ruler read in steps of mm.

    The worst of the points, of the middle one of all printers, and of the lengths.
    """
    chance = random.Random(11)  # the same printers each time
    forme = Forme(STOCKS["a4-card"])
    lines, field = check_lines(forme), forme.field
    corners = [
        (field.x + a * field.width, field.y + b * field.height) for a in (0, 1) for b in (0, 1)
    ]
    off, lengths = [], []
    for _ in range(PRINTERS):
        printer = Printer(
            *(1 + chance.uniform(-0.015, 0.015) for _ in range(2)),
            chance.uniform(-0.5, 0.5),
            chance.uniform(-0.1, 0.1),
            (chance.uniform(-2, 2), chance.uniform(-2, 2)),
        )
        at = {name: printer.lands(point) for name, point in lines.points.items()}
        true = (
            dist(at["A"], at["B"]), dist(at["A"], at["C"]), dist(at["A"], at["D"]),
            dist(at["E"], at["F"]), at["A"][0], at["C"][0], at["A"][1],
        )  # fmt: skip
        read = CheckFigures(*(round(length / step) * step for length in true))
        back = printed(calibrated(read, lines, 210.0, ("", "", NOW))).inverse()
        lies = [printer.lands(back.transformPoint(point)) for point in corners]
        off.append(max(dist(a, b) for a, b in zip(lies, corners, strict=True)))
        for i, j, long in ((0, 2, field.width), (0, 1, field.height)):
            lengths.append(abs(dist(lies[i], lies[j]) / long - 1) * 100)
    return max(off), sorted(off)[PRINTERS // 2], max(lengths)


if __name__ == "__main__":
    for step in (1.0, 0.5, 0.25, 0.1):
        points, middle, length = worst(step)
        print(
            f"read to {step} mm: points within {points:.2f} mm (half within {middle:.2f}), "
            f"100 mm within {length:.2f} mm"
        )

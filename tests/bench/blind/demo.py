"""All sure proposals of the demo on one sheet, each beside its picture: to be looked at.

python -m tests.bench.blind.demo docs/pictures/sure.png
"""

from __future__ import annotations

import io
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image

from engine import press
from engine.artwork import open_picture
from engine.demo import make_demo

ACROSS, CELL, AIR = 8, (230, 150), 10
PPI = 100.0


def main(arguments: list[str]) -> int:
    """Draw the sheet; return the exit code."""
    if len(arguments) != 1:
        print(__doc__, file=sys.stderr)
        return 2
    with TemporaryDirectory() as place:
        workshop = make_demo(Path(place) / "shelf")
        try:
            ids = [line.id for line in workshop.games.lines()]
            sure = [one for one in workshop.designs.proposals(ids) if one.sure]
            pairs = [_pair(workshop.proofs.insert(one.game)) for one in sure]
        finally:
            workshop.close()
    rows = -(-len(pairs) // ACROSS)
    size = AIR + ACROSS * (CELL[0] + AIR), AIR + rows * (CELL[1] + AIR)
    sheet = Image.new("RGB", size, "white")
    for number, pair in enumerate(pairs):
        row, column = divmod(number, ACROSS)
        sheet.paste(pair, (AIR + column * (CELL[0] + AIR), AIR + row * (CELL[1] + AIR)))
    Path(arguments[0]).parent.mkdir(parents=True, exist_ok=True)
    sheet.quantize(128).save(arguments[0], optimize=True)
    print(f"{len(pairs)} sure proposals")
    return 0


def _pair(insert: press.Insert) -> Image.Image:
    """Return a picture and the insert it is proposed for, side by side."""
    proof = Image.open(io.BytesIO(press.proof(insert, PPI))).convert("RGB")
    pair = Image.new("RGB", CELL, "#eeeeee")
    shown = [proof] if insert.picture is None else [open_picture(insert.picture), proof]
    left = 0
    for image, wide in zip(shown, (90, 140) if len(shown) == 2 else (230,), strict=True):
        image.thumbnail((wide - 4, CELL[1]))
        pair.paste(image.convert("RGB"), (left + 2, (CELL[1] - image.height) // 2))
        left += wide
    return pair


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

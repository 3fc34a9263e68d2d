"""Whether the bench sees what is printed: titles looked for in proofs, pixel by pixel.

For a sample of proposals the cover is put in greys, with the ink of its title in a colour that
no print has, and the proof is drawn of that. Where the colour shows on the panel is measured and
held against where the bench says the title is.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from math import radians, tan
from pathlib import Path

import numpy as np
from msgspec import Struct
from PIL import Image, ImageOps

from engine import Workshop, press
from engine.artwork.windows import Box
from engine.cases import FlatNet
from engine.model.units import MM_PER_INCH
from engine.press.pens.base import frame
from tests.bench.blind import covers, trial
from tests.bench.blind.judging import Sight
from tests.bench.blind.printed import overlap
from tests.bench.blind.truth import Cover, around

INK = (255, 0, 255)
PPI = 200.0
SAMPLE = 40
NEAR = 0.4
"""mm by which a side may be off: three pixels of the proof, and the width of a scanned edge."""
FAINT = 0.3
"""mm: an overlap thinner than this may leave no pixel that is all ink."""


class Check(Struct, frozen=True):
    """One title looked for in a proof."""

    title: str
    kind: str
    sort: str
    off: float
    """mm by which the worst side of the box is off."""
    allowed: float

    @property
    def holds(self) -> bool:
        return self.off <= self.allowed


def checked(
    workshop: Workshop, folder: Path, drawn: Sequence[Cover], kinds: Sequence[str]
) -> list[Check]:
    """Return the checks of a sample of covers with titles, spread over sorts and case kinds."""
    titled = [cover for cover in drawn if cover.title_lines]
    wanted = [titled[n * len(titled) // SAMPLE] for n in range(min(SAMPLE, len(titled)))]
    found = []
    for place, kind in enumerate(kinds):
        workshop.setup.change(case=kind)
        games, net = trial.by_title(workshop), workshop.kinds.net(kind)
        for cover in wanted[place :: len(kinds)]:
            found.append(_check(workshop, folder, cover, games[cover.title], net))
    return found


def _check(workshop: Workshop, folder: Path, cover: Cover, game: str, net: FlatNet) -> Check:
    sight = trial.sight_of(cover, workshop.designs.proposal(game), net)
    twin = folder / "twin.png"
    _marked(folder, cover).save(twin)
    proof = press.proof(workshop.proofs.insert(game)._replace(picture=twin), PPI)
    seen = _ink_on(Image.open(io.BytesIO(proof)).convert("RGB"), net, sight.views[0].panel)
    said = _said(sight)
    lean = radians(abs(cover.turn - sight.art.turn))
    spread = max(said.width, said.height) * tan(lean) if said else 0.0
    return Check(cover.title, net.kind, cover.sort, _apart(seen, said), NEAR + spread)


def _marked(folder: Path, cover: Cover) -> Image.Image:
    with Image.open(folder / "covers" / cover.file) as file:
        marked = ImageOps.grayscale(file).convert("RGB")
    with Image.open(covers.ink_of(folder, cover)) as ink:
        marked.paste(INK, mask=ink.convert("L"))
    return marked


def _said(sight: Sight) -> Box | None:
    """Return where the bench says the title is on the main panel, in mm; None for nowhere."""
    view = sight.views[0]
    boxes = [overlap(sight.box(line.quad), view.seen) for line in sight.cover.title_lines]
    placed = [view.placed(box) for box in boxes]
    there = [box for box in placed if min(box.width, box.height) > FAINT]
    return around([point for box in there for point in (box[:2], box[2:])]) if there else None


def _ink_on(proof: Image.Image, net: FlatNet, name: str) -> Box | None:
    """Return where the ink's colour shows on a panel of a proof, in mm from its upper left."""
    panel = net.panel(name)
    per_mm = PPI / MM_PER_INCH
    beside = (proof.width / per_mm - net.size.width) / 2
    below = (proof.height / per_mm - net.size.height) / 2
    at = frame(panel.rect, panel.turn)
    size = panel.reading
    ends = [at.transformPoint(point) for point in ((0.0, 0.0), (size.width, size.height))]
    box = around([(beside + x, proof.height / per_mm - below - y) for x, y in ends])
    flat = proof.crop(tuple(round(side * per_mm) for side in box))
    upright = flat.rotate(-panel.turn, expand=True)
    levels = np.asarray(upright, dtype=np.int16)
    ink = (levels[..., 0] > 150) & (levels[..., 2] > 150) & (levels[..., 1] < 110)
    if ink.sum() < 4:
        return None
    (down,), (across,) = (np.nonzero(ink.any(axis=axis)) for axis in (1, 0))
    sides = (across[0], down[0], across[-1] + 1, down[-1] + 1)
    return Box(*(float(side) / per_mm for side in sides))


def _apart(one: Box | None, other: Box | None) -> float:
    if one is None or other is None:
        return 0.0 if one is other else max((one or other))  # type: ignore[type-var]
    return max(abs(a - b) for a, b in zip(one, other, strict=True))

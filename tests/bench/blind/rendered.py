"""Whether the bench sees what is printed: titles looked for in proofs, pixel by pixel.

For a sample of proposals the cover is put in greys on a white insert, the ink of its title alone
in a colour, and the proof is drawn of that. Where the colour shows on the panel is measured and
held against where the bench says the title is.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

import msgspec
import numpy as np
from msgspec import Struct
from PIL import Image, ImageOps

from engine import Workshop, press
from engine.artwork.straightening import straightened
from engine.artwork.windows import PixelRect
from engine.cases import FlatNet
from engine.model import Colours, Matte
from engine.model.units import MM_PER_INCH
from engine.press.pens.base import frame
from tests.bench.blind import covers, trial
from tests.bench.blind.judging import Sight
from tests.bench.blind.printed import pixels
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

    @property
    def holds(self) -> bool:
        return self.off <= NEAR


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
    insert = workshop.proofs.insert(game)
    # A mirrored ground would show the ink twice.
    art = msgspec.structs.replace(insert.design.art, matte=Matte.BASE)
    plain = msgspec.structs.replace(insert.design, art=art, colours=Colours("#ffffff", "#000000"))
    proof = press.proof(insert._replace(design=plain, picture=twin), PPI)
    seen = _ink_on(Image.open(io.BytesIO(proof)).convert("RGB"), net, sight.views[0].panel)
    with Image.open(covers.ink_of(folder, cover)) as ink:
        said = _said(sight, ink.convert("L"))
    return Check(cover.title, net.kind, cover.sort, _apart(seen, said))


def _marked(folder: Path, cover: Cover) -> Image.Image:
    with Image.open(folder / "covers" / cover.file) as file:
        marked = ImageOps.grayscale(file).convert("RGB")
    with Image.open(covers.ink_of(folder, cover)) as ink:
        marked.paste(INK, mask=ink.convert("L"))
    return marked


def _said(sight: Sight, ink: Image.Image) -> PixelRect | None:
    """Return where the bench has the title's ink on the main panel, in mm; None for nowhere."""
    view = sight.views[0]
    upright = straightened(ink.convert("RGB"), sight.art.turn).getchannel(0)
    left, top, right, bottom = pixels(view.seen)
    found = upright.crop((left, top, right, bottom)).point(lambda level: 255 * (level > 127))
    inked = found.getbbox()
    if inked is None:
        return None
    across, down, ends, foot = inked
    placed = view.placed(PixelRect(left + across, top + down, left + ends, top + foot))
    return placed if min(placed.width, placed.height) > FAINT else None


def _ink_on(proof: Image.Image, net: FlatNet, name: str) -> PixelRect | None:
    """Return where the ink's colour shows on a panel of a proof, in mm from its upper left."""
    panel = net.panel(name)
    per_mm = PPI / MM_PER_INCH
    beside = (proof.width / per_mm - net.size.width) / 2
    below = (proof.height / per_mm - net.size.height) / 2
    at = frame(panel.rect, panel.turn)
    size = panel.reading
    ends = [at.transformPoint(point) for point in ((0.0, 0.0), (size.width, size.height))]
    box = around([(beside + x, proof.height / per_mm - below - y) for x, y in ends])
    flat = proof.crop(pixels(PixelRect(*(side * per_mm for side in box))))
    upright = flat.rotate(-panel.turn, expand=True)
    levels = np.asarray(upright, dtype=np.int16)
    ink = (levels[..., 0] > 150) & (levels[..., 2] > 150) & (levels[..., 1] < 110)
    if ink.sum() < 4:
        return None
    (down,), (across,) = (np.nonzero(ink.any(axis=axis)) for axis in (1, 0))
    sides = (across[0], down[0], across[-1] + 1, down[-1] + 1)
    return PixelRect(*(float(side) / per_mm for side in sides))


def _apart(one: PixelRect | None, other: PixelRect | None) -> float:
    if one is None or other is None:
        return max(one or other or (0.0,))
    return max(abs(a - b) for a, b in zip(one, other, strict=True))

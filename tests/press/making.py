"""Inserts and sheets for the tests of the press, made of real nets and drawn pictures."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

from engine.cases import CaseKind, FlatNet, Role, flatten, load_kinds
from engine.lettering import default_font, propose_title
from engine.model import (
    Art,
    Colours,
    Design,
    EdgeTitle,
    Forme,
    Placement,
    Rule,
    Sheet,
    Stock,
)
from engine.press import Insert, compose

A4 = Stock("a4", "A4 card", 210.0, 297.0)
LETTER = Stock("letter", "Letter card", 215.9, 279.4)
CALIPER = 0.25


@cache
def kinds() -> dict[str, CaseKind]:
    return load_kinds()


@cache
def net(kind: str) -> FlatNet:
    return flatten(kinds()[kind], CALIPER)


def photo(folder: Path, name: str = "cover.png", size: tuple[int, int] = (1900, 2400)) -> Path:
    """A picture of which every place has its own colour, and more pixels than are printed."""
    import numpy as np
    from PIL import Image

    across = np.linspace(0, 255, size[0])[None, :].repeat(size[1], 0)
    down = np.linspace(0, 255, size[1])[:, None].repeat(size[0], 1)
    pixels = np.stack([across, down, np.full_like(across, 60)], axis=2).astype(np.uint8)
    path = folder / name
    Image.fromarray(pixels).save(path)
    return path


def insert(
    kind: str,
    title: str,
    picture: Path | None,
    *,
    art: Art | None = None,
    base: str = "#204060",
    text: str = "#ffffff",
) -> Insert:
    flat = net(kind)
    settings = {
        panel.name: propose_title(title, panel.reading, default_font())
        for panel in flat.panels
        if panel.role is Role.EDGE
    }
    design = Design(
        kind,
        art or Art(picture=picture.name if picture else None),
        Colours(base, text),
        tuple(EdgeTitle(name, set_.lines, set_.size) for name, set_ in settings.items()),
    )
    return compose(design, flat, picture, default_font())


def place(game: str, one: Insert, x: float, y: float, *, rotated: bool = False) -> Placement:
    width, height = one.net.size
    if rotated:
        width, height = height, width
    return Placement(game, one.design.case, one.design.fingerprint, x, y, width, height, rotated)


def sheet(stock: Stock, placements: Sequence[Placement], number: int = 7) -> Sheet:
    forme = Forme(stock, Rule.KNIFE)
    return Sheet(number, forme, tuple(placements), datetime(2026, 3, 1, tzinfo=UTC))

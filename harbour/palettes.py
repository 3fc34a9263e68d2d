"""Palettes of the demo's covers: six colours each that go together on paper."""

from __future__ import annotations

from typing import NamedTuple


class Palette(NamedTuple):
    """Colours by the part they play, darkest first, then the accent, then the lights."""

    ink: str
    deep: str
    mid: str
    accent: str
    glow: str
    paper: str


PALETTES = {
    "dusk": Palette("#1b1a3a", "#433a6b", "#9a5b8c", "#f0806a", "#ffc27a", "#fff1d6"),
    "northsea": Palette("#0d2538", "#1d4e6b", "#3f8a9b", "#e4572e", "#f5c65d", "#f3efdf"),
    "rust": Palette("#2a1712", "#6e2f1c", "#b4532a", "#e8903c", "#f4cf8b", "#fbf3e2"),
    "lemon": Palette("#23301f", "#35604a", "#6ea56b", "#f4b81f", "#ffe27a", "#fdf8e3"),
    "mint": Palette("#12343b", "#1f6f6b", "#63b7a4", "#ff7f6b", "#ffd9a8", "#f4f7ef"),
    "brick": Palette("#24202b", "#57394a", "#a4464b", "#e26d4f", "#f1b98a", "#f9eedd"),
    "violet": Palette("#191338", "#3b2a78", "#7a54b8", "#ff8fb1", "#ffd166", "#f6effa"),
    "fog": Palette("#22303a", "#4c6472", "#8da5ac", "#d9896a", "#e7cfae", "#f2f1ec"),
    "kelp": Palette("#0f231f", "#1f4a3b", "#4d7f4c", "#d6a23b", "#e9d98e", "#f4f1de"),
    "candy": Palette("#3a1730", "#8c2f5c", "#e0597b", "#3fb8af", "#ffd07f", "#fff4ea"),
    "signal": Palette("#141a2e", "#1e3a8a", "#d62839", "#ffb703", "#8ecae6", "#fdfcf5"),
    "ice": Palette("#10253f", "#2f5d8c", "#86b6d6", "#f26b5b", "#cfe6ee", "#f8fbfb"),
    "autumn": Palette("#2b1d14", "#5c3a1e", "#a8642a", "#c9352b", "#eab54d", "#f8ecd2"),
    "plum": Palette("#241023", "#5b2144", "#9a3b5f", "#2d9c9c", "#f2b5a0", "#faf0ea"),
    "moon": Palette("#0b1020", "#1d2a52", "#3f5794", "#f5e6a8", "#c7d3f2", "#f4f6fc"),
}

"""Pictures: opening them safely, fitting them, printing them."""

from engine.artwork.adjusting import join, move_focus, move_split, move_trim, turn_by
from engine.artwork.fitting import Fitting, Wanted, cost, fittings, judge, propose_fit
from engine.artwork.ink import Coverage, art_in, base_in, coverage, sum_of, text_in
from engine.artwork.inspecting import Progressing, inspect, inspect_all
from engine.artwork.opening import open_picture
from engine.artwork.pages import page_pixels
from engine.artwork.patterns import draw_pattern
from engine.artwork.printing import ahead, laid
from engine.artwork.rendering import ArtRequest, Laid, encode
from engine.artwork.splitting import is_parted
from engine.artwork.standing import Surface
from engine.artwork.windows import Bleed, room

__all__ = [
    "ArtRequest",
    "Bleed",
    "Coverage",
    "Fitting",
    "Laid",
    "Progressing",
    "Surface",
    "Wanted",
    "ahead",
    "art_in",
    "base_in",
    "cost",
    "coverage",
    "draw_pattern",
    "encode",
    "fittings",
    "inspect",
    "inspect_all",
    "is_parted",
    "join",
    "judge",
    "laid",
    "move_focus",
    "move_split",
    "move_trim",
    "open_picture",
    "page_pixels",
    "propose_fit",
    "room",
    "sum_of",
    "text_in",
    "turn_by",
]

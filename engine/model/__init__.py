"""The values that the rooms hand each other: frozen, checked on reading, lengths in mm.

What a person decided and what happened is stored in these structs; everything else
(stages, proposals, full sheets) is worked out from them when it is asked for.
"""

from engine.model.art import Art, Colours, Fit, InkMode, Loss, Matte, PanelArt, Pattern, Sign, Trim
from engine.model.base import Instant, Rect, Size, Value, bare
from engine.model.design import Accepted, Decision, Design
from engine.model.game import (
    DECLARABLE,
    Declared,
    Fitted,
    Game,
    Match,
    Picture,
    PictureRole,
    SidePicture,
    Stage,
)
from engine.model.paper import Forme, Margins, Rule, Stock
from engine.model.reading import Reading, TextLine
from engine.model.sheet import Machine, Offcut, Placement, Printed, Reverse, Sheet
from engine.model.text import FontRef, Glyph, TextRun
from engine.model.title import EdgeTitle, End, Furniture, Logo

__all__ = [
    "DECLARABLE",
    "Accepted",
    "Art",
    "Colours",
    "Decision",
    "Declared",
    "Design",
    "EdgeTitle",
    "End",
    "Fit",
    "Fitted",
    "FontRef",
    "Forme",
    "Furniture",
    "Game",
    "Glyph",
    "InkMode",
    "Instant",
    "Logo",
    "Loss",
    "Machine",
    "Margins",
    "Match",
    "Matte",
    "Offcut",
    "PanelArt",
    "Pattern",
    "Picture",
    "PictureRole",
    "Placement",
    "Printed",
    "Reading",
    "Rect",
    "Reverse",
    "Rule",
    "Sheet",
    "SidePicture",
    "Sign",
    "Size",
    "Stage",
    "Stock",
    "TextLine",
    "TextRun",
    "Trim",
    "Value",
    "bare",
]

from .art import Art, Colours, Fit, InkMode, Loss, Matte, PanelArt, Pattern, Sign, Trim
from .base import Instant, Rect, Size, Value, bare
from .design import Accepted, Decision, Design
from .game import (
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
from .paper import Forme, Margins, Rule, Stock
from .reading import Reading, TextLine
from .sheet import Machine, Offcut, Placement, Printed, Reverse, Sheet
from .text import FontRef, Glyph, TextRun
from .title import EdgeTitle, End, Furniture, Logo

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

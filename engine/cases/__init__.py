"""Case kinds: nets of paper, folded in space; built-in ones and a person's own."""

from engine.cases.kindfile import kind_text, parse_kind, read_kind
from engine.cases.layout import flatten
from engine.cases.library import load_kinds
from engine.cases.model import (
    CaseKind,
    Corner,
    Fits,
    Measure,
    Notch,
    Panel,
    Pose,
    Role,
    Side,
    Spine,
    Tongue,
)
from engine.cases.net import FlatNet, FlatPanel, FlatScore
from engine.cases.rings import Ring

__all__ = [
    "CaseKind",
    "Corner",
    "Fits",
    "FlatNet",
    "FlatPanel",
    "FlatScore",
    "Measure",
    "Notch",
    "Panel",
    "Pose",
    "Ring",
    "Role",
    "Side",
    "Spine",
    "Tongue",
    "flatten",
    "kind_text",
    "load_kinds",
    "parse_kind",
    "read_kind",
]

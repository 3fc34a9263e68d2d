"""Case kinds: nets of paper, folded in space; built-in ones and a person's own."""

from engine.cases.flattening import flatten
from engine.cases.folded import Box, Folded, FoldedPanel, fold
from engine.cases.handwork import hand_cuts
from engine.cases.isometric import Facet, View, isometric
from engine.cases.kindfile import kind_text, parse_kind, read_kind
from engine.cases.library import load_kinds
from engine.cases.model import (
    CaseKind,
    Corner,
    Fits,
    Measure,
    Notch,
    Outside,
    Panel,
    Pose,
    Role,
    Side,
    Spine,
    Tongue,
)
from engine.cases.net import FlatNet, FlatPanel, FlatScore
from engine.cases.own import CLEARANCE, QUESTIONS, CaseShape, Question, doubts, draft, kind_id
from engine.cases.rings import Ring, grown
from engine.cases.space import Frame, Vector
from engine.cases.trial import Dimension, Mark, Misfit, Scale, correct, scales

__all__ = [
    "CLEARANCE",
    "QUESTIONS",
    "Box",
    "CaseKind",
    "CaseShape",
    "Corner",
    "Dimension",
    "Facet",
    "Fits",
    "FlatNet",
    "FlatPanel",
    "FlatScore",
    "Folded",
    "FoldedPanel",
    "Frame",
    "Mark",
    "Measure",
    "Misfit",
    "Notch",
    "Outside",
    "Panel",
    "Pose",
    "Question",
    "Ring",
    "Role",
    "Scale",
    "Side",
    "Spine",
    "Tongue",
    "Vector",
    "View",
    "correct",
    "doubts",
    "draft",
    "flatten",
    "fold",
    "grown",
    "hand_cuts",
    "isometric",
    "kind_id",
    "kind_text",
    "load_kinds",
    "parse_kind",
    "read_kind",
    "scales",
]

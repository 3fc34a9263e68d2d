"""What the workshop answers: frozen, complete, ready to be shown or printed as JSON."""

from engine.collection import Finding
from engine.ganging.results import (
    CutsReport,
    Filler,
    Lack,
    OffcutReport,
    Outlook,
    PartFull,
    PlanPart,
    PlanReport,
    PressReport,
    SheetReport,
    SheetsReport,
    SheetState,
)
from engine.lettering.results import EdgeReport, EvenReport, FarTitle, Help, Legibility, Wording
from engine.service.results.colours import (
    ColourChoice,
    ColoursReport,
    GroupReport,
    InkReport,
    InkSummary,
    SheetInk,
)
from engine.service.results.kinds import KindDraft, KindLine, KindReport, TrialReport, TrialSide
from engine.service.results.titles import LogoReport
from engine.service.results.work import (
    AcceptReport,
    Health,
    IntakeReport,
    Progress,
    Undecided,
)
from engine.state import ArtReport, GameLine, Proposal

__all__ = [
    "AcceptReport",
    "ArtReport",
    "ColourChoice",
    "ColoursReport",
    "CutsReport",
    "EdgeReport",
    "EvenReport",
    "FarTitle",
    "Filler",
    "Finding",
    "GameLine",
    "GroupReport",
    "Health",
    "Help",
    "InkReport",
    "InkSummary",
    "IntakeReport",
    "KindDraft",
    "KindLine",
    "KindReport",
    "Lack",
    "Legibility",
    "LogoReport",
    "OffcutReport",
    "Outlook",
    "PartFull",
    "PlanPart",
    "PlanReport",
    "PressReport",
    "Progress",
    "Proposal",
    "SheetInk",
    "SheetReport",
    "SheetState",
    "SheetsReport",
    "TrialReport",
    "TrialSide",
    "Undecided",
    "Wording",
]

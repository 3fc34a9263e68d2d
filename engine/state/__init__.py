"""The collection between two changes, and what is proposed for it."""

from engine.state.finder import Finder
from engine.state.finding import (
    By,
    Listed,
    Only,
    Order,
    Trait,
    Wanted,
    being,
    conditions,
    having,
    in_order,
    listed,
    traits_of,
)
from engine.state.proposal import ArtReport, GameLine, PanelReport, Proposal
from engine.state.proposing import Proposer
from engine.state.snapshot import Records, Snapshot

__all__ = [
    "ArtReport",
    "By",
    "Finder",
    "GameLine",
    "Listed",
    "Only",
    "Order",
    "PanelReport",
    "Proposal",
    "Proposer",
    "Records",
    "Snapshot",
    "Trait",
    "Wanted",
    "being",
    "conditions",
    "having",
    "in_order",
    "listed",
    "traits_of",
]

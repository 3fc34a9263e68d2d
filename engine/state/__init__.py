"""The collection between two changes, and what is proposed for it."""

from engine.state.proposal import ArtReport, GameLine, PanelReport, Proposal
from engine.state.proposing import Proposer
from engine.state.snapshot import Records, Snapshot

__all__ = ["ArtReport", "GameLine", "PanelReport", "Proposal", "Proposer", "Records", "Snapshot"]

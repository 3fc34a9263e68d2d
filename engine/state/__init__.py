"""The collection between two changes, and what is proposed for it."""

from engine.state.proposal import ArtReport, GameLine, Proposal
from engine.state.proposing import Proposer
from engine.state.snapshot import Records, Snapshot

__all__ = ["ArtReport", "GameLine", "Proposal", "Proposer", "Records", "Snapshot"]

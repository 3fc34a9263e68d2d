"""Giving up, as all of the engine does it."""

from engine.model.waiting import Cancel, Cancelled, go_on

__all__ = ["Cancel", "Cancelled", "go_on"]

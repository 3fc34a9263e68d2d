"""The shelf: the order in which games stand, and what follows from seeing them together."""

from engine.shelf.filing import filing_key, in_order

__all__ = ["filing_key", "in_order"]

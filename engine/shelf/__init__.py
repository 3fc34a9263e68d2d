"""The shelf: the order in which games stand, and what follows from seeing them together."""

from engine.shelf.filing import Group, by_letter, in_groups, in_order
from engine.shelf.titles import filing_key

__all__ = ["Group", "by_letter", "filing_key", "in_groups", "in_order"]

"""Titles: fonts, shaping, setting on an edge, legibility."""

"""Packing rectangles into fields, in whole numbers; it knows nothing of games."""

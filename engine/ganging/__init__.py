"""Footprints onto sheets: which are full, and the fewest that print everything."""

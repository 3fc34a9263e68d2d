"""Composing inserts and printing sheets: pens, marks, proofs."""

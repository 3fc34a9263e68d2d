"""Pens: what an insert or a mark draws itself onto. A new output is one new pen."""

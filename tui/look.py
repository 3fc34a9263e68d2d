"""The two looks of the terminal program, light and dark."""

from __future__ import annotations

from textual.theme import Theme

PAPER = Theme(
    name="paper",
    dark=False,
    primary="#2f5f5b",
    secondary="#6b5b3e",
    accent="#8a3b1e",
    foreground="#2a2723",
    background="#efe8d8",
    surface="#f8f3e7",
    panel="#e2d8c1",
    warning="#7a4a00",
    error="#9b1c1c",
    success="#2d5f33",
)

LAMP = Theme(
    name="lamp",
    dark=True,
    primary="#8fc0b4",
    secondary="#c9b48a",
    accent="#e3a57a",
    foreground="#e6dfd0",
    background="#1d1b18",
    surface="#262320",
    panel="#35302a",
    warning="#e6bb6a",
    error="#ef8e85",
    success="#9ac79a",
)

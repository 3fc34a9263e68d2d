"""Spinery's engine: everything but the terminal. Import from here, not from the rooms."""

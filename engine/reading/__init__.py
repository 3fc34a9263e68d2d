"""What a picture says and shows: its lettering, and what draws the eye."""

from engine.reading.reader import can_read, read_all

__all__ = ["can_read", "read_all"]

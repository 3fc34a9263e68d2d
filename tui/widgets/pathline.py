"""A line in which a path is typed, or a whole list pasted."""

from __future__ import annotations

from textual import events
from textual.message import Message
from textual.widgets import Input


class PathLine(Input):
    """A line of text that does not lose what is pasted with line breaks in it."""

    class Pasted(Message):
        """Several lines were pasted."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    def on_paste(self, event: events.Paste) -> None:
        """Hand several lines on; one is typed, as ever."""
        if len([line for line in event.text.splitlines() if line.strip()]) > 1:
            event.prevent_default()
            event.stop()
            self.post_message(self.Pasted(event.text))

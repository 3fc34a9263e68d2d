"""The proof: the page of one insert or sheet as a picture."""

from __future__ import annotations

import io

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static
from textual_image.renderable import Image as BestRenderable
from textual_image.renderable import UnicodeImage
from textual_image.widget import HalfcellImage
from textual_image.widget import Image as BestImage

Picture = HalfcellImage if BestRenderable is UnicodeImage else BestImage
"""The finest picture the terminal can show; half blocks where it would be without colour.

The library asks the terminal when it is imported, which has to be before Textual runs.
"""

SHARP = Picture is BestImage
"""Whether the terminal shows pictures dot by dot, not in half blocks."""

NO_PICTURE = (
    "This terminal shows pictures as coloured blocks only, and NO_COLOR is set. "
    "spinery proof GAME --out FILE.png writes the proof."
)
"""What stands in the place of a picture that would be blocks of one colour."""


class Proof(Widget):
    """A PNG, as large as the room allows in its own proportions, or words instead."""

    DEFAULT_CSS = """
    Proof {
        align: center middle;
        & HalfcellImage, & AutoImage, & SixelImage, & Image { width: auto; height: auto; }
        & Static { width: auto; max-width: 100%; height: auto; color: $secondary; }
    }
    """

    of = ""
    """Whose proof is shown or on its way."""

    _shown: tuple[bytes | None, str] | None = None

    def compose(self) -> ComposeResult:
        """Lay out the picture and the words; one of them is in sight."""
        yield Picture()
        yield Static()

    def show(self, png: bytes | None, words: str = "", *, of: str = "") -> None:
        """Show a picture, or words while there is none."""
        self.of = of
        if png is not None and self.app.no_color and Picture is HalfcellImage:
            png, words = None, NO_PICTURE
        if (png, words) == self._shown:
            return
        self._shown = (png, words)
        picture, said = self.query_one(Picture), self.query_one(Static)
        picture.display = png is not None
        said.display = png is None
        picture.image = io.BytesIO(png) if png is not None else None
        said.update(Content(words))

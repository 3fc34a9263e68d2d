"""The proof: the page of one insert or sheet as a picture."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tui.picturekind import BY_COLOUR, picture_kind

if TYPE_CHECKING:
    from textual_image.widget._base import Image

NO_PICTURE = (
    "This terminal shows pictures by coloured text only, and NO_COLOR is set. "
    "spinery proof GAME --out FILE.png writes the proof."
)
"""What stands in the place of a picture that would be without its colours."""


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

    _picture: Image | None = None
    _shown: tuple[bytes | None, str] | None = None

    def compose(self) -> ComposeResult:
        """Lay out the words; a picture takes their place once there is one."""
        yield Static()

    @property
    def picture(self) -> Widget | None:
        """The picture, once one was shown."""
        return self._picture

    def show(self, png: bytes | None, words: str = "", *, of: str = "") -> None:
        """Show a picture, or words while there is none."""
        self.of = of
        if png is not None and self.app.no_color and BY_COLOUR:
            png, words = None, NO_PICTURE
        if (png, words) == self._shown:
            return
        self._shown = (png, words)
        said = self.query_one(Static)
        if png is not None and self._picture is None:
            self._picture = picture_kind()()
            self.mount(self._picture, before=said)
        if self._picture is not None:
            self._picture.display = png is not None
            self._picture.image = io.BytesIO(png) if png is not None else None
        said.display = png is None
        said.update(Content(words))

    def draw_anew(self) -> None:
        """Draw the picture as for the first time."""
        if self._picture is not None:
            self._picture.refresh(layout=True)

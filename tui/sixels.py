"""A picture by Sixel, as every terminal that has it reads it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import product
from typing import IO

from PIL import Image as PILImage
from rich.control import Control
from rich.segment import ControlType, Segment
from rich.style import Style
from textual.app import ComposeResult
from textual.geometry import Region, Size
from textual.widget import Widget
from textual_image._pixeldata import PixelData
from textual_image._sixel import BackgroundColor, SixelOptions, image_to_sixels
from textual_image._terminal import CellSize, get_cell_size
from textual_image._utils import StrOrBytesPath
from textual_image.widget import sixel
from textual_image.widget._base import Image

MOST_COLOURS = 256
"""As many as the library tells apart."""

_DEFINED = re.compile(r"(#\d+);2;\d+;\d+;\d+")
_KEPT, _BACK = "\x1b7", "\x1b8"
"""The cursor's place is kept, and gone back to: DECSC and DECRC of DEC STD 070."""


Piece = tuple[int, int, tuple[int, int, int, int]]
"""The cells to go right and down to it, and its left, top, right and bottom in dots."""


def choosing(sixels: str) -> str:
    """Return sixels that choose each colour where they define it.

    Terminals differ in whether a colour is in use once it is defined: DEC STD 070, "Sixel Graphics
    Extension", has one form of the command for each (from memory).
    """
    return _DEFINED.sub(r"\g<0>\g<1>", sixels)


def in_pieces(size: tuple[int, int], cell: CellSize, most: tuple[int, int]) -> list[Piece]:
    """Return the pieces of a picture, each of whole cells and within ``most`` dots."""
    columns, rows = (max(1, dots // one) for dots, one in zip(most, cell, strict=True))
    right, down = -(-size[0] // cell.width), -(-size[1] // cell.height)
    return [
        (
            x,
            y,
            (
                x * cell.width,
                y * cell.height,
                min((x + columns) * cell.width, size[0]),
                min((y + rows) * cell.height, size[1]),
            ),
        )
        for y, x in product(range(0, down, rows), range(0, right, columns))
    ]


class _PaintedOnce(Widget):
    def _size_updated(self, *sizes: Size, **_: bool) -> bool:
        """Take a size of the layout, which paints it: Textual would have it painted once more."""
        return super()._size_updated(*sizes, layout=False)


class _Dots(_PaintedOnce, sixel._ImageSixelImpl):  # noqa: SLF001 - what the library makes the sixels in
    def _crop_image(self, image: PixelData, crop: Region, terminal_sizes: CellSize) -> PixelData:
        """Return what of a picture is in sight; the library adds black to fill the last cells."""
        left, top = crop.x * terminal_sizes.width, crop.y * terminal_sizes.height
        right, bottom = crop.right * terminal_sizes.width, crop.bottom * terminal_sizes.height
        return image.cropped(left, top, min(right, image.width), min(bottom, image.height))

    def _get_sixel_segments(self, sixel_data: str) -> Iterable[Segment]:
        """Return the picture after spaces, which take away what stood in cells that it leaves.

        What follows in the last line goes on behind it; the library goes on a line below.
        """
        place = self.screen.find_widget(self).visible_region
        _, ground = self.background_colors
        yield Segment(" " * place.width, Style(bgcolor=ground.rich_color))
        yield Segment(Control.move_to(place.x, place.y).segment.text)
        yield Segment(sixel_data, control=((ControlType.CURSOR_FORWARD, 0),))
        yield Segment(Control.move_to(place.right, place.bottom - 1).segment.text)

    def _image_to_sixels(
        self,
        image: PILImage.Image,
        sixel_options: SixelOptions | None = None,
        background: BackgroundColor | None = None,
    ) -> str:
        pieces = in_pieces(image.size, get_cell_size(), Sixels.most)
        return "".join(
            _KEPT
            + (f"\x1b[{y}B" if y else "")
            + (f"\x1b[{x}C" if x else "")
            + choosing(image_to_sixels(image.crop(box), sixel_options, background))
            + _BACK
            for x, y, box in pieces
        )


class Sixels(_PaintedOnce, sixel.Image, Renderable=sixel._NoopRenderable):  # noqa: SLF001 - as the library says it
    """A picture by Sixel, within what the terminal shows at once."""

    DEFAULT_CSS = "Sixels { width: auto; height: auto; }"

    colours = MOST_COLOURS
    most = (100_000, 100_000)
    """Width and height of the largest picture that the terminal shows in one piece, in dots."""

    def compose(self) -> ComposeResult:
        """Lay out what draws the dots."""
        yield _Dots(self.image, SixelOptions(colors=self.colours))

    @property
    def image(self) -> StrOrBytesPath | IO[bytes] | PILImage.Image | None:
        """The picture. Another one is drawn by the same part: a new one would be painted twice."""
        return super().image

    @image.setter
    def image(self, value: StrOrBytesPath | IO[bytes] | PILImage.Image | None) -> None:
        for dots in self.query_children(_Dots):
            if dots.image is not None:  # else the layout paints it
                dots.refresh()
            dots.image = value
        Image.image.__set__(self, value)

"""Pictures by Sixel, read as a terminal reads them that keeps to the letter of DEC STD 070."""

from __future__ import annotations

import re
from itertools import product

import pytest
from PIL import Image
from textual.app import App, ComposeResult
from textual_image._sixel import image_to_sixels
from textual_image._terminal import CellSize

from tui import sixels
from tui.sixels import Sixels, choosing, in_pieces

CELL = CellSize(10, 20)


def painted(sixels: str, size: tuple[int, int]) -> Image.Image:
    """Return what a terminal shows that defines a colour without choosing it."""
    data = sixels.partition("q")[2].removesuffix("\x1b\\")
    shown = Image.new("RGB", size)
    colours: dict[int, tuple[int, int, int]] = {}
    x = y = chosen = 0
    for one in re.findall(r'[#"][\d;]+|!\d+.|.', data):
        if one[0] == '"':
            continue
        if one[0] == "#":
            number, *given = map(int, one[1:].split(";"))
            if given:
                colours[number] = tuple(round(part * 2.55) for part in given[1:])  # type: ignore[assignment]
            else:
                chosen = number
        elif one == "$":
            x = 0
        elif one == "-":
            x, y = 0, y + 6
        else:
            times = int(one[1:-1] or 1)
            dots = [dot for dot in range(6) if (ord(one[-1]) - 63) >> dot & 1]
            for place in product(range(x, x + times), (y + dot for dot in dots)):
                shown.putpixel(place, colours.get(chosen, (0, 0, 0)))
            x += times
    return shown


def test_a_colour_is_chosen_where_it_is_defined() -> None:
    size = (24, 18)
    picture = Image.new("RGB", size, (255, 255, 255))
    picture.paste((255, 0, 0), (4, 3, 12, 12))
    picture.paste((0, 0, 255), (12, 8, 24, 18))
    drawn = image_to_sixels(picture)
    assert painted(drawn, size).tobytes() != picture.tobytes(), "as the library has it"
    assert painted(choosing(drawn), size).tobytes() == picture.tobytes()


@pytest.mark.parametrize("most", [(100_000, 100_000), (35, 45), (5, 5), (1000, 45)])
def test_pieces_of_whole_cells_make_up_the_picture(most: tuple[int, int]) -> None:
    size = (124, 97)
    picture = Image.effect_noise(size, 50)
    whole = Image.new("L", size)
    for right, down, box in in_pieces(size, CELL, most):
        piece = picture.crop(box)
        assert piece.width <= max(most[0], CELL.width)
        assert piece.height <= max(most[1], CELL.height)
        whole.paste(piece, (right * CELL.width, down * CELL.height))
    assert whole.tobytes() == picture.tobytes()


async def test_the_picture_ends_where_it_ends_and_the_next_takes_its_place() -> None:
    """In cells that it covers in part there is no black: DEC STD 070 leaves dots unpainted."""

    class Shown(App[None]):
        def compose(self) -> ComposeResult:
            yield Sixels(Image.new("RGB", (100, 30), (255, 255, 255)))

    app = Shown()
    async with app.run_test(size=(80, 24)) as pilot:
        shown = app.query_one(Sixels)
        shown.styles.max_height = 3
        await pilot.pause()
        (dots,) = shown.children
        before = drawn(dots)
        assert re.search(r'"1;1;(\d+);(\d+)', before)
        assert "#0;2;0;0;0" not in before
        assert behind(dots) == f"\x1b[{dots.region.bottom};{dots.region.right + 1}H"
        shown.image = Image.new("RGB", (100, 30), (255, 0, 0))
        await pilot.pause()
        assert [*shown.children] == [dots], "no other part, which would be painted twice"
        assert "2;100;0;0" in drawn(dots)


async def test_a_picture_is_painted_once_each_time_it_is_shown(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    painted: list[int] = []
    real = sixels._Dots._get_sixel_segments

    def segments(self, data: str):
        painted.append(len(data))
        return real(self, data)

    class Shown(App[None]):
        def compose(self) -> ComposeResult:
            yield Sixels()

    app = Shown()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        monkeypatch.setattr(sixels._Dots, "_get_sixel_segments", segments)
        for size in ((100, 100), (200, 60), (200, 60), (60, 200)):
            app.query_one(Sixels).image = Image.new("RGB", size, (255, 255, 255))
            for _ in range(4):
                await pilot.pause()
                app.screen._on_timer_update()
            assert len(painted) == 1
            painted.clear()


def behind(widget) -> str:
    """Return where the cursor is put for what follows in the last line: CUP of ECMA-48."""
    *_, last = widget.render_lines(widget.size.region)
    return [segment.text for segment in last][-1]


def drawn(widget) -> str:
    return "".join(
        segment.text
        for strip in widget.render_lines(widget.size.region)
        for segment in strip
        if segment.text.startswith("\x1b7")
    )

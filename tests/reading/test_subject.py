"""What draws the eye: a thing drawn at a known place, on grounds of several sorts."""

from __future__ import annotations

import pytest
from PIL import Image, ImageDraw

from engine.model.reading import BINS
from engine.reading.subject import find_interest, profiles
from tests.corpus.photographs import photograph


@pytest.mark.parametrize("ground", ["plain", "photograph"])
@pytest.mark.parametrize(("x", "y"), [(0.3, 0.35), (0.7, 0.6), (0.5, 0.5)])
def test_the_most_is_where_the_thing_is(ground: str, x: float, y: float) -> None:
    image = Image.new("RGB", (480, 480), "#406040")
    if ground == "photograph":
        soft = photograph(5).convert("L").resize((480, 480)).point(lambda level: 90 + level // 8)
        image = Image.merge("RGB", (soft, soft, soft))
    draw = ImageDraw.Draw(image)
    draw.ellipse([480 * x - 50, 480 * y - 50, 480 * x + 50, 480 * y + 50], fill="#f04020")
    across, down = profiles(find_interest(image))
    for profile, place in ((across, x), (down, y)):
        assert len(profile) == BINS
        assert sum(profile) == pytest.approx(1000, abs=BINS)
        heavy = sum(n * (bin_ + 0.5) for bin_, n in enumerate(profile)) / sum(profile) / BINS
        top = (max(range(BINS), key=profile.__getitem__) + 0.5) / BINS
        assert top == pytest.approx(place, abs=0.13)
        assert abs(heavy - place) < 0.15


def test_a_plain_picture_draws_the_eye_nowhere_in_particular() -> None:
    across, down = profiles(find_interest(Image.new("RGB", (300, 400), "#335577")))
    assert max(across) < 3 * 1000 / BINS
    assert across == pytest.approx(across[::-1], abs=3)
    assert down == pytest.approx(down[::-1], abs=3)

from __future__ import annotations

import pytest
from msgspec import structs

from engine.model import Margins, Rule
from engine.model.settings import Settings
from engine.model.stocks import STOCKS


@pytest.mark.parametrize(
    ("prefix", "width", "height"),
    [
        ("a4-", 210.0, 297.0),  # ISO 216:2007
        ("a3-", 297.0, 420.0),  # ISO 216:2007
        ("a5-", 148.0, 210.0),  # ISO 216:2007
        ("tabloid-", 11 * 25.4, 17 * 25.4),  # ASME Y14.1, size B: 11 x 17 in
        # US customary sizes, as their names say, at the international inch of 1959.
        ("legal-", 8.5 * 25.4, 14 * 25.4),
        ("photo-13x19", 13 * 25.4, 19 * 25.4),
        ("letter-", 8.5 * 25.4, 11 * 25.4),  # ASME Y14.1: 8.5 x 11 in
        ("photo-4x6", 101.6, 152.4),  # 4 x 6 in at the international inch of 1959
    ],
)
def test_sizes_are_the_standards(prefix: str, width: float, height: float) -> None:
    found = [stock for name, stock in STOCKS.items() if name.startswith(prefix)]
    assert found
    for stock in found:
        assert (stock.width, stock.height) == pytest.approx((width, height))


@pytest.mark.parametrize(
    ("name", "pounds", "width_in", "height_in"),
    [
        # Basis sizes of the US trade: a ream of 500 sheets of this size weighs so many pounds.
        ("letter-card", 65, 20, 26),
        ("letter-index", 110, 25.5, 30.5),
        ("letter-copy", 20, 17, 22),
    ],
)
def test_us_weights_are_right_in_grams(
    name: str, pounds: float, width_in: float, height_in: float
) -> None:
    grams = pounds * 453.59237  # the international pound of 1959
    square_metres = 500 * width_in * height_in * 0.0254**2
    assert STOCKS[name].grammage == pytest.approx(grams / square_metres, abs=0.1)


def test_ids_are_their_keys() -> None:
    assert all(name == stock.id for name, stock in STOCKS.items())


def test_a_kind_may_ask_for_a_stock_and_keeps_the_printers_margins() -> None:
    margins = Margins(left=3, right=4, top=5, bottom=14)
    usual = structs.replace(STOCKS["a4-card"], margins=margins)
    settings = Settings(stock=usual, stocks={"snap-shell": "photo-4x6", "old": "gone"}, kerf=1)
    own = settings.stock_of("snap-shell")
    assert (own.id, own.width, own.margins) == ("photo-4x6", 101.6, margins)
    assert settings.stock_of("keep-case") == usual
    assert settings.stock_of("old") == usual
    assert settings.forme_on(own).kerf == 1


def test_the_settings_make_the_forme() -> None:
    stock = STOCKS["letter-copy"]
    forme = Settings(stock=stock, rule=Rule.KNIFE, bleed=2, gutter=4, foot=9, side=7).forme
    assert (forme.stock, forme.rule) == (stock, Rule.KNIFE)
    assert (forme.bleed, forme.gutter, forme.foot, forme.side) == (2, 4, 9, 7)

"""The papers that Spinery knows from the start; a person's own stand in the settings.

Sizes: A3 is 297 x 420 mm, A4 210 x 297 mm and A5 148 x 210 mm (ISO 216:2007); US Letter is
215.9 x 279.4 mm and Tabloid 279.4 x 431.8 mm (ASME Y14.1, sizes A and B: 8.5 x 11 and 11 x 17 in);
Legal of 8.5 x 14 in, 13 x 19 in and photo paper of 4 x 6 in are what their names say at the inch
of 25.4 mm. Grammages of the US weights are computed: 1 lb cover (20 x 26 in basis) is
2.704 g/m2, 65 lb cover so 175.8; 110 lb index 198.9; 20 lb bond 75.2. Calipers, margins and
what photo paper weighs are common practice, no published source: a measured one is better.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from engine.model import Stock

_A4 = (210.0, 297.0)
_A5 = (148.0, 210.0)
_A3 = (297.0, 420.0)
_LEGAL = (215.9, 14 * 25.4)
_TABLOID = (11 * 25.4, 17 * 25.4)
_13X19 = (13 * 25.4, 19 * 25.4)
_LETTER = (215.9, 279.4)
_PHOTO = (4 * 25.4, 6 * 25.4)

_STOCKS = (
    Stock("a4-card", "A4 card, 200 g/m²", *_A4, grammage=200.0, caliper=0.25),
    Stock("a4-heavy", "A4 heavy paper, 160 g/m²", *_A4, grammage=160.0, caliper=0.19),
    Stock("a4-copy", "A4 copy paper, 80 g/m²", *_A4, grammage=80.0, caliper=0.10),
    Stock("a3-card", "A3 card, 200 g/m²", *_A3, grammage=200.0, caliper=0.25),
    Stock("a5-card", "A5 card, 200 g/m²", *_A5, grammage=200.0, caliper=0.25),
    Stock("a5-copy", "A5 copy paper, 80 g/m²", *_A5, grammage=80.0, caliper=0.10),
    Stock("letter-card", "Letter card, 65 lb cover", *_LETTER, grammage=175.8, caliper=0.23),
    Stock("letter-index", "Letter card, 110 lb index", *_LETTER, grammage=198.9, caliper=0.25),
    Stock("letter-copy", "Letter copy paper, 20 lb bond", *_LETTER, grammage=75.2, caliper=0.10),
    Stock("legal-card", "Legal card, 65 lb cover", *_LEGAL, grammage=175.8, caliper=0.23),
    Stock("tabloid-card", "Tabloid card, 65 lb cover", *_TABLOID, grammage=175.8, caliper=0.23),
    Stock("photo-13x19", "13 × 19 in photo paper, 230 g/m²", *_13X19, grammage=230.0, caliper=0.24),
    Stock("photo-4x6", "4 × 6 in photo paper, 230 g/m²", *_PHOTO, grammage=230.0, caliper=0.24),
)

STOCKS: Mapping[str, Stock] = MappingProxyType({stock.id: stock for stock in _STOCKS})
"""The built-in stocks by id."""

"""Text from strangers acts on nothing.

What acts is told by others: ECMA-48 (controls are C0, C1 and DEL) and UAX #9, table 4 (embeddings,
overrides and isolates), by the categories and classes of Python's own character database.
"""

from __future__ import annotations

import unicodedata
from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from engine.model import Game
from engine.model.errors import InputError
from engine.model.plain import plain, plain_lines

TURNING = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}


@given(st.text(st.characters(), max_size=30))
def test_nothing_that_acts_is_left(text: str) -> None:
    shown = plain(text)
    assert not [c for c in shown if unicodedata.category(c) in {"Cc", "Cs", "Zl", "Zp"}]
    assert not [c for c in shown if unicodedata.bidirectional(c) in TURNING]
    assert plain(shown) == shown


def test_words_of_every_script_stay_as_they_are() -> None:
    for text in ("Café ½", "می\u200cخواهم", "क्\u200dष", "שלום\u200f", "👩\u200d🚀", "Ω\u0301"):
        assert plain(text) == text


def test_what_is_taken_out() -> None:
    assert plain("\x1b[2J\x9b31mA\u202eB\u2066C\0") == "[2J31mABC"
    assert plain("two\r\nlines\ttab") == "two lines tab"
    assert plain_lines("two\nli\x07nes") == "two\nlines"
    assert plain("caf\udce9") == "caf\ufffd"


def test_a_record_of_a_stranger_is_plain() -> None:
    game = Game(
        "a", "A\x1b]0;b\x07\n", datetime(2026, 3, 1, tzinfo=UTC), extra={"\x1bx": "y\u202e"}
    )
    assert (game.title, game.extra) == ("A]0;b ", {"x": "y"})


def test_a_title_of_a_stranger_is_no_longer_than_one_can_be() -> None:
    game = Game("a", "W" * 9_000, datetime(2026, 3, 1, tzinfo=UTC), notes="n" * 9_000)
    assert (len(game.title), len(game.notes)) == (500, 9_000)


def test_a_sentence_is_plain() -> None:
    assert str(InputError("\x1b[31m.png", "is bad\n", "Mend it")) == "[31m.png: is bad . Mend it."

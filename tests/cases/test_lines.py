from __future__ import annotations

import tomllib

import pytest

from engine.cases.lines import line_of, places

TEXT = '''\
name = "a = b"  # c = d
sources = [
    "key = 1",
    """two
lines = 2
""",
]
inline = { x = 1, y = 2 }

[inside]
width = 60  # [[panels]]

[[panels]]
name = 'one'

[[panels]]
name = """
[inside]
width = 3
"""
"role" = "art"

[deep.table]
key = 1
'''


def test_every_key_is_found_where_it_stands() -> None:
    tomllib.loads(TEXT)
    assert places(TEXT) == {
        ("name",): 1,
        ("sources",): 2,
        ("inline",): 8,
        ("inside",): 10,
        ("inside", "width"): 11,
        ("panels",): 13,
        ("panels", 0): 13,
        ("panels", 0, "name"): 14,
        ("panels", 1): 16,
        ("panels", 1, "name"): 17,
        ("panels", 1, "role"): 21,
        ("deep",): 23,
        ("deep", "table"): 23,
        ("deep", "table", "key"): 24,
    }


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("panels", 1, "name"), 17),
        (("panels", 1, "width"), 16),
        (("inline", "y"), 8),
        (("sources", 1), 2),
        (("nowhere",), None),
        ((), None),
    ],
)
def test_what_has_no_line_of_its_own_is_told_where_it_is_held(
    path: tuple[str | int, ...], line: int | None
) -> None:
    assert line_of(TEXT, path) == line


def test_tables_in_a_list_are_found_line_by_line() -> None:
    """As kinds are written when they are saved."""
    text = """\
panels = [
    { name = "a", width = 1 },
    { name = "b", width = 2 },
]
"""
    assert line_of(text, ("panels", 1, "width")) == 3
    assert line_of(text, ("panels", 2)) == 1

"""A table that is changed row by row is the table that is made of all rows anew."""

from __future__ import annotations

from operator import attrgetter

import hypothesis.strategies as st
from hypothesis import given

from engine.collection.records import Written, written
from engine.collection.storage import line
from engine.collection.table import Edit, RecordTable, table
from engine.model import Picture

Pictures = RecordTable[str, Picture]
KEY = attrgetter("name")


def picture(name: str, source: str) -> Picture:
    return Picture(name, source, 1, 1, "#000000")


def table_of(rows: dict[int, Picture]) -> Pictures:
    rows = dict(sorted(rows.items()))
    return table(
        KEY, rows, {number: line(number, written(row).text) for number, row in rows.items()}
    )


numbers = st.integers(0, 9)
sources = st.text("ab", max_size=1)
rows_of = st.dictionaries(numbers, st.tuples(numbers, sources), max_size=8).map(
    lambda drawn: {row: picture(f"{name}.png", text) for row, (name, text) in drawn.items()}
)


def named_once(rows: dict[int, Picture]) -> dict[int, Picture]:
    """Leave out rows whose name stands in an earlier one."""
    first = {row.name: number for number, row in sorted(rows.items(), reverse=True)}
    return {number: row for number, row in rows.items() if first[row.name] == number}


@given(rows_of, rows_of)
def test_changing_rows_gives_the_table_made_anew(
    old: dict[int, Picture], new: dict[int, Picture]
) -> None:
    old, new = named_once(old), named_once(new)
    before = table_of(old)
    changes: dict[int, Written[Picture] | None] = {
        number: written(new[number]) if number in new else None
        for number in sorted(old.keys() | new.keys(), reverse=True)
        if old.get(number) != new.get(number)
    }
    after, wanted = before.changed(changes), table_of(new)
    for one, other in ((after.rows, wanted.rows), (after.lines, wanted.lines)):
        assert list(one.items()) == list(other.items())
    assert list(after.records.items()) == list(wanted.records.items())
    assert after.numbers == wanted.numbers
    assert after.next_number == wanted.next_number
    assert list(before.rows.items()) == sorted(old.items()), "the table before is as it was"

    edits = before.edits(changes)
    now, then = {row.name: row for row in new.values()}, {row.name: row for row in old.values()}
    assert {key: edit for key, edit in edits.items() if edit.old != edit.new} == {
        key: Edit(then.get(key), now.get(key))
        for key in then.keys() | now.keys()
        if then.get(key) != now.get(key)
    }

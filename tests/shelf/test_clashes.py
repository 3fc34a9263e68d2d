from __future__ import annotations

from engine.shelf.clashes import Clash, Seen, clashes


def seen(game: str, colour: str, **more: object) -> Seen:
    said = {"series": "", "group": "", "line": "shelf", "size": 12.0, **more}
    return Seen(game=game, title=game, colour=colour, **said)  # type: ignore[arg-type]


RED, RUST, BLUE, GREEN = "#b01020", "#b21222", "#2040c0", "#208040"


def found(*shelf: Seen) -> list[tuple[Clash, str]]:
    return [(one.what, one.games[0]) for one in clashes(shelf)]


def test_neighbours_that_look_alike_are_found() -> None:
    assert found(seen("a", RED), seen("b", RUST), seen("c", BLUE)) == [(Clash.ALIKE, "b")]
    assert not found(seen("a", RED), seen("c", BLUE), seen("b", RUST))


def test_a_group_or_a_series_may_share_a_colour() -> None:
    assert not found(seen("a", RED, group="Quay"), seen("b", RUST, group="Quay"))
    assert not found(seen("a", RED, series="Tide"), seen("b", RUST, series="Tide"))
    assert not found(seen("a", RED, line="shelf"), seen("b", RUST, line="drawer"))


def test_a_colour_that_breaks_a_series_is_found() -> None:
    tide = [seen(name, colour, series="Tide") for name, colour in
            (("1", RED), ("2", RUST), ("3", BLUE))]  # fmt: skip
    assert found(*tide) == [(Clash.SERIES, "3")]
    assert not found(tide[0], tide[2]), "two are no series"
    motley = [seen(c, c, series="Tide") for c in (RED, BLUE, GREEN)]
    assert not found(*motley), "no colour is that of most"


def test_a_title_size_that_jumps_is_found_from_both_sides() -> None:
    row = [
        ("a", RED, 12.0),
        ("b", BLUE, 8.0),
        ("c", GREEN, 12.0),
        ("d", RED, 17.0),
        ("e", BLUE, 12.0),
    ]
    edges = [seen(name, colour, size=size) for name, colour, size in row]
    assert found(*edges) == [(Clash.SIZE, "b"), (Clash.SIZE, "d")]
    apart = [one._replace(line=one.game) for one in edges]
    assert not found(*apart), "edges of another kind are no measure"

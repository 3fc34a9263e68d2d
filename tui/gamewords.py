"""What is said of games: how art lies, what stands on edges, what is written of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from engine import (
    SETTINGS,
    EdgeReport,
    Fit,
    InkMode,
    Legibility,
    Matte,
    Proposal,
)

FIELDS = {
    "title": "Title",
    "series": "Series",
    "maker": "Maker",
    "genre": "Genre",
    "year": "Year",
    "notes": "Note",
}
"""What is written of a game, by its field."""

# --- art ----------------------------------------------------------------------------------

INK_WORDS = {InkMode(mode): words for mode, words in SETTINGS["ink"].takes.said.items()}

MATTE_WORDS = {
    Matte.BASE: "base colour",
    Matte.COMPLEMENT: "opposite hue",
    Matte.ANALOGOUS: "neighbouring hue",
    Matte.EXTEND: "the picture's edge drawn out",
    Matte.BLUR: "the picture out of focus",
    Matte.MIRROR: "the picture carried on, out of focus",
}


def art_choices(game: Proposal) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield how the art of a game lies: the actions that change each choice, and what it is."""
    art = game.design.art
    yield ("change_art",), game.art.words
    if art.picture is not None:
        if art.fit is Fit.FILL:
            across, down = art.focus
            crop = ("crop_left", "crop_down", "crop_up", "crop_right")
            yield crop, f"about {across:.0%} across, {down:.0%} down"
        sides = [f"{side} {cut:.1%}" for side, cut in art.trim._asdict().items() if cut]
        yield ("next_trim",), ", ".join(sides) or "nothing"
        spine = f"spine {art.split[0]:.1%} to {art.split[1]:.1%}" if art.split else "whole"
        yield ("split",), spine
        yield ("turn_left", "turn_right"), f"{art.turn:.2f}°" if art.turn else "not turned"
        yield ("next_matte",), MATTE_WORDS[art.matte]
    yield ("next_pattern",), str(art.pattern) if art.picture is None else "none: a picture"
    yield ("next_ink",), INK_WORDS[game.design.ink]


def saved(saving: Mapping[InkMode, float]) -> str:
    """Return what each mode saves: 'grey saves 12 %, edges saves 80 %'."""
    return ", ".join(f"{m} saves {s:.0%}" for m, s in saving.items() if m is not InkMode.FULL)


# --- colours ------------------------------------------------------------------------------


def colour_words(base: str) -> str:
    """Return a colour by its name, and exactly: 'dark blue, #003c78'."""
    from engine import colour_name  # with all that knows of colours, which takes long to import

    return f"{colour_name(base)}, {base}"


# --- titles -------------------------------------------------------------------------------


def edge_text(one: EdgeReport) -> str:
    """Return what stands on an edge."""
    return " / ".join(one.lines) or one.logo


def edge_words(one: EdgeReport) -> str:
    """Return what stands on an edge, how large, and from how far it reads."""
    return f"{edge_text(one)}, {edge_measures([one])}"


def edge_measures(edges: Sequence[EdgeReport]) -> str:
    """Return how large type is on edges, and from how far it reads.

    As '12.6 and 9.0 pt, 3.1 and 2.2 mm high, reads at 68 and 49 cm'.
    """
    sizes = _each(f"{edge.size:.1f}" for edge in edges)
    high = _each(f"{edge.cap_height:.1f}" for edge in edges)
    far = _each(f"{edge.reads_at / 10:.0f}" for edge in edges)
    widths = _each(f"{edge.width:.0%}" for edge in edges if edge.width < 1)
    condensed = f", condensed to {widths}" if widths else ""
    short = "" if all(edge.reaches for edge in edges) else ", falls short"
    return f"{sizes} pt, {high} mm high{condensed}, reads at {far} cm{short}"


def _each(figures: Iterable[str]) -> str:
    return " and ".join(dict.fromkeys(figures))


def legibility_lines(report: Legibility) -> list[str]:
    """Return which titles fall short and what helps, then how even the shelf is."""
    short, distance = len(report.short) or "none", f"{report.distance / 10:g} cm"
    looked = f"{report.titles} edges looked at"
    lines = [*report.notes, f"{looked}; {short} cannot be read from {distance}."]
    for one in report.short:
        lines.append(f"  {one.game} {one.edge.panel}: {edge_words(one.edge)}")
        lines += [
            f"      {h.words}: {h.reads_at / 10:.0f} cm" + ("" if h.reaches else ", not enough")
            for h in one.helps
        ]
    for even in report.even:
        lines.append(
            f"{even.case} {even.panel}: {even.titles} titles at {even.size:g} pt, but for"
            f" {len(even.apart) or 'none'}"
        )
        lines += [f"  {game}: {why}" for game, why in even.apart.items()]
    return lines

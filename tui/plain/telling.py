"""A game and a batch in words, a fact to a line."""

from __future__ import annotations

from collections.abc import Mapping

from engine import Decision, InkMode, Proposal, colour_name
from tui.gamewords import colour_words, edge_words


def game_lines(one: Proposal, place: str, kinds: Mapping[str, str]) -> list[str]:
    """Return a game in words: what is accepted, what is proposed, and what is in doubt.

    ``place`` tells where it stands among others; ``kinds`` has the names of case kinds by id.
    """
    left = len(Decision) - len(one.accepted)
    verdict = "all is accepted" if not left else "sure" if one.sure else "in doubt"
    return [
        f"{place}{one.title}. {one.stage.value.capitalize()}, {verdict}.",
        *(line for decision in Decision for line in decision_lines(one, decision, kinds)),
        *doubt_lines(one),
    ]


def decision_lines(one: Proposal, decision: Decision, kinds: Mapping[str, str]) -> list[str]:
    """Return one decision of a game in words, a line for each edge that a title stands on."""
    taken = "accepted" if decision in one.accepted else "proposed"
    match decision:
        case Decision.CASE:
            return [f"Case, {taken}: {kinds.get(one.case, one.case)}."]
        case Decision.ART:
            return [f"Art, {taken}: {_art(one)}."]
        case Decision.COLOUR:
            return [f"Colour, {taken}: {_colour(one)}."]
        case Decision.TITLE:
            return [
                f"Title on edge {edge.panel}, {taken}: {edge_words(edge)}." for edge in one.edges
            ]


def doubt_lines(one: Proposal) -> list[str]:
    """Return what is in doubt about a game, a line each."""
    return [f"In doubt: {doubt}" for doubt in one.doubts]


def _art(one: Proposal) -> str:
    art = one.art
    words = [art.words]
    if art.source is not None:
        words += [f"the picture {art.source}", f"{art.ppi:.0f} pixels to the inch"]
        if Decision.ART not in one.accepted:
            words.append(f"{art.confidence * 100:.0f} % likely this game's")
    words += [f"on {panel.panel} {panel.source}, {panel.words}" for panel in art.others]
    return ", ".join(words)


def _colour(one: Proposal) -> str:
    colours = one.design.colours
    words = [
        colour_words(colours.base),
        f"{colour_name(colours.text)} letters",
        f"contrast {one.contrast:.1f}",
    ]
    if one.group:
        words.append(f"of {one.group}")
    if one.design.ink is not InkMode.FULL:
        words.append(f"printed {one.design.ink}")
    return ", ".join(words)

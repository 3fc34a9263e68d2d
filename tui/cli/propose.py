"""``spinery propose``: show, change and accept the designs of games."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import AcceptReport, InkMode, InputError, Proposal, Workshop
from tui.aloud import Line, named
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import USUAL, add_games
from tui.cli.told import Object, told
from tui.gamewords import colour_words, edge_words
from tui.words import count


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_games(one, "*")
    one.add_argument("--accept", action="store_true", help="accept what is proposed")
    one.add_argument("--sure", action="store_true", help="only where nothing is in doubt")
    one.add_argument(
        "--without",
        nargs="*",
        metavar="PANEL",
        help="panels the inserts of these games go without; none: all are back",
    )
    one.add_argument(
        "--ink",
        choices=[*(mode.value for mode in InkMode), USUAL],
        metavar="MODE",
        help=f"how these games are printed: {', '.join(InkMode)}; usual: as set",
    )


def run(asked: Namespace) -> Answer:
    """Change and accept, all as one change, or show."""
    if asked.without is not None and not asked.games:
        raise InputError("--without", "is for certain games", "Name them before it")
    if asked.ink is not None and not asked.games:
        raise InputError("--ink", "is for certain games", "spinery setup --ink is for all")
    with opened(asked) as shop, shop.change():
        if asked.without is not None:
            shop.designs.leave_out(asked.games, asked.without)
        if asked.ink is not None:
            mode = None if asked.ink == USUAL else InkMode(asked.ink)
            shop.designs.change_ink(asked.games, mode)
        return _accept(shop, asked) if asked.accept else _show(shop, asked)


def _accept(shop: Workshop, asked: Namespace) -> Answer:
    wanted = [one.game for one in shop.designs.proposals(asked.games or None)]
    report = shop.designs.accept(wanted, sure_only=asked.sure)
    data = {"games": [_data(one) for one in shop.designs.proposals(wanted)]}
    return Answer(_accepted(report), data, DONE if report.accepted else NOTHING)


def _show(shop: Workshop, asked: Namespace) -> Answer:
    found = shop.designs.proposals(asked.games or None)
    shown = [one for one in found if one.sure or not asked.sure]
    lines = [line for one in shown for line in _words(one)]
    data = {"games": [_data(one) for one in shown]}
    return Answer(lines or ["Nothing is left to propose."], data, DONE if shown else NOTHING)


def _accepted(report: AcceptReport) -> list[str]:
    lines = [f"{count(len(report.accepted), 'game')} accepted."]
    if report.left:
        lines.append(f"{count(len(report.left), 'game')} left to decide:")
        lines += [f"  {one.game}: {' '.join(one.doubts)}" for one in report.left]
    return [*lines, *report.notes]


def _words(one: Proposal) -> list[str]:
    mark = "sure " if one.sure else "doubt"
    said = f"{one.title}: {'sure' if one.sure else 'in doubt'}, {one.case}, {one.stage}, {one.game}"
    art, colours = one.art, one.design.colours
    source = f"{art.source or 'no picture'}{f' ({art.match})' if art.match else ''}"
    more = f"text {colours.text}, contrast {one.contrast:.1f}" + (
        f", of {one.group}" if one.group else ""
    )
    return [
        Line(f"{mark} {one.game}: {one.title} ({one.case}, {one.stage.value})", said),
        _fact("art", f"{source}, {art.words}" + (f", {art.ppi:.0f} ppi" if art.source else "")),
        *(
            f"      on {panel.panel}: {panel.source}, {panel.words}, {panel.ppi:.0f} ppi"
            for panel in art.others
        ),
        _fact("colour", f"{colours.base}, {more}", f"{colour_words(colours.base)}, {more}"),
        *(_fact("title", f"{edge.panel}: {edge_words(edge)}") for edge in one.edges),
        *(Line(f"      ?      {doubt}", f"In doubt: {doubt}") for doubt in one.doubts),
    ]


def _fact(name: str, words: str, said: str = "") -> Line:
    return named(name, 6, words, " " * 6, said=said)


def _data(one: Proposal) -> Object:
    art, design = told(one.art), one.design
    if one.art.source is None:
        art["fit"] = "plain"
    return {
        "id": one.game,
        **told(one, "title", "case", "stage", "sure", "doubts", "accepted"),
        **told(design, "left_out", "ink"),
        "art": {**art, **told(design.art, "turn", "matte", "pattern", "band")},
        "colour": {
            **told(design.colours),
            "group": one.group or None,
            # Never rounded up: a contrast of 4.499 must not read as 4.5 (WCAG 2.2).
            "contrast": int(one.contrast * 1000) / 1000,
        },
        "title_setting": told(one, "edges"),
    }


COMMAND = Command("propose", "show or accept proposals", run, add)

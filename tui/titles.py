"""Titles at the command line: how the shelf's are set, how far they read, how one is worded."""

from __future__ import annotations

import argparse
from argparse import Namespace
from pathlib import Path

from engine import EdgeReport, InputError, Legibility, Lettering, Wording, Workshop
from tui import asjson
from tui.answers import DONE, NOTHING, Answer

NONE = "none"
"""In the place of a column, the word that takes it back."""
USUAL = "usual"
"""In the place of a font file, the word for the font that ships."""

Object = dict[str, object]


# --- what can be asked ------------------------------------------------------------------


def short_form(text: str) -> tuple[str, str]:
    """Return words and the short form that stands for them; no form takes it back."""
    words, found, form = text.partition("=")
    if not found or not words.strip():
        raise argparse.ArgumentTypeError(
            f"{text} is no short form: write the words and the form, as Adventure=Adv."
        )
    return words.strip(), form.strip()


def add_lettering(one: argparse.ArgumentParser) -> None:
    """Add what ``spinery setup`` sets of titles."""
    new = one.add_argument_group("titles", "for what is proposed from now on")
    new.add_argument("--font", metavar="FILE", help="a font file; usual: the font that ships")
    new.add_argument("--face", type=int, default=0, metavar="N", help="which font of a collection")
    new.add_argument(
        "--lettering", choices=["even", "free"], help="one size, or each as large as it can be"
    )
    new.add_argument("--lines", type=int, choices=[1, 2], help="a title takes at most so many")
    new.add_argument("--smallest", type=float, metavar="PT", help="no type is smaller")
    new.add_argument("--largest", type=float, metavar="PT", help="no type is larger")
    new.add_argument("--narrowest", type=float, metavar="PART", help="condensed so far, 0.7 to 1")
    new.add_argument("--reads-at", type=float, metavar="MM", help="from how far edges are read")
    new.add_argument(
        "--upright", nargs="*", metavar="KIND", help="ideographs stand upright; none: no kind"
    )
    new.add_argument(
        "--short",
        nargs="+",
        type=short_form,
        metavar="WORDS=FORM",
        help="your own short forms; WORDS= takes one back",
    )
    new.add_argument(
        "--mark", metavar="COLUMN", help="a mark on every edge; =★: your own sign; none: no mark"
    )
    new.add_argument("--mark-room", type=float, metavar="MM", help="kept for it along the edge")
    new.add_argument("--mark-end", choices=["head", "foot"], help="where it stands")
    new.add_argument(
        "--mark-across", action=argparse.BooleanOptionalAction, help="it stands upright on a shelf"
    )
    new.add_argument("--stripe", metavar="COLUMN", help="a stripe by its words; none: no stripe")
    new.add_argument("--stripe-room", type=float, metavar="MM", help="how wide it is")


def add_titles(one: argparse.ArgumentParser) -> None:
    """Add what ``spinery titles`` takes."""
    one.add_argument("games", nargs="*", metavar="GAME", help="a game's id or title")
    one.add_argument("--words", metavar="TEXT", help="word one game's title so, as its list has it")
    one.add_argument("--logo", type=Path, metavar="FILE", help="put a picture on one game's edges")
    one.add_argument("--alone", action="store_true", help="the logo alone, however small")
    one.add_argument(
        "--share", type=float, default=0.0, metavar="PART", help="its letters are so high in it"
    )


# --- doing it ---------------------------------------------------------------------------


def set_lettering(shop: Workshop, asked: Namespace) -> None:
    """Change how titles are set, as far as it was asked."""
    wanted = {
        "mode": asked.lettering,
        "lines": asked.lines,
        "smallest": asked.smallest,
        "largest": asked.largest,
        "narrowest": asked.narrowest,
        "distance": asked.reads_at,
        "upright": asked.upright,
        "dictionary": None if asked.short is None else dict(asked.short),
        "mark": "" if asked.mark == NONE else asked.mark,
        "mark_room": asked.mark_room,
        "mark_end": asked.mark_end,
        "mark_across": asked.mark_across,
        "stripe": "" if asked.stripe == NONE else asked.stripe,
        "stripe_room": asked.stripe_room,
    }
    changes = {name: value for name, value in wanted.items() if value is not None}
    usual = asked.font == USUAL
    if changes or asked.font:
        font = None if usual or not asked.font else Path(asked.font)
        shop.setup.set_lettering(font=font, face=asked.face, usual_font=usual, **changes)


def titles(shop: Workshop, asked: Namespace) -> Answer:
    """Do what ``spinery titles`` asks for."""
    if asked.words is None and asked.logo is None:
        report = shop.titles.report(asked.games or None)
        code = NOTHING if report.short else DONE
        wordings = shop.titles.wordings(asked.games[0]) if len(asked.games) == 1 else ()
        return Answer(legibility_words(report, wordings), _data(report, wordings), code)
    if len(asked.games) != 1:
        raise InputError("titles", "this is for one game", "Name it: spinery titles GAME")
    (game,) = asked.games
    if asked.logo is not None:
        told = shop.titles.change_logo(game, asked.logo, share=asked.share, alone=asked.alone)
        edges = [asjson.edge(one) for one in told.proposal.edges]
        return Answer(list(told.words), {"words": list(told.words), "edges": edges})
    proposal = shop.titles.change_wording(game, asked.words)
    lines = [f"{one.panel}: {_shown(one)}" for one in proposal.edges]
    return Answer(lines, {"edges": [asjson.edge(one) for one in proposal.edges]})


# --- saying it --------------------------------------------------------------------------


def lettering_words(lettering: Lettering, font: str) -> list[str]:
    """Return how titles are set, a line each."""
    sizes = f"{lettering.smallest:g} to {lettering.largest:g} pt"
    rows = "1 line" if lettering.lines == 1 else f"at most {lettering.lines} lines"
    distance = f"read from {lettering.distance / 10:g} cm"
    lines = [f"titles      {lettering.mode}, {font}, {sizes}, {rows}, {distance}"]
    if lettering.narrowest < 1:
        lines.append(f"  condensed to {lettering.narrowest:g} where that helps")
    if lettering.upright:
        kinds = ", ".join(kind or "every kind" for kind in lettering.upright)
        lines.append(f"  upright   ideographs and kana on {kinds}")
    lines += [f"  short     {words}: {form}" for words, form in lettering.dictionary.items()]
    if lettering.mark:
        across = ", across" if lettering.mark_across else ""
        lines.append(
            f"  mark      {lettering.mark}, {lettering.mark_room:g} mm at the"
            f" {lettering.mark_end.value}{across}"
        )
    if lettering.stripe:
        lines.append(f"  stripe    by {lettering.stripe}, {lettering.stripe_room:g} mm at the head")
    return lines


def lettering_data(lettering: Lettering, font: str) -> Object:
    """Return how titles are set."""
    return {
        "font": font,
        "mode": lettering.mode,
        "lines": lettering.lines,
        "smallest_pt": lettering.smallest,
        "largest_pt": lettering.largest,
        "narrowest": lettering.narrowest,
        "reads_at_mm": lettering.distance,
        "upright": list(lettering.upright),
        "short": dict(lettering.dictionary),
        "mark": lettering.mark,
        "mark_room_mm": lettering.mark_room,
        "mark_end": lettering.mark_end.value,
        "mark_across": lettering.mark_across,
        "stripe": lettering.stripe,
        "stripe_room_mm": lettering.stripe_room,
    }


def _shown(one: EdgeReport) -> str:
    """Return what stands on an edge, how large, and from how far it reads."""
    condensed = f", condensed to {one.width:.0%}" if one.width < 1 else ""
    text = " / ".join(one.lines) or one.logo
    return f"{text}, {one.size:.1f} pt{condensed}, reads at {one.reads_at / 10:.0f} cm"


def legibility_words(report: Legibility, wordings: tuple[Wording, ...] = ()) -> list[str]:
    """Return which titles fall short and what helps, then how even the shelf is."""
    short, distance = len(report.short) or "none", f"{report.distance / 10:g} cm"
    looked = f"{report.titles} edges looked at"
    lines = [*report.notes, f"{looked}; {short} cannot be read from {distance}."]
    for one in report.short:
        lines.append(f"  {one.game} {one.edge.panel}: {_shown(one.edge)}")
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
    if wordings:
        lines.append("Wordings:")
        lines += [f"  {'*' if one.now else ' '} {one.text}" for one in wordings]
    return lines


def _data(report: Legibility, wordings: tuple[Wording, ...]) -> Object:
    return {
        "distance_mm": report.distance,
        "edges": report.titles,
        "short": [
            {
                "game": one.game,
                "title": one.title,
                "case": one.case,
                **asjson.edge(one.edge),
                "helps": [
                    {"words": h.words, "reads_at_mm": round(h.reads_at, 3), "reaches": h.reaches}
                    for h in one.helps
                ],
            }
            for one in report.short
        ],
        "even": [
            {
                "case": one.case,
                "panel": one.panel,
                "titles": one.titles,
                "size_pt": one.size,
                "apart": dict(one.apart),
            }
            for one in report.even
        ],
        "wordings": [
            {"text": one.text, "steps": list(one.steps), "now": one.now} for one in wordings
        ],
        "notes": list(report.notes),
    }

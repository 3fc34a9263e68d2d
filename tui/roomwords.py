"""What the work still takes, how fast it goes, and what goes where, in words."""

from __future__ import annotations

from collections.abc import Mapping

from engine import (
    POSES,
    ContainerReport,
    DividersReport,
    Found,
    InkSummary,
    Need,
    Pace,
    RoomReport,
    SuppliesReport,
)
from tui.aloud import Line, columns
from tui.gamewords import saved
from tui.words import count

# --- pace and supplies ------------------------------------------------------------------

SHOWN_WEEKS = 12
SHOWN_MOVES = 20
BAR = 32
"""Cells of a bar, of which an eighth can be drawn."""
_EIGHTHS = " ▏▎▍▌▋▊▉"
_NAME = 28


def bar(part: float, width: int = BAR) -> str:
    """Return ``part`` of a whole, 0 to 1, as a bar of ``width`` cells."""
    eighths = round(min(1.0, max(0.0, part)) * width * 8)
    full, rest = divmod(eighths, 8)
    drawn = "█" * full + (_EIGHTHS[rest] if rest else "")
    return drawn + "·" * (width - len(drawn))


def pace_lines(pace: Pace, sheets_left: int | None = None) -> list[str]:
    """Return the games done by week as a chart, the pace, and what is left at it."""
    whole = (pace.weeks[-1].total if pace.weeks else 0) + pace.left
    head = "Fitted by the end of the week that begins on"
    lines: list[str] = [Line(head, head if any(week.done for week in pace.weeks) else "")]
    lines += [
        Line(
            f"  {week.begins:%Y-%m-%d}  {bar(week.total / whole if whole else 0)} {week.total:>5}"
            + (f"  +{week.done}" if week.done else ""),
            f"{week.begins:%Y-%m-%d}: {week.total}, {week.done} in that week" if week.done else "",
        )
        for week in pace.weeks[-SHOWN_WEEKS:]
    ]
    sheets = "" if sheets_left is None else f" and {count(sheets_left, 'sheet')} to print"
    lines.append(f"Left: {count(pace.left, 'game')} to fit{sheets}.")
    if not pace.left:
        return lines
    if pace.evenings_left is None:
        return [*lines, "No game was fitted in the last weeks: there is no pace to go by yet."]
    lines.append(
        f"Pace: {pace.done_a_week:.1f} games a week, {pace.done_an_evening:.1f} an evening "
        f"({count(pace.evenings, 'evening')} in the last weeks)."
    )
    hours = f", {hours_words(pace.hours_left)}" if pace.hours_left is not None else ""
    by = f", done by {pace.done_by:%Y-%m-%d}" if pace.done_by else ""
    return [*lines, f"At that pace: {count(pace.evenings_left, 'evening')}{hours}{by}."]


def hours_words(hours: float) -> str:
    """Return '40 min' or '12 h'."""
    return f"{hours * 60:.0f} min" if hours < 3 else f"{hours:.0f} h"


def need_words(need: Need, currency: str) -> str:
    """Return a line of the list for the shop."""
    amounts = "".join(f"{_amount(each):>9}" for each in (need.needed, need.have, need.missing))
    packs = f"{'' if need.packs is None else need.packs:>6}"
    price = f"{need.price:>9.2f} {currency}".rstrip() if need.price is not None else ""
    name = need.name if len(need.name) <= _NAME else f"{need.name[: _NAME - 1]}…"
    return Line(
        f"{name:<{_NAME}} {need.sort.unit:<7}{amounts}{packs}{price}".rstrip(),
        f"{need.name}: {_amount(need.needed)} {need.sort.unit} needed, "
        f"{_amount(need.have)} in the house, {_amount(need.missing)} missing"
        + ("" if need.packs is None else f", {count(need.packs, 'pack')}")
        + (f", {price.strip()}" if price else ""),
    )


def need_cells(need: Need) -> tuple[str, ...]:
    """Return the same as the cells of a table, without the money's sign."""
    amounts = tuple(_amount(each) for each in (need.needed, need.have, need.missing))
    packs = "" if need.packs is None else f"{need.packs}"
    price = "" if need.price is None else f"{need.price:.2f}"
    return (f"{need.name}, {need.sort.unit}", *amounts, packs, price)


def _amount(value: float) -> str:
    return f"{value:.0f}" if value >= 100 or value == round(value) else f"{value:.1f}"


def supplies_lines(report: SuppliesReport) -> list[str]:
    """Return what is still needed, the models behind it, and the time."""
    if not report.games:
        return ["Every game is in its case: nothing is needed."]
    heads = "".join(f"{head:>9}" for head in ("needed", "in house", "missing"))
    lines: list[str] = [Line(f"{'':{_NAME + 8}}{heads}{'packs':>6}{'price':>9}", "")]
    lines += [need_words(need, report.currency) for need in report.needs]
    return [*lines, *supplies_notes(report)]


def supplies_notes(report: SuppliesReport) -> list[str]:
    """Return what there is to say of the needs: cost, paper, ink and time, each with its model."""
    lines = []
    if report.cost is not None:
        but = f"; no price for {', '.join(report.unpriced)}" if report.unpriced else ""
        lines.append(f"In all {report.cost:.2f} {report.currency}".rstrip() + but)
    return [
        *lines,
        "",
        paper_line(report),
        *ink_sample_lines(report),
        f"Time: {pace_lines(report.pace)[-1]}",
        *supplies_cautions(report),
    ]


def supplies_cautions(report: SuppliesReport) -> tuple[str, ...]:
    """Return what is to be minded; before it the notes have the model of the ink, where asked."""
    return report.notes[1 if report.ink else 0 :]


def paper_line(report: SuppliesReport) -> str:
    """Return how many sheets the plan takes, and what is added for spoilage."""
    proven = "proven fewest" if report.proven else "as few as found"
    spoilage = report.spoilage
    spoiled = (
        f"{spoilage.spoiled} of {spoilage.settled} inserts were spoiled, so each is printed "
        f"{spoilage.prints:.2f} times on average"
        if spoilage.settled
        else "no sheet is settled yet, so nothing is added for spoilage"
    )
    return f"Paper: {count(report.planned, 'sheet')}, {proven}; {spoiled}."


def ink_sample_lines(report: SuppliesReport) -> list[str]:
    """Return how well the ink is known, and by which model; empty where it was not asked for."""
    if report.ink is None:
        return []
    error = f", within {report.ink.error:.0%}" if report.ink.error else ""
    told = f"from {report.ink.measured} of {count(report.ink.inserts, 'insert')}{error}"
    return [f"Ink: {told}. {report.notes[0]}"]


# --- ink --------------------------------------------------------------------------------


def ink_lines(summary: InkSummary) -> list[str]:
    """Return the ink of inserts and sheets, a line each, and what each mode would save."""
    if not summary.inserts:
        return ["No insert waits for a sheet."]
    heads = f"{'':24}{'cyan':>8}{'magenta':>9}{'yellow':>8}{'black':>8}"
    lines = [summary.model, "", Line(heads, "")]
    for one in summary.inserts:
        lines.append(_ink_line(one.game, one.coverage, f"{one.mode}, {saved(one.saving)}"))
    for sheet in summary.sheets:
        name = f"sheet {sheet.number}" if sheet.number else "a sheet"
        lines.append(_ink_line(name, sheet.coverage, saved(sheet.saving)))
    return lines


def _ink_line(name: str, coverage: Mapping[str, float], more: str) -> Line:
    cyan, magenta, yellow, black = (f"{percent:.1f} %" for percent in coverage.values())
    inks = ", ".join(f"{ink} {percent:.1f} %" for ink, percent in coverage.items())
    return Line(
        f"{name[:23]:<24}{cyan:>8}{magenta:>9}{yellow:>8}{black:>8}  {more}",
        f"{name}: {inks}; {more}",
    )


# --- room on the shelf ------------------------------------------------------------------


def found_words(one: Found) -> list[str]:
    """Return where a game is that was looked for, and how its edge looks."""
    edge = f"{one.hue} edge {one.colour}"
    if one.place is None:
        return [f"{one.title}: no place yet, {one.stage}, {edge}"]
    settled = "" if one.place.kept else " (proposed)"
    where = f"{one.title}: {place_words(one)}{settled}, {edge}, {one.stage}"
    beside = [f"behind {one.after}"] if one.after else []
    beside += [f"before {one.before}"] if one.before else []
    return [where, *([f"  {', '.join(beside)}"] if beside else [])]


def place_words(one: Found) -> str:
    """Return the place of a game that was looked for: 'Top shelf, 9 from the left'."""
    return f"{one.place.words} from {one.place.counted}" if one.place else "no place yet"


def container_lines(one: ContainerReport) -> list[str]:
    """Return a container, what is in it, and how much it holds each way."""
    box = one.container
    size = f"{box.width:g} × {box.height:g} × {box.depth:g} mm"
    only = f", for {', '.join(box.kinds)}" if box.kinds else ""
    lines = [f"{box.name}: {size}, {POSES[box.pose]}{only}"]
    lines.append(
        f"  {count(one.games, 'game')}, {one.first} to {one.last}; room for {one.room} more"
        if one.games
        else "  empty"
    )
    lines += [
        f"  holds {fill.shelf} {fill.case} on a shelf, {fill.drawer} in a drawer, "
        f"{fill.stack} in piles"
        for fill in one.holds
        if fill.shelf or fill.drawer or fill.stack
    ]
    return lines


def room_lines(report: RoomReport) -> list[str]:
    """Return the containers, what is new and what moves, and what finds no room."""
    if not report.containers:
        asks = "spinery room NAME --size WIDTHxHEIGHTxDEPTH --stored shelf"
        return [f"No shelf, drawer or box yet. Describe one by its inside: {asks}"]
    lines = [line for one in report.containers for line in container_lines(one)]
    if report.new:
        lines.append(
            f"{count(len(report.new), 'game')} without a settled place: --keep settles it."
        )
    if len(report.moves) > SHOWN_MOVES:
        lines.append("Many games move; --afresh may be easier.")
    return [*lines, *moving_lines(report)]


def moving_lines(report: RoomReport) -> list[str]:
    """Return what moves, and what finds no room."""
    lines = [f"Moves to {place.container}: {place.title}" for place in report.moves[:SHOWN_MOVES]]
    if len(report.moves) > SHOWN_MOVES:
        lines.append(f"... and {len(report.moves) - SHOWN_MOVES} more move.")
    if report.homeless:
        few = ", ".join(report.homeless[:3])
        more = f" and {len(report.homeless) - 3} more" if len(report.homeless) > 3 else ""
        lines.append(f"No room for {few}{more}.")
    return [*lines, *report.notes]


def divider_lines(report: DividersReport, adds: str = "--add adds them") -> list[str]:
    """Return the dividers and labels there are, those that are wanted, and what ``adds`` them."""
    broad = 1 + max((len(one.id) for one in report.present), default=0)
    lines: list[str] = [
        columns(((one.id, broad), (one.stage, 12), (one.title, 0)), f"{one.title}: {one.stage}")
        for one in report.present
    ]
    if report.wanted:
        titles = ", ".join(one.title for one in report.wanted)
        lines.append(f"{len(report.wanted)} more wanted ({adds}): {titles}")
    if report.stale:
        lines.append(f"Wanted no more: {', '.join(one.title for one in report.stale)}")
    return lines or ["The games stand in no groups, and no shelf or drawer is described."]

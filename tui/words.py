"""Results in words, as the command line and the screens say them."""

from __future__ import annotations

from collections.abc import Mapping

from engine import (
    POSES,
    SETTINGS,
    CaseShape,
    ColoursReport,
    ContainerReport,
    CutsReport,
    EdgeReport,
    Found,
    InkMode,
    Legibility,
    Matte,
    Need,
    Outlook,
    Pace,
    PlanPart,
    PlanReport,
    Printer,
    Question,
    ReadingReport,
    RoomReport,
    SheetReport,
    SuppliesReport,
)


def count(number: int, thing: str) -> str:
    """Return '1 sheet', '3 sheets'."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


# --- sheets -----------------------------------------------------------------------------


def contents(one: SheetReport) -> str:
    """Return what lies on a sheet: '6 snap-shell and 1 keep-case, 78 % used'."""
    kinds = [placed.case for placed in one.placements]
    parts = [f"{kinds.count(kind)} {kind}" for kind in dict.fromkeys(sorted(kinds))]
    return f"{' and '.join(parts)}, {one.used:.0%} used"


def printer_words(one: Printer) -> str:
    """Return how a printer is: 'stopped, takes no jobs (out of paper)'."""
    refuses = "" if one.accepts else ", takes no jobs"
    return f"{one.state}{refuses}" + (f" ({one.said})" if one.said else "")


def found_lines(one: ReadingReport) -> list[str]:
    """Return how many games were told by reading, a line; none for none."""
    return [f"{count(one.found, 'game')} told by what covers say."] if one.found else []


def beyond(inserts: int) -> str:
    """Return '3 more inserts wait for other sheets'."""
    return f"{count(inserts, 'more insert')} {'waits' if inserts == 1 else 'wait'} for other sheets"


def offcut_lines(one: SheetReport) -> list[str]:
    """Return the offcuts of a settled sheet, a line each."""
    return [
        f"Sheet {one.number}, offcut {offcut.number}: "
        f"{offcut.size.width:.0f} × {offcut.size.height:.0f} mm"
        + (", used up" if offcut.used else ", kept" if offcut.kept else "")
        for offcut in one.offcuts
    ]


def outlook_words(report: Outlook) -> str:
    """Return 'With this batch 1 sheet is full and nothing waits'."""
    if not report.games:
        return "Nothing of this batch is left to finish."
    are = "is" if report.sheets == 1 else "are"
    full = (
        f"{count(report.sheets, 'sheet')} {are} full" if report.sheets else "no sheet is full yet"
    )
    waits = f"{count(report.waits, 'insert')} {'waits' if report.waits == 1 else 'wait'}"
    return f"With this batch {full} and {waits if report.waits else 'nothing waits'}."


def plan_words(report: PlanReport) -> str:
    """Return '31 sheets, proven fewest under the trimmer rule'."""
    return f"{count(report.sheets, 'sheet')}, {fewest(report)} under the {report.rule.value} rule"


def fewest(report: PlanReport | PlanPart) -> str:
    """Return 'proven fewest', or how few there may be."""
    return "proven fewest" if report.proven else f"at least {report.bound}"


def cut_lines(report: CutsReport) -> list[str]:
    """Return each cut with its number, then what to mind."""
    cuts = [
        f"{cut.number:>3}  {words}" for cut, words in zip(report.cuts, report.words, strict=True)
    ]
    return [*cuts, *report.notes]


def cuts_summary(report: CutsReport) -> str:
    """Return '16 cuts, 6 settings, 1 turn'; what cannot be cut so has none."""
    if not report.cuts:
        return "no order of cuts from edge to edge"
    parts = ((len(report.cuts), "cut"), (report.settings, "setting"), (report.turns, "turn"))
    return ", ".join(count(number, thing) for number, thing in parts)


# --- cases of one's own -----------------------------------------------------------------

SHAPES = {
    CaseShape.WRAP: "front, spine and back in a row",
    CaseShape.TRAY: "a back with a spine at its left and at its right",
    CaseShape.SLEEVE: "a panel with flaps over any of its sides",
    CaseShape.STRIP: "one edge label",
}
"""What each shape is."""


def usual_figures(question: Question) -> str:
    """Return what figures are usual: '20 to 260 mm'."""
    return f"{question.least:g} to {question.most:g} mm"


# --- colours and ink --------------------------------------------------------------------

ORIGINS = {
    "pinned": "yours",
    "kept": "as accepted",
    "pictures": "its pictures'",
    "chosen": "set apart",
}
"""Where a group's colour comes from."""

INK_WORDS = {InkMode(mode): words for mode, words in SETTINGS["ink"].takes.said.items()}

MATTE_WORDS = {
    Matte.BASE: "base colour",
    Matte.COMPLEMENT: "opposite hue",
    Matte.ANALOGOUS: "neighbouring hue",
    Matte.EXTEND: "the picture's edge drawn out",
    Matte.BLUR: "the picture out of focus",
    Matte.MIRROR: "the picture carried on, out of focus",
}


def group_lines(report: ColoursReport) -> list[str]:
    """Return the groups with their colours, how they are told apart, and what is printed."""
    if not report.groups:
        columns = ", ".join(report.columns)
        said = "Every insert has its picture's colour."
        if report.by != report.columns[0]:
            said = f"No game says anything under {report.by}."
        return [f"{said} To colour by a column: spinery setup --colour-by COLUMN ({columns})."]
    lines = [f"Coloured by {report.by}:"]
    for group in report.groups:
        colour = group.colours
        sign = "" if colour.sign == "none" else f", {colour.sign}"
        printed = f", {group.printed} printed" if group.printed else ""
        lines.append(
            f"  {colour.base}{sign}  {group.name}: {count(len(group.games), 'game')}, "
            f"{ORIGINS[group.origin]}{printed}"
        )
    return [*lines, *apart_lines(report), *reprint_lines(report)]


def apart_lines(report: ColoursReport) -> list[str]:
    """Return how well groups are told apart, a line each."""
    if report.smallest is None or report.closest is None:
        return []
    eyes = ", ".join(f"{eye} {least:.1f}" for eye, least in report.seen.items())
    closest = " and ".join(report.closest)
    lines = [
        f"Smallest difference {report.smallest:.1f} (CIEDE2000), {closest}; to each eye: {eyes}."
    ]
    return [*lines, f"{report.note}."] if report.note else lines


def reprint_lines(report: ColoursReport) -> list[str]:
    """Return what a change of colours does not reach, and what it costs to print that again."""
    lines = []
    if report.printed_sheets:
        printed = sum(group.printed + len(group.reprint) for group in report.groups)
        lines.append(
            f"{count(printed, 'insert')} printed in a group's colour stay when it changes; "
            f"to print them all again takes {count(report.printed_sheets, 'sheet')}."
        )
    earlier = [game for group in report.groups for game in group.reprint]
    if earlier:
        lines.append(
            f"Printed in an earlier colour: {', '.join(earlier)}. To print them again "
            f"({count(report.reprint_sheets, 'sheet')}): spinery colours --follow GAME…"
        )
    if report.own:
        lines.append(
            f"{count(report.own, 'game')} not printed, with a colour of their own: they take "
            "their group's with spinery colours --follow."
        )
    return lines


def saved(saving: Mapping[InkMode, float]) -> str:
    """Return what each mode saves: 'grey saves 12 %, edges saves 80 %'."""
    return ", ".join(f"{m} saves {s:.0%}" for m, s in saving.items() if m is not InkMode.FULL)


# --- titles -----------------------------------------------------------------------------


def edge_words(one: EdgeReport) -> str:
    """Return what stands on an edge, how large, and from how far it reads."""
    condensed = f", condensed to {one.width:.0%}" if one.width < 1 else ""
    text = " / ".join(one.lines) or one.logo
    return f"{text}, {one.size:.1f} pt{condensed}, reads at {one.reads_at / 10:.0f} cm"


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


# --- pace and supplies ------------------------------------------------------------------

SHOWN_WEEKS = 12
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
    lines = ["Fitted by the end of the week that begins on"]
    lines += [
        f"  {week.begins:%Y-%m-%d}  {bar(week.total / whole if whole else 0)} {week.total:>5}"
        + (f"  +{week.done}" if week.done else "")
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
    return f"{name:<{_NAME}} {need.sort.unit:<7}{amounts}{packs}{price}".rstrip()


def _amount(value: float) -> str:
    return f"{value:.0f}" if value >= 100 or value == round(value) else f"{value:.1f}"


def supplies_lines(report: SuppliesReport) -> list[str]:
    """Return what is still needed, the models behind it, and the time."""
    if not report.games:
        return ["Every game is in its case: nothing is needed."]
    heads = "".join(f"{head:>9}" for head in ("needed", "in house", "missing"))
    lines = [f"{'':{_NAME + 8}}{heads}{'packs':>6}{'price':>9}"]
    lines += [need_words(need, report.currency) for need in report.needs]
    if report.cost is not None:
        but = f"; no price for {', '.join(report.unpriced)}" if report.unpriced else ""
        lines.append(f"In all {report.cost:.2f} {report.currency}".rstrip() + but)
    proven = "proven fewest" if report.proven else "as few as found"
    spoilage = report.spoilage
    spoiled = (
        f"{spoilage.spoiled} of {spoilage.settled} inserts were spoiled, so each is printed "
        f"{spoilage.prints:.2f} times on average"
        if spoilage.settled
        else "no sheet is settled yet, so nothing is added for spoilage"
    )
    lines += ["", f"Paper: {count(report.planned, 'sheet')}, {proven}; {spoiled}."]
    if report.ink is not None:
        error = f", within {report.ink.error:.0%}" if report.ink.error else ""
        told = f"from {report.ink.measured} of {count(report.ink.inserts, 'insert')}{error}"
        lines.append(f"Ink: {told}. {report.notes[0]}")
    time = pace_lines(report.pace)
    return [*lines, f"Time: {time[-1]}", *report.notes[1 if report.ink else 0 :]]


# --- room on the shelf ------------------------------------------------------------------


def found_words(one: Found) -> list[str]:
    """Return where a game is that was looked for, and how its edge looks."""
    edge = f"{one.hue} edge {one.colour}"
    if one.place is None:
        return [f"{one.title}: no place yet, {one.stage}, {edge}"]
    settled = "" if one.place.kept else " (proposed)"
    where = f"{one.title}: {one.place.words} from {one.place.counted}{settled}, {edge}, {one.stage}"
    beside = [f"behind {one.after}"] if one.after else []
    beside += [f"before {one.before}"] if one.before else []
    return [where, *([f"  {', '.join(beside)}"] if beside else [])]


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
    for place in report.moves:
        lines.append(f"Moves to {place.spot.container}: {place.title}")
    if report.homeless:
        few = ", ".join(report.homeless[:3])
        more = f" and {len(report.homeless) - 3} more" if len(report.homeless) > 3 else ""
        lines.append(f"No room for {few}{more}.")
    return [*lines, *report.notes]

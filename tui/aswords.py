"""Answers as lines for a person at a command line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine import (
    AcceptReport,
    ColoursReport,
    Health,
    InkMode,
    InkSummary,
    IntakeReport,
    KindReport,
    Matte,
    Outlook,
    PlanPart,
    PlanReport,
    PressReport,
    Progress,
    Proposal,
    Settings,
    SheetReport,
    SheetsReport,
    TrialReport,
)


def count(number: int, thing: str) -> str:
    """Return '1 sheet', '3 sheets'."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def intake(report: IntakeReport) -> list[str]:
    """Return what an intake brought."""
    known = f", {report.known} known before" if report.known else ""
    return [
        *report.notes,
        f"{count(report.added, 'game')} added{known}.",
        (
            f"Pictures: {report.matched} matched, {report.doubtful} to confirm, "
            f"{count(report.bare, 'game')} without."
        ),
    ]


def progress(report: Progress) -> list[str]:
    """Return the counts by stage, a line each."""
    lines = [*report.notes]
    lines += [f"{stage.value:<11} {number:>5}" for stage, number in report.stages.items()]
    lines.append(f"{'games':<11} {report.games:>5}")
    if report.reprints:
        lines.append(f"{count(report.reprints, 'game')} changed after printing, waiting again.")
    return lines


def proposals(shown: Sequence[Proposal]) -> list[str]:
    """Return each design in a few lines."""
    lines = [line for one in shown for line in _proposal(one)]
    return lines or ["Nothing is left to propose."]


def _proposal(one: Proposal) -> list[str]:
    mark = "sure " if one.sure else "doubt"
    source = one.art.source or "no picture"
    lines = [
        f"{mark} {one.game}: {one.title} ({one.case}, {one.stage.value})",
        f"      art    {source}, {one.art.words}"
        + (f", {one.art.ppi:.0f} ppi" if one.art.source else ""),
        (
            f"      colour {one.design.colours.base}, text {one.design.colours.text}, "
            f"contrast {one.contrast:.1f}" + (f", of {one.group}" if one.group else "")
        ),
    ]
    lines += [
        f"      title  {edge.panel}: {' / '.join(edge.lines) or edge.logo}, {edge.size:.1f} pt, "
        f"reads at {edge.reads_at / 10:.0f} cm"
        for edge in one.edges
    ]
    return [*lines, *(f"      ?      {doubt}" for doubt in one.doubts)]


def accepted(report: AcceptReport) -> list[str]:
    """Return what was accepted, and what is left to decide and why."""
    lines = [f"{count(len(report.accepted), 'game')} accepted."]
    if report.left:
        lines.append(f"{count(len(report.left), 'game')} left to decide:")
        lines += [f"  {one.game}: {' '.join(one.doubts)}" for one in report.left]
    return lines


def sheets(report: SheetsReport) -> list[str]:
    """Return which sheets are ready, what the open one lacks, what is to be settled."""
    lines = [f"{count(len(report.ready), 'sheet')} ready to press."]
    lines += [f"  {_contents(one)}{_paper(one, report)}" for one in report.ready]
    for one in report.open:
        lacks = ", ".join(f"{lack.count} {lack.case}" for lack in one.lacks)
        since = one.waiting_since
        waits = f", waiting since {since.astimezone():%d %B}" if since else ""
        lines.append(f"Open sheet: {_contents(one)}{_paper(one, report)}{waits}")
        lines.append(f"  lacks {lacks}" if lacks else "  nothing left in the backlog fills it")
    if report.beyond:
        lines.append(f"{beyond(report.beyond)}.")
    lines += [
        f"Sheet {one.number} is pressed and to be settled: {_contents(one)}"
        for one in report.pressed
    ]
    if report.plan and report.plan.sheets:
        lines.append(f"Everything left: {plan_words(report.plan)}.")
    return lines


def beyond(inserts: int) -> str:
    """Return '3 more inserts wait for what fills their sheets'."""
    return f"{count(inserts, 'more insert')} {'waits' if inserts == 1 else 'wait'} for other sheets"


def sheet(one: SheetReport) -> list[str]:
    """Return everything about one sheet but its cuts."""
    lines = [f"Sheet {one.number} is {one.state.value}: {_contents(one)}, {one.forme.stock.name}"]
    lines += [
        f"{place:>3}  {placed.game}"
        + (" (spare)" if placed.spare else "")
        + (" (spoiled)" if placed.spoiled else "")
        for place, placed in enumerate(one.placements, start=1)
    ]
    return [*lines, *(offcuts(one) if one.offcuts else ()), "Cuts:"]


def offcuts(one: SheetReport) -> list[str]:
    """Return the offcuts of a settled sheet, a line each."""
    return [
        f"Sheet {one.number}, offcut {offcut.number}: "
        f"{offcut.size.width:.0f} × {offcut.size.height:.0f} mm"
        + (", used up" if offcut.used else ", kept" if offcut.kept else "")
        for offcut in one.offcuts
    ]


def outlook(games: Sequence[str], report: Outlook) -> list[str]:
    """Return today's batch and what comes of it."""
    return [*games, outlook_words(report)]


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


def plan(report: PlanReport) -> list[str]:
    """Return how many sheets are left to press, in all and of each stock."""
    lines = [plan_words(report) if report.sheets else "Nothing is left to press."]
    if len(report.parts) > 1:
        lines += [f"  {_part_words(part)}" for part in report.parts]
    lines += [
        f"{kind} does not fit on {part.stock.name}: set up another stock for it."
        for part in report.parts
        for kind in part.too_large
    ]
    return lines


def plan_words(report: PlanReport) -> str:
    """Return '31 sheets, proven fewest under the trimmer rule'."""
    return f"{count(report.sheets, 'sheet')}, {_proof(report)} under the {report.rule.value} rule"


def _part_words(part: PlanPart) -> str:
    return f"{part.stock.name}: {count(part.sheets, 'sheet')}, {_proof(part)}"


def _proof(report: PlanReport | PlanPart) -> str:
    return "proven fewest" if report.proven else f"at least {report.bound}"


def _paper(one: SheetReport, report: SheetsReport) -> str:
    """Return the stock of a sheet where there are several."""
    every = {sheet.forme.stock.id for sheet in (*report.ready, *report.open, *report.pressed)}
    return f", {one.forme.stock.name}" if len(every) > 1 else ""


def _contents(one: SheetReport) -> str:
    """Return what lies on a sheet: '6 snap-shell and 1 keep-case, 78 % used'."""
    kinds = [placed.case for placed in one.placements]
    parts = [f"{kinds.count(kind)} {kind}" for kind in dict.fromkeys(sorted(kinds))]
    return f"{' and '.join(parts)}, {one.used:.0%} used"


def press(report: PressReport) -> list[str]:
    """Return the files that were written and what to mind."""
    lines = [f"Sheet {one.number}: {one.file} ({_contents(one)})" for one in report.sheets]
    return [*lines, *report.notes]


def cases(kinds: Sequence[KindReport], *, whole: bool) -> list[str]:
    """Return the case kinds, a line each; with ``whole``, everything about them."""
    lines = []
    for one in kinds:
        kind, net = one.kind, one.net
        size = f"{net.size.width:.1f} × {net.size.height:.1f} mm"
        lines.append(f"{kind.id:<20} {size:<18} {kind.name}")
        if whole:
            lines += _whole_case(one)
    return lines


def _whole_case(one: KindReport) -> list[str]:
    width, height, depth = one.folded.outside
    lines = [
        f"  {panel.name:<12} {panel.role.value:<6} "
        f"{panel.rect.width:.1f} × {panel.rect.height:.1f} mm"
        for panel in one.net.panels
    ]
    lines.append(f"  folded       {width:.1f} × {height:.1f} × {depth:.1f} mm over all")
    facing = " and ".join(one.folded.facing)
    lines.append(f"  stored       {POSES[one.line.pose]}" + (f", {facing} shows" if facing else ""))
    if one.line.left_out:
        lines.append(f"  left out     {', '.join(one.line.left_out)}")
    if one.line.own:
        lines.append("  described in the collection's folder cases")
    return [*lines, *(f"  {line}" for line in (*one.kind.sources, *one.kind.cautions))]


POSES = {
    "shelf": "upright on a shelf",
    "drawer": "standing in a box or drawer",
    "stack": "stacked, face up",
}
"""How cases are stored, in words."""


def new_case(one: KindReport, doubts: Sequence[str]) -> list[str]:
    """Return what a new case kind came to, what is odd about it, and what to do next."""
    return [
        *cases([one], whole=True),
        *doubts,
        f"Try it: spinery cases {one.kind.id} --trial",
        f"Undo leaves it alone; to be rid of it, delete cases/{one.kind.id}.toml.",
    ]


def trial(report: TrialReport) -> list[str]:
    """Return where a trial cut lies, what to do with it, and what to mind."""
    sides = ", ".join(f"{side.panel}.{side.dimension}" for side in report.sides)
    return [
        f"Wrote {report.file}.",
        "Print it at 100 %, cut and fold it, and put it into the case.",
        f"Then tell how much was too long: --correct PANEL.SIDE=MM, of {sides}.",
        *report.notes,
    ]


def setup(settings: Settings) -> list[str]:
    """Return what is set for the collection, a line each."""
    stock, margins = settings.stock, settings.stock.margins
    return [
        f"stock       {stock.id}: {stock.name}, {stock.width} × {stock.height} mm",
        (
            f"margins     left {margins.left}, right {margins.right}, top {margins.top}, "
            f"bottom {margins.bottom} mm"
        ),
        f"rule        {settings.rule.value}",
        f"case        {settings.case or 'as the list says'}",
        f"batch size  {settings.batch_size}",
        f"patience    {count(settings.patience, 'sheet')}, then the oldest insert goes",
        f"kerf        {settings.kerf} mm",
        *(f"  {kind:<10}on {stock}" for kind, stock in settings.stocks.items()),
        f"colours     by {settings.colour_by}",
        f"ink         {settings.ink}",
        f"stored      {POSES[settings.pose] if settings.pose else 'as each case kind says'}",
        f"spines      {settings.spine}",
        *(f"  {kind:<10}{POSES[pose]}" for kind, pose in settings.poses.items()),
        *(
            f"left out    {', '.join(panels)} of {kind or 'every kind'}"
            for kind, panels in settings.left_out.items()
        ),
    ]


def health(report: Health) -> list[str]:
    """Return what the check found, a line each."""
    found = [f"{one.where}: {one.what}. {one.mend}." for one in report.findings]
    return found or ["All is well."]


ORIGINS = {
    "pinned": "yours",
    "kept": "as accepted",
    "pictures": "its pictures'",
    "chosen": "set apart",
}
"""Where a group's colour comes from, in words."""


def colours(report: ColoursReport) -> list[str]:
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
    return [*lines, *apart(report), *reprints(report)]


def apart(report: ColoursReport) -> list[str]:
    """Return how well groups are told apart, a line each."""
    if report.smallest is None or report.closest is None:
        return []
    eyes = ", ".join(f"{eye} {least:.1f}" for eye, least in report.seen.items())
    closest = " and ".join(report.closest)
    lines = [
        f"Smallest difference {report.smallest:.1f} (CIEDE2000), {closest}; to each eye: {eyes}."
    ]
    return [*lines, f"{report.note}."] if report.note else lines


def reprints(report: ColoursReport) -> list[str]:
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


INK_WORDS = {
    InkMode.FULL: "full colour",
    InkMode.GREY: "greys",
    InkMode.EDGES: "edges in colour, art left white",
    InkMode.LETTERS: "black titles on white, art left white",
    InkMode.DRAFT: "draft, half as dense",
}

MATTE_WORDS = {
    Matte.BASE: "base colour",
    Matte.COMPLEMENT: "opposite hue",
    Matte.ANALOGOUS: "neighbouring hue",
    Matte.EXTEND: "the picture's edge drawn out",
    Matte.BLUR: "the picture out of focus",
}


def ink(summary: InkSummary) -> list[str]:
    """Return the ink of inserts and sheets, a line each, and what each mode would save."""
    if not summary.inserts:
        return ["No insert waits for a sheet. Name games to see theirs."]
    lines = [summary.model, "", f"{'':24}{'cyan':>8}{'magenta':>9}{'yellow':>8}{'black':>8}"]
    for one in summary.inserts:
        lines.append(
            f"{one.game[:23]:<24}{coverage(one.coverage)}  {one.mode}, {saved(one.saving)}"
        )
    for sheet in summary.sheets:
        name = f"sheet {sheet.number}" if sheet.number else "a sheet"
        lines.append(f"{name:<24}{coverage(sheet.coverage)}  {saved(sheet.saving)}")
    return lines


def coverage(inks: Mapping[str, float]) -> str:
    """Return the coverage of each colour in percent, in columns."""
    cyan, magenta, yellow, black = (f"{percent:.1f} %" for percent in inks.values())
    return f"{cyan:>8}{magenta:>9}{yellow:>8}{black:>8}"


def saved(saving: Mapping[InkMode, float]) -> str:
    """Return what each mode saves: 'grey saves 12 %, edges saves 80 %'."""
    return ", ".join(f"{m} saves {s:.0%}" for m, s in saving.items() if m is not InkMode.FULL)

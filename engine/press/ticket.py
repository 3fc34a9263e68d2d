"""The job ticket: what whoever prints, cuts and fits a pressing has to know, on one page or two."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from engine.cases import FlatNet
from engine.lettering import default_font, shape
from engine.model import Rect, Rule, Sheet, Size, Stock, cautions
from engine.model.counting import count
from engine.model.units import millimetres
from engine.press import scoring
from engine.press.captions import Caption, draw_captions
from engine.press.cutpage import set_lines, wrapped
from engine.press.media import media_name
from engine.press.pens.pdf import PdfDocument

_MARGIN = 14.0
"""In mm; more than printers leave white."""
_HEAD = 14.0
"""Type size in points."""
_CARD = 150.0
"""g/m2 from which paper is card: it wants a thicker setting (common practice, no published
source)."""

_DRYING = (
    "Let ink dry before you stack, cut or seal: ten minutes on plain paper, a day on photo paper, "
    "unless the paper's maker says otherwise. Seal only what is dry, in thin coats, a test first "
    "(common practice, no published source)."
)
_DIAMONDS = (
    "A solid diamond: press the score on the printed side, it folds away from it (mountain). A "
    "hollow one: press it on the back, it folds towards the printed side (valley)."
)
_GLUE = (
    "An insert that is to come out again: no glue where the case holds it; else a light coat of "
    "spray adhesive left to dry before mating, a removable glue stick, or removable tape. Try one "
    "on a spare first (common practice, no published source)."
)


def ticket_lines(
    sheets: Sequence[Sheet], nets: Mapping[str, FlatNet], names: Mapping[str, str]
) -> tuple[str, ...]:
    """Return the ticket of a pressing, a paragraph each; an empty one parts its sections.

    ``nets`` are by case kind, and so are their ``names``.
    """
    return (
        *_paper(sheets),
        "",
        *_settings(sheets),
        "",
        *_kinds(sheets, nets, names),
        "",
        f"Drying and sealing. {_DRYING}",
        f"Adhesives that let go. {_GLUE}",
        "",
        *_cautions(),
    )


def title_of(sheets: Sequence[Sheet]) -> str:
    """Return what the job is called: 'Sheets 3 to 7'."""
    first, last = sheets[0].number, sheets[-1].number
    return f"Sheet {first}" if first == last else f"Sheets {first} to {last}"


def draw_ticket(document: PdfDocument, title: str, lines: Sequence[str], stock: Stock) -> None:
    """Add the ticket to a file, on the stock's size or A5 (ISO 216:2007) where that is larger."""
    size = Size(max(stock.width, 148.0), max(stock.height, 210.0))
    font = default_font()
    pen = document.page(size, label="Ticket")
    top = size.height - _MARGIN - millimetres(_HEAD)
    draw_captions(pen, [Caption(shape(f"{title}: job ticket", font, _HEAD), _MARGIN, top)])
    width = size.width - 2 * _MARGIN
    left = wrapped(lines, width, font)
    room = Rect(_MARGIN, _MARGIN, width, top - 4.0 - _MARGIN)
    while left := set_lines(pen, left, room, font):
        pen = document.page(size, label="Ticket, continued")
        room = Rect(_MARGIN, _MARGIN, width, size.height - 2 * _MARGIN)


def empty_page(document: PdfDocument, stock: Stock) -> None:
    """Add a page with nothing on it: the back of the ticket, where sheets have backs."""
    document.page(Size(stock.width, stock.height), label="Ticket, back")


def _weighed(stock: Stock) -> str:
    """Return a paper's name with its grammage, which some names end in already."""
    weight = f", {stock.grammage:g} g/m²"
    return f"{stock.name.removesuffix(weight)}{weight}"


def _paper(sheets: Sequence[Sheet]) -> list[str]:
    stocks = {sheet.forme.stock.id: sheet.forme.stock for sheet in sheets}
    counts = Counter(sheet.forme.stock.id for sheet in sheets)
    lines = [
        f"Paper. {counts[key]} × {_weighed(stock)}, {stock.width:g} × {stock.height:g} mm "
        f"({media_name(stock)}); take one or two more for a test."
        for key, stock in stocks.items()
    ]
    lines.append(
        "Feed. Upright, short edge first. Which side faces up is your "
        "printer's matter: mark a corner of plain paper, print on it and look; photo and coated "
        "paper prints on its coated side. One sheet at a time where card jams."
    )
    return lines


def _settings(sheets: Sequence[Sheet]) -> list[str]:
    kinds = dict.fromkeys(_paper_type(sheet.forme.stock) for sheet in sheets)
    backs = dict.fromkeys(sheet.reverse for sheet in sheets)
    sides = " or ".join("one side" if b == "none" else f"two sides, {b} edge" for b in backs)
    bars = "Measure both check bars of the first sheet before you print the others: each is as long"
    if not all(sheet.forme.has_both_strips for sheet in sheets):
        bars = (
            "Measure the check bars of the first sheet before you print the others, and what it "
            "says where one has no room: each is as long"
        )
    return [
        (
            "Printer. 100 % or actual size; not fitted to the page, no borderless enlargement; "
            f"{sides}; colour; best quality; paper type {' or '.join(kinds)}."
        ),
        f"{bars} as it says.",
    ]


def _paper_type(stock: Stock) -> str:
    if "photo" in stock.name.lower():
        return "photo paper"
    return "card or thick paper" if stock.grammage >= _CARD else "plain paper"


def _kinds(
    sheets: Sequence[Sheet], nets: Mapping[str, FlatNet], names: Mapping[str, str]
) -> list[str]:
    counts = Counter(one.case for sheet in sheets for one in sheet.placements)
    cut = "along the ticks"
    if any(sheet.forme.rule is Rule.TRIMMER for sheet in sheets):
        cut += ", in the order of the small numbers (white on black)"
    lines = [f"Score before you cut, along the diamonds; cut {cut}; then fold and fit. {_DIAMONDS}"]
    backs = {sheet.reverse for sheet in sheets} - {"none"}
    if backs:
        lines.append(
            f"The sheets have a back, turned over the {' or '.join(sorted(backs))} edge: dielines "
            "and scores lie on those of the front. Print two-sided, or hold the first sheet "
            "against the light before you print the rest."
        )
    machines = {sheet.machine for sheet in sheets} - {"none"}
    if machines:
        lines.append(
            f"To cut by machine: sheet-NNNN.{' or '.join(sorted(machines))} beside each page, by "
            "the three discs of the print. Run it once over a spoiled sheet with a pen."
        )
    for case, number in counts.items():
        net, name = nets.get(case), names.get(case, case)
        lines.append(f"{name}, {number} ×. {_work(net) if net else 'Cut along the ticks.'}")
    return lines


def _work(net: FlatNet) -> str:
    width, height = net.size
    steps = [f"Cut to {width:.1f} × {height:.1f} mm over all."]
    if len(net.dieline) > 1:
        steps.append(f"It is {len(net.dieline)} outlines: pieces, or holes in them.")
    if net.scores:
        said = scoring.steps(net)
        listed = ".  ".join(f"({n}) {step}" for n, step in enumerate(said, 1))
        steps.append(f"Score {count(len(said), 'line')}, then fold in the same order: {listed}.")
    else:
        steps.append("Nothing is scored or folded.")
    steps.append(
        "Fit one before you cut the rest: it slides in without bending. If it binds or gapes, "
        "correct the case kind by its trial cut."
    )
    return " ".join(steps)


def _cautions() -> list[str]:
    parts = (cautions.CUTTING, cautions.PLASTIC, cautions.ADHESIVE, cautions.LAMINATING)
    said = dict.fromkeys(line for part in parts for line in part if line != cautions.FIRST)
    return [cautions.FIRST, *said]

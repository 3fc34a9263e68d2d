"""Draw the page of every built-in case kind: python docs/cases/draw.py [FOLDER].

For each kind ``KIND.svg``, its flat net with dimensions and the folded insert, true to
size, and ``KIND.md`` with its figures and where they come from; ``kinds.md`` lists them.
FOLDER is where they go, this file's own by default.
"""

from __future__ import annotations

import sys
from pathlib import Path

from engine.cases import CaseKind, Fits, FlatNet, Side, flatten, fold, isometric, load_kinds
from engine.lettering import default_font
from engine.model import Size
from engine.press import moved, turned
from engine.press.foldedview import draw_folded
from engine.press.netdrawing import AROUND, draw_net
from engine.press.pens.svg import SvgPen

CARD = 0.25
"""Caliper in mm of the paper that the pages are drawn for: card of about 200 g/m2."""
WHITE = "#ffffff"
LEGEND = (
    "Cut along black lines, score along blue ones. Names stand as text reads when the case "
    "is stored as its kind has it; sizes over all are width, height and depth."
)


def draw(kind: CaseKind) -> bytes:
    """Return the picture of a kind: flat at the left, folded at the right."""
    net, view, font = flatten(kind, CARD), isometric(fold(kind, CARD)), default_font()
    flat = Size(net.size.width + 2 * AROUND, net.size.height + 2 * AROUND)
    page = Size(flat.width + view.size.width + AROUND, max(flat.height, view.size.height + 6))
    pen = SvgPen(page, kind.name)
    pen.fill([((0, 0), (page.width, 0), page, (0, page.height))], WHITE)
    draw_net(moved(pen, turned(0, AROUND, (page.height - net.size.height) / 2)), net, font)
    at = turned(0, flat.width, (page.height - view.size.height) / 2)
    draw_folded(moved(pen, at), view, net, font)
    return pen.finish()


def describe(kind: CaseKind) -> str:
    """Return the page of a kind as Markdown."""
    net, body = flatten(kind, CARD), fold(kind, CARD)
    into = "goes into" if kind.fits is Fits.INSIDE else "goes round"
    measures = ", ".join(f"{m.name} {m.value:g}" for m in kind.measures)
    folded = " × ".join(f"{side:.1f}" for side in body.outside)
    lines = [
        f"# {kind.name}",
        f"`{kind.id}`, drawn for card {CARD:g} mm thick. {LEGEND}",
        f"![The net laid flat, and folded]({kind.id}.svg)",
        f"The insert {into} {measures} mm, with {kind.clearance:g} mm of clearance.",
        f"Laid flat {net.size.width:.1f} × {net.size.height:.1f} mm; folded {folded} mm over all.",
        panels(net),
        "## Where the figures come from",
        "\n".join(f"- {source}" for source in kind.sources),
    ]
    if kind.cautions:
        lines += ["## Take care", "\n".join(f"- {words}" for words in kind.cautions)]
    lines.append("Made by `python docs/cases/draw.py`.")
    return "\n\n".join(lines) + "\n"


def panels(net: FlatNet) -> str:
    """Return the panels of a net as a table."""
    rows = ["| panel | role | width × height, mm | cut at | text turned |", "| --- " * 5 + "|"]
    for panel in net.panels:
        cut = net.cut_sides(panel.name)
        sides = ", ".join(side for side in Side if side in cut) or "no side"
        size = f"{panel.rect.width:.2f} × {panel.rect.height:.2f}"
        rows.append(f"| {panel.name} | {panel.role} | {size} | {sides} | {panel.turn}° |")
    return "\n".join(rows)


def index(kinds: dict[str, CaseKind]) -> str:
    """Return the list of all pages."""
    rows = [f"- [{kind.name}]({name}.md), `{name}`" for name, kind in kinds.items()]
    return "# Case kinds that ship\n\n" + "\n".join(rows) + "\n"


def main(folder: Path) -> None:
    """Write all pages."""
    kinds = load_kinds()
    for name, kind in kinds.items():
        (folder / f"{name}.svg").write_bytes(draw(kind))
        (folder / f"{name}.md").write_text(describe(kind), encoding="utf-8")
    (folder / "kinds.md").write_text(index(kinds), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent)

"""Pallet loading: as many equal rectangles as possible on one sheet."""

from typing import NamedTuple

from engine.ganging import Coming, plan
from engine.model import Forme, Margins, Rule, Stock


class Pallet(NamedTuple):
    """A sheet, an insert, and how many fit by the optimum known."""

    length: int
    width: int
    long: int
    short: int
    knife: int
    trimmer: int | None = None


PALLETS = (
    # Of Dowsland's published set; the optima were proven by two exact methods against the
    # bound of Barnes (1979), own calculation.
    Pallet(22, 16, 5, 3, knife=23, trimmer=22),
    Pallet(30, 22, 7, 4, knife=23, trimmer=22),
    Pallet(46, 34, 11, 6, knife=23, trimmer=22),
    Pallet(50, 36, 11, 7, knife=23, trimmer=22),
    Pallet(53, 51, 9, 7, knife=42, trimmer=41),
    Pallet(63, 60, 11, 8, knife=42, trimmer=41),
    Pallet(76, 73, 13, 10, knife=42, trimmer=41),
    Pallet(86, 82, 15, 11, knife=42, trimmer=41),
    # Proven by a constraint solver, own calculation; edge to edge no optimum is known.
    Pallet(43, 26, 7, 3, knife=53),
    Pallet(49, 28, 8, 3, knife=57),
    Pallet(32, 22, 5, 4, knife=34),
    Pallet(32, 27, 5, 4, knife=42),
    Pallet(37, 30, 8, 3, knife=45),
)


def measured(pallet: Pallet) -> dict[str, object]:
    """Return the most on one sheet under each rule, beside the optimum where it is known."""
    return {
        "pallet": " ".join(map(str, pallet[:4])),
        "knife": _most(pallet, Rule.KNIFE),
        "optimum_knife": pallet.knife,
        "trimmer": _most(pallet, Rule.TRIMMER),
        "optimum_trimmer": pallet.trimmer,
    }


def _most(pallet: Pallet, rule: Rule) -> int | None:
    """Return up to how many inserts one sheet is found for.

    For the trimmer it is proven that no more fit; None if that is undecided.
    """
    stock = Stock("pallet", "Pallet", pallet.length, pallet.width, margins=Margins(0, 0, 0, 0))
    forme = Forme(stock, rule=rule, bleed=0, gutter=0, foot=0, side=0)
    for count in range(pallet.length * pallet.width // (pallet.long * pallet.short), 0, -1):
        fewest = plan([Coming("insert", pallet.long, pallet.short, True, count)], forme)
        if rule is Rule.TRIMMER and not fewest.proven:
            return None
        if fewest.sheets == 1:
            return count
    return 0

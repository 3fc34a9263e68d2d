"""What the setup says: settings and case kinds in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from engine import STOCKS, KindLine, KindReport, Settings
from tui.actions import BY_ID
from tui.aswords import INK_WORDS, POSES, count

RULES = {
    "trimmer": "every cut goes edge to edge",
    "knife": "free placement, cut along a rule",
}
SPINES = {
    "descending": "from top to bottom",
    "ascending": "from bottom to top",
}

NO_PANEL = "no panel"

MARGINS = ("left", "right", "top", "bottom")
"""The sides of a sheet in the order in which they are set."""


class Setting(NamedTuple):
    """Something that is set."""

    act: str
    """The action that changes it."""
    value: str


def cautions_of(lines: Sequence[KindLine]) -> dict[str, str]:
    """Return what to mind with each kind that has something to mind."""
    return {line.id: "\n".join(line.cautions) for line in lines if line.cautions}


def counted(kinds: Sequence[str]) -> str:
    """Return the name of the one kind, or how many there are."""
    return kinds[0] if len(kinds) == 1 else f"{len(kinds)} kinds"


def settings_of(settings: Settings, kinds: Mapping[str, str]) -> tuple[Setting, ...]:
    """Return what is set, in the order of the keys; ``kinds`` has names by id."""
    stock, margins = settings.stock, settings.stock.margins
    sides = " ".join(f"{side} {getattr(margins, side):g}" for side in MARGINS)
    return (
        Setting("stock", stock.name),
        Setting("margins", f"{sides} mm"),
        Setting("caliper", f"{stock.caliper:g} mm thick"),
        Setting("kind_stock", _own_stocks(settings, kinds)),
        Setting("rule", f"{settings.rule}: {RULES[settings.rule]}"),
        Setting("patience", f"{count(settings.patience, 'sheet')}, then the oldest insert goes"),
        Setting("kerf", f"{settings.kerf:g} mm"),
        Setting("pose", POSES[settings.pose] if settings.pose else "as each case kind says"),
        Setting("spine_habit", SPINES[settings.spine]),
        Setting("all_panels", ", ".join(settings.left_out.get("", ())) or NO_PANEL),
        Setting("usual_case", kinds.get(settings.case, "as the list says")),
        Setting("batch_size", f"{settings.batch_size} games"),
        Setting("colour_by", settings.colour_by),
        Setting("group_colours", _pinned(settings)),
        Setting("usual_ink", INK_WORDS[settings.ink]),
    )


def _own_stocks(settings: Settings, kinds: Mapping[str, str]) -> str:
    """Return which case kinds have a paper of their own."""
    stocks = settings.stocks.items()
    own = (f"{kinds.get(kind, kind)}: {STOCKS[stock].name}" for kind, stock in stocks)
    return "; ".join(own) or "one for all"


def _pinned(settings: Settings) -> str:
    """Return how many groups have a colour that the person gave them."""
    pinned = len(settings.pins.get(settings.colour_by, ()))
    return f"{count(pinned, 'group')} of yours" if pinned else "as chosen"


def setting_words(setting: Setting) -> str:
    """Return everything about a setting."""
    act = BY_ID[setting.act]
    change, own = BY_ID["change_setting"].shown, act.shown
    keys = f"{change} or {own} changes it." if own else f"{change} changes it."
    undo = f"{BY_ID['undo'].shown} takes a change back."
    return "\n".join((act.label, setting.value, "", act.help, f"{keys} {undo}"))


def about_words(report: KindReport, stock: str) -> str:
    """Return what there is to say about a case kind, printed on ``stock``."""
    line, net = report.line, report.net
    shows = " and ".join(report.folded.facing)
    lines = [
        line.name + (" (your own)" if line.own else ""),
        *sizes_words(net.size, report.folded.outside),
        f"Stored {POSES[line.pose]}" + (f": {shows} shows" if shows else ""),
    ]
    lines.append(f"Printed on {stock}")
    if line.left_out:
        lines.append(f"Left out: {', '.join(line.left_out)}")
    lines += [f"! {caution}" for caution in line.cautions]
    lines += [f"Figures: {source}" for source in report.kind.sources]
    return "\n".join(lines)


def sizes_words(flat: Sequence[float], folded: Sequence[float]) -> tuple[str, str]:
    """Return how large an insert is flat and folded, a line each."""
    return (
        f"Flat {flat[0]:.1f} × {flat[1]:.1f} mm",
        f"Folded {folded[0]:.1f} × {folded[1]:.1f} × {folded[2]:.1f} mm over all",
    )

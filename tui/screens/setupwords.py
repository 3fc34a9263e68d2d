"""What the Setup says: settings and case kinds in words."""

from __future__ import annotations

from collections.abc import Sequence

from engine import POSES, KindLine, KindReport, SettingLine


def cautions_of(lines: Sequence[KindLine]) -> dict[str, str]:
    """Return what to mind with each kind that has something to mind."""
    return {line.id: "\n".join(line.cautions) for line in lines if line.cautions}


def setting_words(line: SettingLine) -> str:
    """Return everything about a setting."""
    setting = line.setting
    bounds = f" It is {setting.takes.may_be}." if setting.takes.may_be else ""
    return "\n".join((f"{setting.title}: {line.words}", f"{setting.about}{bounds}"))


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

"""Answers as JSON objects: lengths in mm, times in ISO 8601 UTC. docs/json.md tells the keys."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence

from engine import (
    ColoursReport,
    EdgeReport,
    Health,
    InkSummary,
    IntakeReport,
    KindReport,
    Progress,
    Proposal,
    Settings,
    TrialReport,
)

Object = dict[str, object]


def text(data: Object) -> str:
    """Return an object as indented JSON."""
    return json.dumps(data, indent=2, ensure_ascii=False)


def mm(length: float) -> float:
    """Return a length without the dust of floating point: a thousandth of a mm is plenty."""
    return round(length, 3)


def intake(report: IntakeReport) -> Object:
    """Return what an intake brought."""
    return {
        "added": report.added,
        "known": report.known,
        "matched": report.matched,
        "doubtful": report.doubtful,
        "bare": report.bare,
        "notes": list(report.notes),
    }


def progress(report: Progress) -> Object:
    """Return the counts by stage."""
    return {
        "games": report.games,
        "stages": {stage.value: count for stage, count in report.stages.items()},
        "reprints": report.reprints,
        "notes": list(report.notes),
    }


def proposals(shown: Iterable[Proposal]) -> Object:
    """Return designs as they would be printed now."""
    return {"games": [_proposal(one) for one in shown]}


def _proposal(one: Proposal) -> Object:
    art, colours = one.art, one.design.colours
    return {
        "id": one.game,
        "title": one.title,
        "case": one.case,
        "stage": one.stage.value,
        "sure": one.sure,
        "doubts": list(one.doubts),
        "accepted": [decision.value for decision in one.accepted],
        "left_out": list(one.design.left_out),
        "ink": one.design.ink.value,
        "art": {
            "source": art.source,
            "confidence": round(art.confidence, 3),
            "fit": art.fit.value if art.source is not None else "plain",
            "loss": {
                "distortion": round(art.loss.distortion, 4),
                "cropped": round(art.loss.cropped, 4),
                "empty": round(art.loss.empty, 4),
            },
            "ppi": round(art.ppi, 1),
            "words": art.words,
            "trim": list(art.trim),
            "split": list(art.split) if art.split else None,
            "turn_deg": one.design.art.turn,
            "matte": one.design.art.matte.value,
            "pattern": one.design.art.pattern.value,
        },
        "colour": {
            "base": colours.base,
            "text": colours.text,
            "sign": colours.sign.value,
            "group": one.group or None,
            # Never rounded up: a contrast of 4.499 must not read as 4.5 (WCAG 2.2).
            "contrast": int(one.contrast * 1000) / 1000,
        },
        "title_setting": {"edges": [edge(each) for each in one.edges]},
    }


def edge(one: EdgeReport) -> Object:
    """Return what stands on an edge."""
    return {
        "panel": one.panel,
        "lines": list(one.lines),
        "size_pt": round(one.size, 2),
        "cap_height_mm": mm(one.cap_height),
        "reads_at_mm": mm(one.reads_at),
        "turn_deg": one.turn,
        "width": one.width,
        "upright": one.upright,
        "steps": list(one.steps),
        "notes": list(one.notes),
        "mark": one.mark,
        "stripe": one.stripe,
        "logo": one.logo,
    }


def cases(kinds: Sequence[KindReport]) -> Object:
    """Return case kinds with their flat nets, x and y from the net's lower left."""
    return {"cases": [_case(one) for one in kinds]}


def _case(one: KindReport) -> Object:
    kind, net = one.kind, one.net
    return {
        "id": kind.id,
        "name": kind.name,
        "games": one.line.games,
        "own": one.line.own,
        "footprint_mm": [mm(net.size.width), mm(net.size.height)],
        "panels": [
            {
                "name": panel.name,
                "role": panel.role.value,
                "x_mm": mm(panel.rect.x),
                "y_mm": mm(panel.rect.y),
                "width_mm": mm(panel.rect.width),
                "height_mm": mm(panel.rect.height),
                "turn_deg": panel.turn,
            }
            for panel in net.panels
        ],
        "scores": [
            {
                "x1_mm": mm(score.x1),
                "y1_mm": mm(score.y1),
                "x2_mm": mm(score.x2),
                "y2_mm": mm(score.y2),
                "angle_deg": score.angle,
            }
            for score in net.scores
        ],
        "notches": [[[mm(x), mm(y)] for x, y in ring] for ring in net.notches],
        "folded_mm": [mm(length) for length in one.folded.outside],
        "stored": one.line.pose,
        "facing": list(one.folded.facing),
        "left_out": list(one.line.left_out),
        "sources": list(kind.sources),
        "cautions": list(kind.cautions),
    }


def trial(report: TrialReport) -> Object:
    """Return where a trial cut lies and what can be read off it."""
    return {
        "file": report.file,
        "sides": [
            {"panel": side.panel, "side": side.dimension, "length_mm": mm(side.length)}
            for side in report.sides
        ],
        "notes": list(report.notes),
    }


def setup(settings: Settings) -> Object:
    """Return what is set for the collection."""
    stock = settings.stock
    return {
        "stock": {
            "id": stock.id,
            "name": stock.name,
            "width_mm": stock.width,
            "height_mm": stock.height,
            "grammage": stock.grammage,
            "caliper_mm": stock.caliper,
            "margins_mm": {
                "left": stock.margins.left,
                "right": stock.margins.right,
                "top": stock.margins.top,
                "bottom": stock.margins.bottom,
            },
        },
        "rule": settings.rule.value,
        "bleed_mm": settings.bleed,
        "gutter_mm": settings.gutter,
        "case": settings.case,
        "batch_size": settings.batch_size,
        "patience": settings.patience,
        "kerf_mm": settings.kerf,
        "stock_by_case": dict(settings.stocks),
        "colour_by": settings.colour_by,
        "ink": settings.ink.value,
        "stored": settings.pose,
        "spines": settings.spine,
        "stored_by_case": dict(settings.poses),
        "left_out": {kind: list(panels) for kind, panels in settings.left_out.items()},
    }


def health(report: Health) -> Object:
    """Return what the check found."""
    return {
        "ok": report.ok,
        "findings": [
            {"what": one.what, "where": one.where, "mend": one.mend} for one in report.findings
        ],
    }


def colours(report: ColoursReport) -> Object:
    """Return the colours of groups and how well they are told apart."""
    return {
        "by": report.by,
        "columns": list(report.columns),
        "groups": [
            {
                "name": group.name,
                "games": list(group.games),
                "base": group.colours.base,
                "text": group.colours.text,
                "sign": group.colours.sign.value,
                "origin": group.origin,
                "printed": group.printed,
                "reprint": list(group.reprint),
            }
            for group in report.groups
        ],
        "smallest": None if report.smallest is None else round(report.smallest, 2),
        "closest": list(report.closest) if report.closest else None,
        "seen": {eye: round(least, 2) for eye, least in report.seen.items()},
        "note": report.note,
        "own": report.own,
        "printed_sheets": report.printed_sheets,
        "reprint_sheets": report.reprint_sheets,
    }


def ink(summary: InkSummary) -> Object:
    """Return the ink of inserts and sheets, in percent of their areas."""
    return {
        "model": summary.model,
        "mode": summary.mode.value,
        "inserts": [
            {
                "game": one.game,
                "title": one.title,
                "mode": one.mode.value,
                "coverage_percent": _percents(one.coverage),
                "saving_percent": _percents({m.value: 100 * s for m, s in one.saving.items()}),
            }
            for one in summary.inserts
        ],
        "sheets": [
            {
                "number": one.number,
                "coverage_percent": _percents(one.coverage),
                "saving_percent": _percents({m.value: 100 * s for m, s in one.saving.items()}),
            }
            for one in summary.sheets
        ],
    }


def _percents(values: Mapping[str, float]) -> Object:
    return {name: round(value, 2) for name, value in values.items()}

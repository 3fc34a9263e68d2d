"""Random nets for property tests, and folding done a second way to compare with."""

from __future__ import annotations

import math

from hypothesis import strategies as st

from engine.cases import CaseKind, Panel, Role, Side

LENGTHS = st.integers(min_value=4, max_value=120).map(float)


@st.composite
def nets(draw: st.DrawFn, *, angles: tuple[int, ...] = (90, 180, -90, -180)) -> CaseKind:
    """A tree of one to six panels; it may overlap or collide: nothing is laid out here."""
    roles = st.sampled_from(Role)
    panels = [Panel("p0", draw(roles), width=draw(LENGTHS), height=draw(LENGTHS))]
    for index in range(1, draw(st.integers(1, 6))):
        parent = panels[draw(st.integers(0, index - 1))]
        side = draw(st.sampled_from(Side))
        out = draw(LENGTHS)
        panels.append(
            Panel(
                f"p{index}",
                draw(roles),
                on=parent.name,
                side=side,
                angle=draw(st.sampled_from(angles)),
                width=out if side.upright else draw(st.none() | LENGTHS),
                height=draw(st.none() | LENGTHS) if side.upright else out,
                apart=draw(st.booleans()),
            )
        )
    up = draw(st.sampled_from(Side))
    named = draw(st.sampled_from(panels)).name
    front, back = draw(st.sampled_from([("", ""), (named, ""), ("", named)]))
    return CaseKind(
        "random", "Random", (), tuple(panels), up=up, front=front, back=back, clearance=0.0
    )


Point = tuple[float, float, float]


def rotated(point: Point, start: Point, end: Point, degrees: float) -> Point:
    """Rodrigues' rotation formula about the line from start to end, right-handed."""
    axis = [e - s for s, e in zip(start, end, strict=True)]
    length = math.hypot(*axis)
    k = [a / length for a in axis]
    v = [p - s for p, s in zip(point, start, strict=True)]
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    cross = [
        k[1] * v[2] - k[2] * v[1],
        k[2] * v[0] - k[0] * v[2],
        k[0] * v[1] - k[1] * v[0],
    ]
    dot = sum(a * b for a, b in zip(k, v, strict=True))
    out = [v[i] * c + cross[i] * s + k[i] * dot * (1 - c) + start[i] for i in range(3)]
    return (out[0], out[1], out[2])

"""The whole backlog: the fewest sheets that print everything that is left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import ceil
from typing import Any

from engine.ganging.contents import contents
from engine.ganging.footprints import Coming, Field, Footprint, footprint
from engine.ganging.vectors import Counts
from engine.values import Forme, Value


class Plan(Value, frozen=True):
    """How many sheets print everything that is left."""

    sheets: int
    bound: int
    """No plan can do with fewer than this."""
    proven: bool


def plan(counts: Sequence[Coming], forme: Forme) -> Plan:
    """Return the fewest sheets for ``counts``, and the bound that nothing can be below."""
    wanted: Counter[Footprint] = Counter()
    for one in counts:
        if one.count:
            wanted[footprint(one, forme.gutter)] += one.count
    sizes = tuple(sorted(wanted, key=lambda size: (-size.area, size)))
    held = contents(Field.of(forme), sizes)
    sizes = tuple(
        s for i, s in enumerate(sizes) if held.holds(tuple(int(i == j) for j in range(len(sizes))))
    )
    if not sizes:
        return Plan(0, 0, proven=True)
    return _cover(contents(Field.of(forme), sizes).maximal, [wanted[size] for size in sizes])


def _cover(patterns: Sequence[Counts], wanted: Sequence[int]) -> Plan:
    """Return the fewest patterns that cover ``wanted``, by integer programming."""
    model = _quiet_model()
    uses = [model.addIntegral(lb=0, obj=1) for _ in patterns]
    for i, count in enumerate(wanted):
        model.addConstr(
            sum(pattern[i] * use for pattern, use in zip(patterns, uses, strict=True)) >= count
        )
    model.minimize()
    info = model.getInfo()
    sheets = round(info.objective_function_value)
    bound = ceil(info.mip_dual_bound - 1e-6)
    return Plan(sheets, bound, proven=sheets == bound)


def _quiet_model() -> Any:
    """Return an empty model whose solver writes nothing on the terminal."""
    import highspy  # noqa: PLC0415 - heavy, and only wanted here

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the library's own name
            # It prints its banner as the callbacks are set up, before options can be given.
            self.silent()
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    return Quiet()  # type: ignore[no-untyped-call]

"""Finishing printed sheets: scored, cut, and each insert put into its case."""

from __future__ import annotations

from collections.abc import Iterator

from engine import press
from engine.cases import FlatNet, hand_cuts
from engine.ganging import sheetwork
from engine.ganging.results import SheetReport
from engine.model import Stage, Value, cautions
from engine.model.errors import RefusedError
from engine.press import WorkStep
from engine.service.pages import Pages
from engine.service.session import Session


class ToFit(Value, frozen=True):
    """An insert that goes into its case, or is in it."""

    place: int
    """Its place on the sheet, from 0."""
    game: str
    title: str
    case: str
    """The name of its case kind."""
    fitted: bool
    steps: tuple[str, ...]
    """What is cut out of it by hand, then each score and fold in their order."""


class FittingReport(Value, frozen=True):
    """The good inserts of a settled sheet."""

    inserts: tuple[ToFit, ...]
    cautions: tuple[str, ...]
    """For these case kinds, and for what is cut by hand; a sentence each."""


class Finishing:
    """What is done with a sheet once it is printed."""

    def __init__(self, session: Session, pages: Pages) -> None:
        """Work in ``session``; have ``pages`` know the nets of inserts."""
        self._session = session
        self._pages = pages

    def steps(self, sheet: SheetReport) -> tuple[WorkStep, ...]:
        """Return how a sheet is scored and cut, proposed or pressed, step by step."""
        return self._pages.steps(sheet)

    def fitting(self, number: int) -> FittingReport:
        """Return what goes into its case of a settled sheet, and what to mind with it.

        What was printed otherwise than its game is designed by now is left out: it waits to be
        printed again. Raises InputError, or RefusedError for a sheet that is not settled.
        """
        with self._session.lock:
            snapshot, kinds = self._session.snapshot, self._session.kinds
            sheet = snapshot.sheet(number)
            if sheet.settled_at is None:
                raise RefusedError(
                    f"sheet {number}",
                    "is not settled, so it is not known which inserts are good",
                    "Settle it first",
                )
            inserts, by_hand = [], False
            nets = self._pages.nets(sheet.placements)
            for place in sheetwork.good(sheet, snapshot.standing):
                one = sheet.placements[place]
                net = nets.get((one.game, one.case))
                by_hand = by_hand or bool(net and hand_cuts(net))
                inserts.append(
                    ToFit(
                        place=place,
                        game=one.game,
                        title=snapshot.games[one.game].title,
                        case=kinds[one.case].name if one.case in kinds else one.case,
                        fitted=snapshot.standing[one.game].stage is Stage.FITTED,
                        steps=tuple(_steps(net)) if net else (),
                    )
                )
            used = dict.fromkeys(sheet.placements[insert.place].case for insert in inserts)
            own = (words for kind in used if kind in kinds for words in kinds[kind].cautions)
            usual = cautions.CUTTING if by_hand else (cautions.FIRST,)
            return FittingReport(tuple(inserts), tuple(dict.fromkeys((*own, *usual))))


def _steps(net: FlatNet) -> Iterator[str]:
    yield from hand_cuts(net)
    yield from (f"Score {words}" for words in press.score_steps(net))

"""The setup of the workshop in memory: real kinds and settings, made-up pictures."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import Any

from engine import KindDraft, KindLine, KindReport, Proposal, TrialReport, TrialSide
from engine.cases import CaseKind, Misfit, correct, fold, load_kinds, scales
from engine.cases.casing import Casing
from engine.model.errors import RefusedError
from engine.model.settings import Settings
from engine.service import Measured, setting_up
from tests.tui.fake_titles import FakeTitles
from tests.tui.made_up import KINDS, State, drawn

SHIPPED = {kind: load_kinds()[kind] for kind in KINDS}


class FakeSetup(FakeTitles):
    """What the workshop in memory knows of kinds and settings."""

    _state: State

    def _deed(self, words: str, change: Any) -> None:
        raise NotImplementedError

    @property
    def _kinds(self) -> dict[str, CaseKind]:
        return {**SHIPPED, **{kind.id: kind for kind in self._state.own}}

    @property
    def _casing(self) -> Casing:
        return Casing(self._kinds, self._state.settings)

    def settings(self) -> Settings:
        return self._state.settings

    def set_up(self, **changes: Any) -> Settings:
        new = setting_up.changed(self._state.settings, self._kinds, **changes)
        named = ", ".join(f"{name} {value}" for name, value in changes.items())
        self._deed(f"set {named}", lambda state: replace(state, settings=new))
        return new

    def kinds(self) -> tuple[KindLine, ...]:
        games = [game.case for game in self._state.games.values()]
        return tuple(
            KindLine(
                id=kind.id,
                name=KINDS.get(kind.id, kind.name),
                games=games.count(kind.id),
                cautions=kind.cautions,
                own=kind in self._state.own,
                pose=self._casing.pose(kind.id),
                left_out=tuple(sorted(self._casing.usually_left_out(kind.id))),
            )
            for kind in self._kinds.values()
        )

    def kind(self, said: str) -> CaseKind:
        return self._kinds[said]

    def kind_reports(self, said: str = "") -> tuple[KindReport, ...]:
        return tuple(
            KindReport(
                line=line,
                kind=self._kinds[line.id],
                net=self._casing.net(line.id),
                folded=self._casing.folded(line.id),
            )
            for line in self.kinds()
            if said in {"", line.id}
        )

    def net_picture(self, said: str) -> bytes:
        return drawn(self._casing.net(said).size, "#335577", f"net of {said}")

    def folded_picture(self, said: str) -> bytes:
        return drawn(self._casing.net(said).size, "#775533", f"{said} folded")

    def leave_out(self, ids: Iterable[str], left_out: Collection[str]) -> tuple[Proposal, ...]:
        wanted = tuple(sorted(left_out))
        games = {game: replace(self._state.games[game], left_out=wanted) for game in ids}
        self._deed(
            f"left {', '.join(wanted) or 'nothing'} out of {len(games)}",
            lambda state: replace(state, games={**state.games, **games}),
        )
        return tuple(game.proposal for game in games.values())

    # --- a case of one's own -----------------------------------------------------------

    def draft_kind(self, measured: Measured) -> KindDraft:
        kind = measured.kind
        folded = fold(kind, 0.25)
        size = Casing({kind.id: kind}, Settings()).net(kind.id).size
        return KindDraft(
            id=kind.id,
            flat=size,
            folded=tuple(folded.outside),
            doubts=measured.doubts,
            net=drawn(size, "#335577", "net"),
            view=drawn(size, "#775533", "folded"),
        )

    def add_kind(self, measured: Measured) -> CaseKind:
        kind = measured.kind
        if kind.id in self._kinds:
            raise RefusedError(measured.name, "is taken", "Give the case another name")
        self._deed(f"kept {kind.id}", lambda state: replace(state, own=(*state.own, kind)))
        return kind

    def trial(self, said: str) -> TrialReport:
        self._deed(f"trial of {said}", lambda state: state)
        return TrialReport(
            file=f"sheets/trial-{said}.pdf",
            sides=self.trial_sides(said),
            notes=("Cut on a mat along a steel rule.",),
        )

    def trial_sides(self, said: str) -> tuple[TrialSide, ...]:
        found = scales(self._casing.net(said))
        sides = {(scale.panel, scale.dimension): scale.length for scale in found}
        return tuple(TrialSide(*place, length) for place, length in sides.items())

    def correct_kind(self, said: str, misfits: Iterable[tuple[Any, ...]]) -> CaseKind:
        new = correct(self._kinds[said], [Misfit(*one) for one in misfits])
        own = tuple(kind for kind in self._state.own if kind.id != said)
        self._deed(f"corrected {said}", lambda state: replace(state, own=(*own, new)))
        return new

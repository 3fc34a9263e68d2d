"""What Bench and Backlog both do with games."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Mapping, Sequence
from functools import cached_property, partial
from typing import NamedTuple, TypeVar

from engine import (
    AcceptReport,
    Cancel,
    Cancelled,
    CaseKind,
    DeclareReport,
    Design,
    Outlook,
    Stage,
    Workshop,
)
from tui.screens.base import View, WorkScreen
from tui.screens.choosers import Pick
from tui.screens.forms import Panels
from tui.screens.histories import GameStory
from tui.screens.records import Records
from tui.screens.setupwords import cautions_of
from tui.widgets.table import Column, Row
from tui.words import first_of, outlook_words
from tui.work import nothing

S = TypeVar("S", bound=View)

NAMED = 3
"""Games that a notice names before it counts the rest."""


TAKEN_BACK = "as it is"
"""In the place of a stage: what was declared is taken back."""

DECLARING = {
    Stage.PRINTED.value: "printed already",
    Stage.FITTED.value: "fitted already",
    Stage.UNWANTED.value: "not wanted",
    TAKEN_BACK: "as its decisions and sheets say",
}
DECLARED_MEANS = {
    Stage.PRINTED.value: "Its insert was printed elsewhere. Nothing is printed for it here.",
    Stage.FITTED.value: "It stands in its case already. Nothing is printed for it here.",
    Stage.UNWANTED.value: "It stays listed, and is left out of every batch and sheet.",
    TAKEN_BACK: "What you said of it before is taken back.",
}


class Brought(NamedTuple):
    """The batch after the next games were brought."""

    batch: tuple[str, ...]
    outlook: Outlook | None
    """What comes of it; None if the person did not wait for that."""

    @property
    def words(self) -> str:
        """What comes of it, in a sentence."""
        if self.outlook is None:
            return "The batch is brought; what comes of it was not worked out."
        return outlook_words(self.outlook)


class GamesScreen(WorkScreen[S]):
    """A screen with games to act on."""

    @abstractmethod
    def targets(self) -> tuple[str, ...]:
        """Return the games that an action is for."""

    @abstractmethod
    def case_of(self, game: str) -> str:
        """Return the case kind that a game of the screen is in."""

    def sure_targets(self) -> tuple[str, ...]:
        """Return the games of which the sure ones are accepted together."""
        return self.targets()

    def seen(self, games: Sequence[str]) -> Mapping[str, Design]:  # noqa: ARG002  of no game here
        """Return the designs of games as the person sees them: by these they are accepted."""
        return {}

    # --- accepting ---------------------------------------------------------------------

    def accept_all(self, games: Sequence[str], *, sure_only: bool) -> None:
        """Accept what is proposed for games, and name those that were left."""
        seen = self.seen(games)
        self.work.change(
            lambda workshop: workshop.designs.accept(games, sure_only=sure_only, seen=seen),
            self.accepted,
            failed=partial(self.not_accepted, games),
        )

    def accepted(self, report: AcceptReport) -> None:
        """Name the games that were left to decide, and what fits no sheet."""
        if report.notes:
            self.say("Accepted", report.notes)
        if report.left:
            self.say(
                f"{len(report.left)} left to decide",
                [f"{game.title}: {' '.join(game.doubts)}" for game in report.left],
            )

    def not_accepted(self, games: Sequence[str]) -> None:
        """Put right what was shown in advance of games that could not be accepted."""

    def action_accept_sure(self) -> None:
        """Accept all games that are sure."""
        self.ask_all("accept_sure", lambda games: self.accept_all(games, sure_only=True))

    def ask_all(self, act: str, do: Callable[[Sequence[str]], None]) -> None:
        """Do something to the games it is for."""
        games = self.sure_targets() if act == "accept_sure" else self.targets()
        if games:
            do(games)

    def bring_next(
        self,
        games: Sequence[str] | None,
        then: Callable[[Brought], None],
        failed: Callable[[], None] = nothing,
    ) -> None:
        """Bring the games to finish next into the batch, of these or of all."""

        def bring(workshop: Workshop, cancel: Cancel) -> Brought:
            batch = workshop.batch.bring_next(games, cancel=cancel)
            try:
                return Brought(batch, workshop.batch.outlook(cancel))
            except Cancelled:
                return Brought(batch, None)

        self.work.long_change(bring, then, failed=failed, words="Choosing")

    # --- notices -----------------------------------------------------------------------

    def say(self, title: str, lines: Sequence[str]) -> None:
        """Show a notice with the first few of some lines."""
        self.notify("\n".join(first_of(lines, NAMED)), title=title, markup=False)

    def say_notes(self, notes: Sequence[str]) -> None:
        """Show what the workshop had to say about the step just taken."""
        if notes:
            self.say("Note", notes)

    # --- what is done to games ---------------------------------------------------------

    def action_change_case(self) -> None:
        """Choose a case kind for the games."""
        games = self.targets()
        if games:
            self.fetch(
                lambda workshop: cautions_of(workshop.kinds.lines()),
                partial(self._ask_case, games),
                group="case",
            )

    def _ask_case(self, games: Sequence[str], about: Mapping[str, str]) -> None:
        kinds = self.state.kinds if self.state else {}
        rows = [Row(kind, (name,)) for kind, name in kinds.items()]
        title = f"Case of {len(games)} games" if len(games) > 1 else "Case"

        def chosen(kind: str | None) -> None:
            if kind is not None:
                self.work.change(lambda workshop: workshop.designs.change_cases(games, kind))

        self.app.push_screen(
            Pick(title, (Column("kind"),), rows, at=self.case_of(games[0]), about=about), chosen
        )

    def action_panels(self) -> None:
        """Leave panels out of the games that are in the case kind of the first."""
        targets = self.targets()
        if not targets:
            return
        case = self.case_of(targets[0])
        games = [game for game in targets if self.case_of(game) == case]

        def look(workshop: Workshop) -> tuple[CaseKind, Sequence[str]]:
            present = workshop.designs.proposal(games[0]).design.left_out
            return workshop.kinds.kind(case), present

        self.fetch(look, lambda seen: self._ask_panels(games, *seen), group="panels")

    def _ask_panels(self, games: Sequence[str], kind: CaseKind, present: Sequence[str]) -> None:
        title = f"{len(games)} games in {kind.name}" if len(games) > 1 else kind.name
        panels = {panel.name: panel.role.value for panel in kind.panels}

        def chosen(left_out: Sequence[str] | None) -> None:
            if left_out is not None:
                self.work.change(lambda workshop: workshop.designs.leave_out(games, left_out))

        self.app.push_screen(Panels(f"Panels: {title}", panels, present), chosen)

    def action_game_history(self) -> None:
        """Show what happened to the first of the games."""
        games = self.targets()
        if games:
            self.fetch(
                lambda workshop: (
                    workshop.designs.proposal(games[0]).title,
                    workshop.history.of_game(games[0]),
                ),
                lambda told: self.app.push_screen(GameStory(*told)),
                group="history",
            )

    # --- what is written of them: see ``Records`` -----------------------------------------

    @cached_property
    def records(self) -> Records:
        """What asks for what is written of games."""
        return Records(self)

    def action_record(self) -> None:
        """Choose what is to be done with what is written of a game."""
        self.records.open(some=bool(self.targets()))

    def action_add_game(self) -> None:
        """Add a game."""
        self.records.add()

    def action_edit_game(self) -> None:
        """Edit the game, of several the first."""
        for game in self.targets()[:1]:
            self.records.edit(game)

    def action_own_pictures(self) -> None:
        """See to the pictures of the game, of several the first."""
        for game in self.targets()[:1]:
            self.records.pictures(game)

    def action_delete_games(self) -> None:
        """Delete the games."""
        games = self.targets()
        if games:
            self.records.delete(games)

    def action_drop(self) -> None:
        """Take the games out of today's batch."""
        self.ask_all(
            "drop", lambda games: self.work.change(lambda workshop: workshop.batch.drop(games))
        )

    def action_reopen(self) -> None:
        """Take back what was accepted for the games."""
        self.ask_all(
            "reopen",
            lambda games: self.work.change(lambda workshop: workshop.designs.reopen(games)),
        )

    def action_fit(self) -> None:
        """Note that the games' inserts are in their cases."""
        self.ask_all(
            "fit",
            lambda games: self.work.change(
                lambda workshop: workshop.sheets.fit(games), self.say_notes
            ),
        )

    # --- what the person says of them -----------------------------------------------------

    def action_declare(self) -> None:
        """Say that the games are printed or cased already, or not wanted."""
        games = self.targets()
        if not games:
            return
        title = f"Stage of {len(games)} games" if len(games) > 1 else "Stage"
        rows = [Row(key, (words,)) for key, words in DECLARING.items()]

        def chosen(said: str | None) -> None:
            if said is not None:
                stage = Stage(said) if said != TAKEN_BACK else None
                self.work.change(
                    lambda workshop: workshop.declaring.declare(games, stage), self._declared
                )

        self.app.push_screen(Pick(title, (Column("it is"),), rows, about=DECLARED_MEANS), chosen)

    def _declared(self, report: DeclareReport) -> None:
        self.say_notes(report.notes)

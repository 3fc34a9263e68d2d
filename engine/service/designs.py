"""Accepting, changing and reopening what is proposed: the four decisions of each game."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence

import msgspec

from engine.cases.library import known_kind
from engine.model import Art, Decision, Design, EdgeTitle, Game, InkMode, Value
from engine.model.stages import Place
from engine.service import deciding
from engine.service.deciding import ALL
from engine.service.session import Session
from engine.state import Proposal


class Undecided(Value, frozen=True):
    """A game that was left for the person to decide."""

    game: str
    title: str
    doubts: tuple[str, ...]


class AcceptReport(Value, frozen=True):
    """What accepting did."""

    accepted: tuple[str, ...]
    left: tuple[Undecided, ...]
    notes: tuple[str, ...] = ()
    """On accepted games whose inserts fit no sheet of their paper, a sentence each."""


class Designs:
    """What is proposed for games, and what the person makes of it."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def proposal(self, game: str) -> Proposal:
        """Return a game's design as it would be printed now. Raises InputError."""
        with self._session.lock:
            snapshot = self._session.snapshot
            return snapshot.proposal(snapshot.game(game).id)

    def proposals(self, ids: Sequence[str] | None = None) -> tuple[Proposal, ...]:
        """Return the designs of some games, each once, or of all that are not finished."""
        wanted = self._session.snapshot.at(Place.BACKLOG) if ids is None else ids
        return tuple({one.game: one for one in map(self.proposal, wanted)}.values())

    def accept(
        self,
        ids: Sequence[str],
        decisions: Collection[Decision] = ALL,
        *,
        sure_only: bool = False,
        seen: Mapping[str, Design] | None = None,
    ) -> AcceptReport:
        """Accept what is proposed for some games; what was accepted before stays.

        With ``sure_only``, games with a doubt are left and told. So are games whose design is no
        longer the one that the person has ``seen``: covers are read meanwhile. Raises InputError.
        """
        with self._session.lock:
            snapshot, now = self._session.snapshot, self._session.now()
            proposals = self.proposals(ids)
            doubts = {one.game: _doubts(one, sure_only=sure_only, seen=seen) for one in proposals}
            taken = [one for one in proposals if not doubts[one.game]]
            self._session.keep_games(
                "accepted",
                [
                    deciding.accept(
                        snapshot.games[one.game], one.design, decisions, now, self._column_of(one)
                    )
                    for one in taken
                ],
            )
            accepted = tuple(one.game for one in taken)
            left = [one for one in proposals if doubts[one.game]]
            too_large = self._session.snapshot.too_large
            return AcceptReport(
                accepted,
                tuple(Undecided(one.game, one.title, doubts[one.game]) for one in left),
                tuple(what for what, games in too_large.items() if {*accepted} & {*games}),
            )

    def reopen(self, ids: Sequence[str], decisions: Collection[Decision] = ALL) -> None:
        """Take acceptances back, so that these decisions are proposed again."""
        self._change("reopened", ids, lambda game: deciding.reopen(game, decisions))

    def change_cases(self, ids: Sequence[str], kind: str) -> tuple[Proposal, ...]:
        """Put games in another case kind; their titles are proposed anew for the new edges.

        Raises CaseError or InputError.
        """
        found = known_kind(self._session.kinds, kind)
        return self._change("changed", ids, lambda game: deciding.change_case(game, found))

    def leave_out(self, ids: Sequence[str], left_out: Collection[str]) -> tuple[Proposal, ...]:
        """Leave panels out of the inserts of games; their titles are proposed anew.

        Raises CaseError for a panel the case kind does not have, or if none would be left.
        """

        def change(game: Game) -> Game:
            casing = self._session.snapshot.casing
            case = casing.case_of(game)
            casing.net(case, frozenset(left_out))
            return deciding.change_panels(game, case, left_out)

        return self._change("changed", ids, change)

    def change_ink(self, ids: Sequence[str], mode: InkMode | None) -> tuple[Proposal, ...]:
        """Print games in an ink mode of their own; None leaves it to the setup."""
        return self._change("changed", ids, lambda game: deciding.change_ink(game, mode))

    def change_art(self, game: str, art: Art) -> Proposal:
        """Take this art for a game, whatever was proposed. Raises InputError."""

        def change(found: Game) -> Game:
            snapshot = self._session.snapshot
            for name in art.pictures:
                snapshot.picture(name)
            return deciding.change_art(
                found, art, snapshot.casing.case_of(found), self._session.now()
            )

        return self._change("changed", [game], change)[0]

    def swap_picture(self, game: str, picture: str) -> Proposal:
        """Take another picture of the collection for a game, fitted as it loses least."""
        with self._session.lock:
            snapshot = self._session.snapshot
            name = snapshot.picture(picture).name
            best = snapshot.proposer.fittings(snapshot.game(game), name)[0]
            return self.change_art(game, msgspec.structs.replace(best.art, picture=name))

    def change_colour(self, game: str, base: str) -> Proposal:
        """Take this base colour, ``#rrggbb``; the ink follows from it. Raises InputError.

        The colour of the game's group is taken with the group, to follow it.
        """
        colours = deciding.colours(base)

        def change(found: Game) -> Game:
            snapshot = self._session.snapshot
            group = snapshot.colouring.from_group(found)
            if group is not None and group.base == colours.base:
                return deciding.change_colours(found, group, snapshot.settings.colour_by)
            return deciding.change_colours(found, colours)

        return self._change("changed", [game], change)[0]

    def change_title(self, game: str, text: str) -> Proposal:
        """Set the title in these words on every edge, lines parted by newlines or ``/``.

        Raises InputError for an empty title.
        """
        lines = deciding.title_lines(text)
        with self._session.lock:
            snapshot = self._session.snapshot
            found = snapshot.game(game)
            edges = snapshot.proposer.set_title(found, lines)
            return self.take_title(found, edges, large=" ".join(lines))

    # --- for the other parts -----------------------------------------------------------------

    def take_title(self, game: Game, edges: tuple[EdgeTitle, ...], *, large: str = "") -> Proposal:
        """Take titles for a game, and ``large`` words where its art is its title set large."""
        present = self.proposal(game.id)
        by = self._column_of(present)
        changed = deciding.change_title(game, present.design, edges, self._session.now(), by)
        if large:
            stand_ins = self._session.snapshot.proposer.titler.fonts.large(large)
            changed = deciding.change_large(changed, large, stand_ins)
        self._session.keep_games("changed", [changed])
        return self.proposal(game.id)

    def _change(
        self, verb: str, ids: Sequence[str], change: Callable[[Game], Game]
    ) -> tuple[Proposal, ...]:
        """Change games, all as one change, and return their designs."""
        with self._session.lock:
            games = [self._session.snapshot.game(game) for game in ids]
            self._session.keep_games(verb, [change(game) for game in games])
            return self.proposals([game.id for game in games])

    def _column_of(self, proposal: Proposal) -> str:
        """Return the column whose group gives a proposal its colours, '' where none does."""
        return self._session.snapshot.settings.colour_by if proposal.group else ""


def _doubts(
    proposal: Proposal, *, sure_only: bool, seen: Mapping[str, Design] | None
) -> tuple[str, ...]:
    """Return why a proposal is not to be accepted as things stand, a sentence each."""
    if seen and seen.get(proposal.game, proposal.design) != proposal.design:
        return ("It is proposed otherwise now: look again.",)
    return proposal.doubts if sure_only else ()

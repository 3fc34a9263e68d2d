"""Accepting, changing and reopening what is proposed."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Sequence

import msgspec

from engine.model import Art, Decision
from engine.model.errors import InputError
from engine.service import deciding
from engine.service.results import (
    AcceptReport,
    Progress,
    Proposal,
    Undecided,
)
from engine.service.session import Bench

ALL = frozenset(Decision)


class Decisions(Bench):
    """The four decisions of each game."""

    def accept(
        self, ids: Sequence[str], decisions: AnyOf[Decision] = ALL, *, sure_only: bool = False
    ) -> AcceptReport:
        """Accept what is proposed for some games; what was accepted before stays.

        With ``sure_only``, games with a doubt are left and told. Raises InputError.
        """
        with self._lock:
            proposals = self.proposals(ids)
            taken = [p for p in proposals if p.sure or not sure_only]
            now = self._now()
            self._keep(
                "accepted",
                [
                    deciding.accept(
                        self._snapshot.games[p.game], p.design, decisions, now, self._column_of(p)
                    )
                    for p in taken
                ],
            )
            return AcceptReport(
                accepted=tuple(p.game for p in taken),
                left=tuple(
                    Undecided(game=p.game, title=p.title, doubts=p.doubts)
                    for p in proposals
                    if p not in taken
                ),
            )

    def reopen(self, ids: Sequence[str], decisions: AnyOf[Decision] = ALL) -> Progress:
        """Take acceptances back, so that these decisions are proposed again."""
        with self._lock:
            games = [self._snapshot.game(game) for game in ids]
            self._keep("reopened", [deciding.reopen(game, decisions) for game in games])
            return self.progress()

    def change_case(self, game: str, kind: str) -> Proposal:
        """Put a game in another case kind; its title is proposed anew for the new edges."""
        return self.change_cases([game], kind)[0]

    def change_cases(self, ids: Sequence[str], kind: str) -> tuple[Proposal, ...]:
        """Put games in another case kind, all as one deed. Raises CaseError or InputError."""
        found = self.kind(kind).id
        with self._lock:
            games = [self._snapshot.game(game) for game in ids]
            self._keep("changed", [deciding.change_case(game, found) for game in games])
            return self.proposals([game.id for game in games])

    def change_panels(self, game: str, left_out: AnyOf[str]) -> Proposal:
        """Leave these panels out of a game's insert; its title is proposed anew.

        Raises CaseError for a panel the case kind does not have, or if none would be left.
        """
        return self.leave_out([game], left_out)[0]

    def leave_out(self, ids: Sequence[str], left_out: AnyOf[str]) -> tuple[Proposal, ...]:
        """Leave panels out of the inserts of games, all as one deed; see ``change_panels``."""
        with self._lock:
            casing, changed = self._snapshot.casing, []
            for game in map(self._snapshot.game, ids):
                case = casing.case_of(game)
                casing.net(case, frozenset(left_out))
                changed.append(deciding.change_panels(game, case, left_out))
            self._keep("changed", changed)
            return self.proposals([game.id for game in changed])

    def change_art(self, game: str, art: Art) -> Proposal:
        """Take this art for a game, whatever was proposed. Raises InputError."""
        with self._lock:
            if art.picture is not None and art.picture not in self._collection.pictures:
                raise InputError(art.picture, "is not among the pictures", "Take it in first")
            found = self._snapshot.game(game)
            case = self._snapshot.casing.case_of(found)
            return self._decide(deciding.change_art(found, art, case, self._now()))

    def swap_picture(self, game: str, picture: str) -> Proposal:
        """Take another picture of the collection for a game, fitted as it loses least."""
        with self._lock:
            if picture not in self._collection.pictures:
                raise InputError(picture, "is not among the pictures", "Take it in first")
            best = self._snapshot.proposer.fittings(self._snapshot.game(game), picture)[0]
            return self.change_art(game, msgspec.structs.replace(best.art, picture=picture))

    def change_colour(self, game: str, base: str) -> Proposal:
        """Take this base colour, ``#rrggbb``; the ink follows from it. Raises InputError.

        The colour of the game's group is taken with the group, to follow it.
        """
        colours = deciding.colours(base)
        with self._lock:
            found = self._snapshot.game(game)
            group = self._snapshot.colouring.from_group(found)
            if group is not None and group.base == colours.base:
                by = self._snapshot.settings.colour_by
                return self._decide(deciding.change_colours(found, group, by))
            return self._decide(deciding.change_colours(found, colours))

    def change_title(self, game: str, text: str) -> Proposal:
        """Set the title in these words on every edge, lines parted by newlines or ``/``.

        Raises InputError for an empty title.
        """
        lines = deciding.title_lines(text)
        with self._lock:
            found = self._snapshot.game(game)
            edges = self._snapshot.proposer.set_title(found, lines)
            present = self._snapshot.proposal(found.id)
            by = self._column_of(present)
            changed = deciding.change_title(found, present.design, edges, self._now(), by)
            words = " ".join(lines)
            stand_ins = self._snapshot.proposer.titler.fonts.large(words)
            return self._decide(deciding.change_large(changed, words, stand_ins))

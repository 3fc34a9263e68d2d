"""What follows from one state of the collection, worked out once, when first asked."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from engine.cases import CaseKind
from engine.cases.casing import Casing
from engine.collection import Collection
from engine.colours.colouring import Colouring, brought_up
from engine.ganging import papers, sheetwork
from engine.ganging.papers import Paper, Proposed
from engine.lettering import StandIns
from engine.lettering.titler import Titler
from engine.model import Game, Sheet
from engine.model.errors import InputError
from engine.model.stages import Place, standings
from engine.state.proposal import Proposal
from engine.state.proposing import Proposer


class Snapshot:
    """The collection between two deeds. Nothing in it changes."""

    def __init__(
        self, collection: Collection, kinds: Mapping[str, CaseKind], before: Snapshot | None = None
    ) -> None:
        """Read the collection; take over from ``before`` what still holds."""
        self.sheets = collection.sheets
        self.settings = collection.settings
        self.colouring = Colouring(collection.games, collection.pictures, self.settings)
        self.games: Mapping[str, Game] = brought_up(
            collection.games, self.sheets.values(), self.colouring, self.settings.ink
        )
        self.standing = standings(self.games.values(), self.sheets.values())
        self._pictures = collection.pictures
        same = (
            before is not None
            and before.settings == self.settings
            and before._pictures == self._pictures  # noqa: SLF001  its own kind
        )
        casing = before.casing if before is not None and same else Casing(kinds, self.settings)
        signs = self.colouring.signs
        if before is not None and same:
            changed = {
                key: self.games.get(key)
                for key in {**before.games, **self.games}
                if self.games.get(key) != before.games.get(key)
            }
            titler, retitled = before.proposer.titler.after(changed, signs)
        else:
            stand_ins = (
                before.proposer.titler.fonts.stand_ins
                if before is not None
                else StandIns(collection.font_folder, self.games.values())
            )
            titler = Titler.of(casing, self.settings.lettering, self.games, stand_ins, signs)
            retitled = frozenset()
        self.proposer: Proposer = Proposer(casing, self.settings, self._pictures, titler)
        self._proposals = self._still_hold(before, retitled) if before is not None and same else {}

    def _still_hold(self, before: Snapshot, retitled: frozenset[str]) -> dict[str, Proposal]:
        """Return the proposals of an earlier snapshot that are as they would be made now.

        Titles of ``retitled`` may be other ones now.
        """
        kept = before._proposals
        if kept and before.colouring.palette != self.colouring.palette:
            return {}
        return {
            key: proposal
            for key, proposal in kept.items()
            if self.games.get(key) == before.games[key]
            and self.standing[key] == before.standing[key]
            and key not in retitled
        }

    def game(self, said: str) -> Game:
        """Return the game of an id, a title, or the beginning of just one. Raises InputError."""
        if said in self.games:
            return self.games[said]
        wanted = said.strip().casefold()
        found = [g for g in self.games.values() if g.title.casefold() == wanted] or [
            g
            for g in self.games.values()
            if wanted and (g.id.startswith(wanted) or g.title.casefold().startswith(wanted))
        ]
        if len(found) == 1:
            return found[0]
        if found:
            few = ", ".join(game.id for game in found[:5])
            raise InputError(said, f"could be {len(found)} games: {few}", "Say which by its id")
        raise InputError(said, "no such game", "The Backlog lists them")

    def sheet(self, number: int) -> Sheet:
        """Return a sheet that is pressed or settled. Raises InputError."""
        sheet = self.sheets.get(number)
        if sheet is None:
            raise InputError(f"sheet {number}", "no such sheet", "spinery sheets lists them")
        if sheet.withdrawn_at is not None:
            raise InputError(
                f"sheet {number}", "was withdrawn", "Its inserts are back in the queue"
            )
        return sheet

    def proposal(self, game_id: str) -> Proposal:
        """Return the design of a game as it would be printed now."""
        if game_id not in self._proposals:
            self._proposals[game_id] = self.proposer.propose(
                self.games[game_id], self.standing[game_id], self.colouring
            )
        return self._proposals[game_id]

    def at(self, *places: Place) -> tuple[str, ...]:
        """Return the games that are in these places, in list order."""
        return tuple(key for key, one in self.standing.items() if one.place in places)

    @property
    def casing(self) -> Casing:
        """Which case and net each game has."""
        return self.proposer.casing

    @cached_property
    def papers(self) -> tuple[Paper, ...]:
        """What is to be printed on each stock in use."""
        return papers.papers(self.games, self.standing, self.casing, self.sheets.values())

    def paper_left(self, sheet: Proposed, number: int) -> str:
        """Return a sentence if more of any kind of the collection would fit on a sheet, else ''."""
        stock = sheet.forme.stock.id
        same = (
            game
            for game in self.games.values()
            if self.casing.stock_of(self.casing.case_of(game)).id == stock
        )
        kinds = sheetwork.footprints(same, self.casing)
        return sheetwork.paper_left(sheet.layout, number, sheet.forme, kinds)

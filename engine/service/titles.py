"""Titles: how the shelf's are set, how far they read, and how one is worded."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import msgspec

from engine import artwork, lettering
from engine.lettering.reach import Reader
from engine.lettering.results import Legibility, Wording
from engine.model import FontRef, Value, columns
from engine.model.errors import FontError, InputError, RefusedError
from engine.service.designs import Designs
from engine.service.session import Session
from engine.state import Proposal


class LogoReport(Value, frozen=True):
    """What came of a logo on the edges of a game."""

    proposal: Proposal
    words: tuple[str, ...]
    """How high its letters are on each edge and what was made of it, a sentence each."""


class Titles:
    """Titles on edges."""

    def __init__(self, session: Session, designs: Designs) -> None:
        """Work in ``session``, through ``designs``."""
        self._session = session
        self._designs = designs

    def report(self, ids: Sequence[str] | None = None, *, helps: bool = True) -> Legibility:
        """Return which titles of some games, or of all, do not read from the shelf's distance.

        What would help is worked out where ``helps`` says so. Raises InputError.
        """
        with self._session.lock:
            snapshot = self._session.snapshot
            games = snapshot.games
            if ids is not None:
                games = {game.id: game for game in map(snapshot.game, ids)}
            reader = Reader(snapshot.proposer.titler, snapshot.casing, self._session.kinds)
            return reader.report(games, helps=helps)

    def fonts(self, words: str = "") -> tuple[tuple[str, int, str], ...]:
        """Return usable fonts whose name has all of ``words``: file, face and name, best first.

        Those of installed font packages and of the machine; or those of the one file that the
        words are the path of.
        """
        file = Path(words.strip()).expanduser()
        if words.strip() and file.is_file():
            try:
                lettering.tried(FontRef(str(file)))
                found = tuple(one for one in lettering.faces_in(file) if one.usable)
            except FontError:
                return ()
        else:
            wanted = words.casefold().split()
            found = tuple(
                one
                for one in lettering.fonts_to_hand()
                if all(word in f"{one.family} {one.style}".casefold() for word in wanted)
            )
        return tuple(
            (one.font.path, one.font.face, f"{one.family} {one.style}".strip()) for one in found
        )

    def columns(self) -> tuple[str, ...]:
        """Return the columns of the list that marks and stripes can be taken from."""
        with self._session.lock:
            return columns.columns(self._session.snapshot.games.values())

    def wordings(self, game: str) -> tuple[Wording, ...]:
        """Return a game's title, then what it may be abridged to, step by step."""
        with self._session.lock:
            found = self._session.snapshot.game(game)
            net = self._session.snapshot.casing.net_of(found)
            return self._session.snapshot.proposer.titler.wordings(found, net)

    def change_wording(self, game: str, text: str) -> Proposal:
        """Take one of a game's wordings for all its edges, broken and sized as proposals are.

        Raises InputError for words that are none of them.
        """
        with self._session.lock:
            found = self._session.snapshot.game(game)
            wordings = self.wordings(game)
            if text not in {one.text for one in wordings}:
                listed = "; ".join(one.text for one in wordings)
                raise InputError(text, f"is no wording of {found.title}", f"They are {listed}")
            net = self._session.snapshot.casing.net_of(found)
            edges = self._session.snapshot.proposer.titler.reworded(found, net, text)
            return self._designs.take_title(found, edges)

    def next_wording(self, game: str) -> Proposal:
        """Take the wording after the present one, after the last the whole title again.

        Raises RefusedError where there is no other.
        """
        with self._session.lock:
            wordings = self.wordings(game)
            now = next((at for at, one in enumerate(wordings) if one.now), -1)
            if len(wordings) < 2 and now == 0:
                title = self._session.snapshot.game(game).title
                raise RefusedError(title, "nothing shortens it", "Edit it instead")
            return self.change_wording(game, wordings[(now + 1) % len(wordings)].text)

    def change_logo(
        self, game: str, logo: Path, *, share: float = 0.0, alone: bool = False
    ) -> LogoReport:
        """Put a logo on a game's edges, where it can be read; else the title, or both.

        ``share`` is the part of its height that its letters take, where it was measured;
        ``alone`` it stands for the title whatever its size. The title is proposed again once
        it is reopened. Raises InputError or PictureError.
        """
        if not 0.0 <= share <= 1.0:
            raise InputError("share", "is a part of the logo's height", "Give one from 0 to 1")
        looked = artwork.inspect(logo, logo.name)
        with self._session.lock:
            title = self._session.snapshot.game(game).title
        with self._session.change(f"put {logo.name} on {title}"):
            found = self._session.snapshot.game(game)
            picture = msgspec.structs.replace(looked, name=self._session.files.picture(logo))
            self._session.keep(f"took in {logo.name}", pictures=[picture])
            net = self._session.snapshot.casing.net_of(found)
            edges, words = self._session.snapshot.proposer.titler.with_logo(
                found, net, picture, share, alone=alone
            )
            return LogoReport(proposal=self._designs.take_title(found, edges), words=words)

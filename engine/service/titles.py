"""Titles: how the shelf's are set, how far they read, and how one is worded."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import msgspec

from engine import artwork, lettering
from engine.lettering.reach import Reader
from engine.model import EdgeTitle, FontRef, Game, columns
from engine.model.errors import FontError, InputError, RefusedError
from engine.model.settings import Lettering
from engine.service import deciding, setting_titles
from engine.service.results import Legibility, LogoReport, Proposal, Wording
from engine.service.session import Bench


class Titles(Bench):
    """Titles on edges."""

    def titles(self, ids: Sequence[str] | None = None, *, helps: bool = True) -> Legibility:
        """Return which titles of some games, or of all, do not read from the shelf's distance.

        What would help is worked out where ``helps`` says so. Raises InputError.
        """
        with self._lock:
            snapshot = self._snapshot
            games = snapshot.games
            if ids is not None:
                games = {game.id: game for game in map(snapshot.game, ids)}
            reader = Reader(snapshot.proposer.titler, snapshot.casing, self._kinds)
            return reader.report(games, helps=helps)

    def font_name(self) -> str:
        """Return what the font that titles are proposed in calls itself."""
        with self._lock:
            known = lettering.facts(self._snapshot.proposer.titler.fonts.font)
            return " ".join(filter(None, (known.family, known.style)))

    def fonts(self, words: str = "") -> tuple[tuple[str, int, str], ...]:
        """Return usable fonts whose name has all of ``words``: file, face and name, best first.

        Those of installed font packages and of the machine; or those of the one file that the
        words are the path of.
        """
        file = Path(words.strip()).expanduser()
        if words.strip() and file.is_file():
            try:
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
        with self._lock:
            return columns.columns(self._snapshot.games.values())

    def wordings(self, game: str) -> tuple[Wording, ...]:
        """Return a game's title, then what it may be abridged to, step by step."""
        with self._lock:
            found = self._snapshot.game(game)
            net = self._snapshot.casing.net_of(found)
            return self._snapshot.proposer.titler.wordings(found, net)

    def change_wording(self, game: str, text: str) -> Proposal:
        """Take one of a game's wordings for all its edges, broken and sized as proposals are.

        Raises InputError for words that are none of them.
        """
        with self._lock:
            found = self._snapshot.game(game)
            wordings = self.wordings(game)
            if text not in {one.text for one in wordings}:
                listed = "; ".join(one.text for one in wordings)
                raise InputError(text, f"is no wording of {found.title}", f"They are {listed}")
            net = self._snapshot.casing.net_of(found)
            edges = self._snapshot.proposer.titler.reworded(found, net, text)
            return self._take(found, edges)

    def next_wording(self, game: str) -> Proposal:
        """Take the wording after the present one, after the last the whole title again.

        Raises RefusedError where there is no other.
        """
        with self._lock:
            wordings = self.wordings(game)
            now = next((at for at, one in enumerate(wordings) if one.now), -1)
            if len(wordings) < 2 and now == 0:
                title = self._snapshot.game(game).title
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
        with self._lock:
            found = self._snapshot.game(game)
            picture = msgspec.structs.replace(
                artwork.inspect(logo, logo.name), name=self._collection.add_picture(logo)
            )
            if picture.name not in self._collection.pictures:
                self._collection.record(f"took in {logo.name}", pictures=[picture])
                self._renew()
            net = self._snapshot.casing.net_of(found)
            edges, words = self._snapshot.proposer.titler.with_logo(
                found, net, picture, share, alone=alone
            )
            return LogoReport(proposal=self._take(found, edges), words=words)

    def set_lettering(
        self, *, font: Path | None = None, face: int = 0, usual_font: bool = False, **fields: object
    ) -> Lettering:
        """Change how titles are set; see ``setting_titles.changed`` for the ``fields``.

        ``font`` is a font file, of which ``face`` is taken, and copied into the collection;
        ``usual_font`` goes back to the one that ships. What was accepted stays as it is.
        Raises FontError, InputError, CaseError or CollectionError.
        """
        with self._lock:
            settings = self._snapshot.settings
            games = self._snapshot.games.values()
            new = setting_titles.changed(settings.lettering, self._kinds, games, fields)
            if font is not None:
                new = msgspec.structs.replace(new, font=self._font(font, face))
            elif usual_font:
                new = msgspec.structs.replace(new, font=None)
            if new != settings.lettering:
                changed = msgspec.structs.replace(settings, lettering=new)
                self._collection.record("changed the lettering", settings=changed)
                self._renew()
            return new

    def _take(self, game: Game, edges: tuple[EdgeTitle, ...]) -> Proposal:
        """Take these titles as a game's own."""
        present = self._snapshot.proposal(game.id)
        by = self._column_of(present)
        return self._decide(deciding.change_title(game, present.design, edges, self._now(), by))

    def _font(self, path: Path, face: int) -> FontRef:
        """Copy a font file into the collection; return it as designs carry it."""
        usable = lettering.choose_font(path, face)
        weighted = lettering.weighted(lettering.facts(usable))
        return FontRef(self._collection.add_font(path), face, weighted.axes)

"""One person's work by typed lines: what is at hand, what was asked, and what a line does.

What is typed is a word of ``tui.plain.vocabulary``, or any command of the command line with what
it takes.
"""

from __future__ import annotations

import shlex
from collections.abc import Callable, Iterable, Mapping, Sequence
from difflib import get_close_matches
from pathlib import Path

from engine import Finder, InputError, Proposal, SpineryError, Workshop, open_workshop
from tui.aloud import aloud
from tui.plain.sheetwork import AtSheet
from tui.plain.telling import game_lines
from tui.plain.vocabulary import ALONE, FOLLOWS, GAMES_TAKEN, WORDS
from tui.plain.word import Word
from tui.words import count

Tell = Callable[[str], object]
RunCommand = Callable[[Sequence[str], Workshop | None], int]
"""Runs a command of the command line on a collection that is open, or on one that it opens."""
Then = Callable[[], None]

YES = "yes"
"""The answer that lets what was asked be done."""


class Leave(Exception):  # noqa: N818  nothing went wrong
    """The person wants to go."""


class Desk:
    """One person's work on one collection. It closes the workshop in ``close``."""

    def __init__(
        self, folder: Path, tell: Tell, command: RunCommand, commands: Mapping[str, str]
    ) -> None:
        """Tell what comes of it by ``tell``; other commands are run by ``command``.

        ``commands`` are those that there are, by name, with what each does. Raises what opening
        the collection raises.
        """
        self._folder = folder
        self._tell = tell
        self._command = command
        self.commands = commands
        self._shop: Workshop | None = None
        self.at = ""
        """The game that the person is at; empty for none."""
        self.marks: tuple[str, ...] = ()
        """The games marked, in the order in which they were."""
        self.finder = Finder()
        self.listed: tuple[str, ...] = ()
        """The games that were listed last, which are named by their numbers then."""
        self.pictures: tuple[str, ...] = ()
        """The names of the pictures that were listed last."""
        self.sheet = AtSheet()
        self._for: tuple[str, ...] | None = None
        """The games that the present line is for, where that is not the one at hand."""
        self._asked: Then | None = None
        self._gather: Callable[[str], None] | None = None
        self._gathered: list[str] = []
        self.say(self.shop.notes)

    @property
    def shop(self) -> Workshop:
        """The collection, opened when it is asked for."""
        if self._shop is None:
            self._shop = open_workshop(self._folder)
        return self._shop

    def close(self) -> None:
        """Let go of the collection."""
        if self._shop is not None:
            self._shop.close()
            self._shop = None

    # --- telling and asking --------------------------------------------------------------------

    def say(self, lines: Iterable[str] | str) -> None:
        """Tell lines as they are said."""
        for line in aloud([lines] if isinstance(lines, str) else lines):
            self._tell(line)

    def ask(self, lines: Iterable[str], then: Then) -> None:
        """Tell what would be done, and do it once the person says yes."""
        self.say(lines)
        self.say(f"Type {YES} to do it; anything else leaves all as it is.")
        self._asked = then

    def gather(self, then: Callable[[str], None]) -> None:
        """Take the next lines as text, until an empty one."""
        self._gather, self._gathered = then, []

    def greet(self) -> None:
        """Tell where things stand, and the first game."""
        progress = self.shop.progress()
        stages = [f"{number} {stage}" for stage, number in progress.stages.items() if number]
        games = f"{count(progress.games, 'game')}: {', '.join(stages)}"
        self.say(f"{self.shop.name}: {games if progress.games else 'no games yet'}.")
        self.say("Type a word and Enter. help lists the words.")
        if progress.games:
            self.go_on()
        else:
            self.say("start tells the first steps, from the list of games on.")

    # --- what was typed ------------------------------------------------------------------------

    def answer(self, typed: str) -> None:
        """Do what was typed, line by line, and tell what came of it. Raises Leave."""
        for line in typed.splitlines() or [""]:
            try:
                self._answer(line.strip())
            except SpineryError as error:
                self.say(str(error))

    def _answer(self, line: str) -> None:
        if self._gather is not None:
            self._take_text(line)
            return
        asked, self._asked = self._asked, None
        if asked is not None:
            if line.casefold() == YES:
                asked()
                return
            self.say("Left as it is.")
        elif not line:
            self.say("Type a word, such as accept or skip; help lists them.")
        if line and not (asked and line.casefold() in {"no", "n"}):
            self.do(line)

    def _take_text(self, line: str) -> None:
        if line:
            self._gathered.append(line)
        elif self._gather is not None:
            then, self._gather = self._gather, None
            then("\n".join(self._gathered))

    def do(self, line: str) -> None:
        """Do a word or a command with what is behind it. Raises InputError for neither."""
        name, _, rest = line.removeprefix("spinery ").strip().partition(" ")
        if name in WORDS:
            WORDS[name].do(self, rest.strip())
        elif name in self.commands and "--help" in rest.split():
            WORDS["help"].do(self, name)
        elif name in self.commands:
            self.run([name, *_parted(rest)])
        else:
            meant = get_close_matches(name, [*WORDS, *self.commands], n=1)
            mend = f"Did you mean {meant[0]}? " if meant else ""
            raise InputError(name, "no such word", f"{mend}help lists them")

    def do_to_marked(self, line: str) -> None:
        """Do a word or a command to all marked games, once the person knows how many they are."""
        name, _, rest = line.partition(" ")
        word, games = WORDS.get(name), self.marked
        if not games:
            raise InputError("", "No game is marked", "mark marks one")
        if not (word and word.many) and name not in GAMES_TAKEN:
            able = ", ".join((*(w.name for w in WORDS.values() if w.many), *GAMES_TAKEN))
            raise InputError(name or "marked", "is not for several games", f"These are: {able}")

        def then() -> None:
            self._for = games
            try:
                self._do_to_many(word, name, rest)
            finally:
                self._for = None

        self.ask([f"{name.capitalize()}: {count(len(games), 'game')} marked."], then)

    def _do_to_many(self, word: Word | None, name: str, rest: str) -> None:
        if word and word.many:
            word.do(self, rest.strip())
        else:
            self.run([name, *_parted(rest), *self.targets])

    def run(self, words: Sequence[str]) -> int:
        """Run a command of the command line.

        One for games is for the one at hand where it names none. Return its exit code.
        """
        given = list(words)
        if len(given) == GAMES_TAKEN.get(given[0], 0):
            given += self.targets
        if given[0] in ALONE:
            self.close()
        shop = None if given[0] in ALONE else self.shop
        code = self._command([*given, "--collection", str(self._folder)], shop)
        if given[0] in FOLLOWS and not code:
            self.say(FOLLOWS[given[0]])
        if self.at and self.at not in {line.id for line in self.shop.games.lines()}:
            self.at = ""
        return code

    # --- the games at hand ---------------------------------------------------------------------

    @property
    def present(self) -> str:
        """The game at hand. Raises InputError where there is none."""
        if not self.at:
            raise InputError("", "There is no game to do that to", "next brings a batch")
        return self.at

    @property
    def marked(self) -> tuple[str, ...]:
        """The games marked that are still there."""
        there = {line.id for line in self.shop.games.lines()} if self.marks else set()
        return tuple(game for game in self.marks if game in there)

    @property
    def targets(self) -> tuple[str, ...]:
        """The games that the present line is for."""
        return (self.present,) if self._for is None else self._for

    @property
    def is_for_many(self) -> bool:
        """Whether the present line is for all marked games."""
        return self._for is not None

    @property
    def batch(self) -> tuple[str, ...]:
        """Today's batch."""
        return self.shop.batch.games()

    @property
    def kinds(self) -> dict[str, str]:
        """The names of the case kinds by id."""
        return self.shop.kinds.names()

    def proposal(self) -> Proposal:
        """Return the game at hand as it would be printed now. Raises InputError."""
        return self.shop.designs.proposal(self.present)

    def tell_game(self) -> None:
        """Tell the game at hand, or of how many games it was done."""
        if self.is_for_many:
            self.say(f"Done for {count(len(self.targets), 'game')}.")
            return
        batch = self.batch
        place = (
            f"Game {batch.index(self.at) + 1} of {len(batch)}: " if self.present in batch else ""
        )
        self.say(game_lines(self.proposal(), place, self.kinds))

    def open_games(self) -> list[str]:
        """Return the games of the batch that wait for a decision, from the present one on."""
        batch = self.batch
        start = batch.index(self.at) + 1 if self.at in batch else 0
        around = (*batch[start:], *batch[:start])
        return [game for game in around if self.shop.designs.proposal(game).undecided]

    def go_on(self) -> None:
        """Go to the next game that waits for a decision, or say what comes of the batch."""
        if game := next(iter(self.open_games()), ""):
            self.at = game
            self.tell_game()
            return
        self.at = ""
        if self.batch:
            self.say("All games of the batch are decided.")
        left = sum(line.undecided for line in self.shop.games.lines())
        self.say(
            f"{count(left, 'game')} left: next brings a batch. press writes the full sheets."
            if left
            else "No game is left to decide. press writes the full sheets."
        )


def _parted(rest: str) -> list[str]:
    try:
        return shlex.split(rest)
    except ValueError:  # a quote that is not closed: an apostrophe in a title
        return rest.split()

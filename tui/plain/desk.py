"""The work on games by typed lines: the batch is told game by game, and each is answered.

What is typed is one of the words below, or any command of the command line with what it takes.
"""

from __future__ import annotations

import shlex
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from engine import Art, Decision, InputError, Proposal, SpineryError, Workshop, open_workshop
from tui.plain.telling import decision_lines, doubt_lines, game_lines
from tui.words import count, outlook_words

Tell = Callable[[str], object]
RunCommand = Callable[[list[str]], int]


class Leave(Exception):  # noqa: N818  nothing went wrong
    """The person wants to go."""


WORDS = {
    "accept": "",
    "sure": "",
    "skip": "",
    "back": "",
    "again": "",
    "art": "",
    "plain": "",
    "pictures": "WORDS",
    "picture": "NUMBER",
    "colour": "#rrggbb",
    "title": "TEXT",
    "reword": "",
    "case": "KIND",
    "reopen": "",
    "drop": "",
    "next": "",
    "game": "TITLE",
    "help": "",
    "quit": "",
}
"""What can be typed, and what is typed behind it. The method of each says what it does."""

LISTED = 9
"""Pictures that are listed at a time."""


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
        self._commands = commands
        self._shop: Workshop | None = None
        self._at = ""
        self._found: tuple[tuple[str, str], ...] = ()
        """The pictures last listed, by name with their file names."""
        for note in self.shop.notes:
            tell(note)

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

    def greet(self) -> None:
        """Tell where things stand, and the first game."""
        progress = self.shop.progress()
        stages = ", ".join(f"{number} {stage.value}" for stage, number in progress.stages.items())
        self._tell(f"{self.shop.name}: {count(progress.games, 'game')}: {stages}.")
        self._tell("Type a word and Enter. help lists the words.")
        self._go_on()

    def answer(self, line: str) -> None:
        """Do what was typed, and tell what came of it. Raises Leave."""
        name, _, rest = line.strip().partition(" ")
        if not name:
            self._tell("Type a word, such as accept or skip; help lists them.")
            return
        try:
            if name in WORDS:
                getattr(self, f"do_{name}")(rest.strip())
            else:
                self._run_command(line)
        except SpineryError as error:
            self._tell(str(error))

    # --- where the person is -----------------------------------------------------------------

    @property
    def _batch(self) -> tuple[str, ...]:
        return self.shop.batch.games()

    @property
    def _present(self) -> str:
        if not self._at:
            raise InputError("", "There is no game to do that to", "next brings a batch")
        return self._at

    def _tell_game(self) -> None:
        batch = self._batch
        in_batch = self._present in batch
        place = f"Game {batch.index(self._at) + 1} of {len(batch)}: " if in_batch else ""
        for line in game_lines(self.shop.designs.proposal(self._at), place, self._kinds):
            self._tell(line)

    def _tell_changed(self, game: Proposal, decision: Decision) -> None:
        """Tell a decision of a game that was changed, and what is in doubt now."""
        for line in (*decision_lines(game, decision, self._kinds), *doubt_lines(game)):
            self._tell(line)

    @property
    def _kinds(self) -> dict[str, str]:
        return self.shop.kinds.names()

    def _open_games(self) -> Iterator[str]:
        """Yield the games of the batch that wait for a decision, from the present one on."""
        batch = self._batch
        start = batch.index(self._at) + 1 if self._at in batch else 0
        for game in (*batch[start:], *batch[:start]):
            if self.shop.designs.proposal(game).undecided:
                yield game

    def _go_on(self) -> None:
        """Go to the next game that waits for a decision, or say what comes of the batch."""
        game = next((one for one in self._open_games()), "")
        if game:
            self._at = game
            self._tell_game()
            return
        self._at = ""
        if self._batch:
            self._tell("All games of the batch are decided.")
        left = sum(line.undecided for line in self.shop.games.lines())
        self._tell(
            f"{count(left, 'game')} left: next brings a batch. press writes the full sheets."
            if left
            else "No game is left to decide. press writes the full sheets."
        )

    # --- the words, a method each ------------------------------------------------------------

    def do_accept(self, _: str) -> None:
        """Accept all that is proposed for the game, and go to the next."""
        report = self.shop.designs.accept([self._present])
        self._tell("Accepted.")
        for note in report.notes:
            self._tell(note)
        self._go_on()

    def do_sure(self, _: str) -> None:
        """Accept all games of the batch that are sure, and go to the first of the others."""
        report = self.shop.designs.accept(tuple(self._open_games()), sure_only=True)
        self._tell(f"{count(len(report.accepted), 'game')} accepted, {len(report.left)} in doubt.")
        self._at = ""
        self._go_on()

    def do_skip(self, _: str) -> None:
        """Leave the game for later, and go to the next."""
        skipped = self._present
        self._go_on()
        if self._at == skipped:
            self._tell("No other game of the batch waits for a decision.")

    def do_back(self, _: str) -> None:
        """Go to the game before."""
        batch = self._batch
        place = batch.index(self._at) if self._at in batch else len(batch)
        if not place:
            raise InputError("", "This is the first game of the batch", "skip goes on")
        self._at = batch[place - 1]
        self._tell_game()

    def do_again(self, _: str) -> None:
        """Tell the game once more."""
        self._tell_game()

    def do_art(self, _: str) -> None:
        """Fit the art in the next way."""
        self._tell_changed(self.shop.art.next_fit(self._present), Decision.ART)

    def do_plain(self, _: str) -> None:
        """Use no picture."""
        changed = self.shop.designs.change_art(self._present, Art())
        self._tell_changed(changed, Decision.ART)

    def do_pictures(self, words: str) -> None:
        """List pictures that are like some words, or like the title."""
        wanted = words or self.shop.designs.proposal(self._present).title
        self._found = self.shop.games.pictures(wanted)[:LISTED]
        for number, (_, source) in enumerate(self._found, start=1):
            self._tell(f"{number}: {source}")
        self._tell("picture and a number takes one." if self._found else "No picture is like it.")

    def do_picture(self, rest: str) -> None:
        """Take a picture of the list by its number."""
        if not rest.isdecimal() or not 1 <= int(rest) <= len(self._found):
            what = "is no number of the list"
            raise InputError(rest or "picture", what, "pictures WORDS lists them")
        changed = self.shop.designs.swap_picture(self._present, self._found[int(rest) - 1][0])
        self._tell_changed(changed, Decision.ART)

    def do_colour(self, rest: str) -> None:
        """Set the base colour; with nothing behind it, list those that suit."""
        if rest:
            changed = self.shop.designs.change_colour(self._present, rest)
            self._tell_changed(changed, Decision.COLOUR)
            return
        for choice in self.shop.colours.choices(self._present):
            self._tell(f"{choice.base}: {choice.words}")

    def do_title(self, rest: str) -> None:
        """Set the title on the edges; a slash begins a new line."""
        if not rest:
            raise InputError("title", "nothing is said", "Type the title behind it")
        changed = self.shop.designs.change_title(self._present, rest)
        self._tell_changed(changed, Decision.TITLE)

    def do_reword(self, _: str) -> None:
        """Word the title in the next shorter way."""
        self._tell_changed(self.shop.titles.next_wording(self._present), Decision.TITLE)

    def do_case(self, rest: str) -> None:
        """Put the game in another kind of case; with nothing behind it, list the kinds."""
        if rest:
            self.shop.designs.change_cases([self._present], rest)
            self._tell_game()
            return
        for kind, name in self._kinds.items():
            self._tell(f"{kind}: {name}")

    def do_reopen(self, _: str) -> None:
        """Take back what was accepted for the game."""
        self.shop.designs.reopen([self._present])
        self._tell_game()

    def do_drop(self, _: str) -> None:
        """Take the game out of the batch, and go to the next."""
        gone = self._present
        self._at = next((one for one in self._open_games() if one != gone), "")
        self.shop.batch.drop([gone])
        self._tell("Dropped from the batch.")
        if self._at:
            self._tell_game()
        else:
            self._go_on()

    def do_next(self, _: str) -> None:
        """Bring the next batch, chosen so that sheets fill."""
        self._tell("Choosing games.")
        games = self.shop.batch.bring_next()
        self._tell(f"The batch holds {count(len(games), 'game')}.")
        self._tell(outlook_words(self.shop.batch.outlook()))
        self._at = ""
        self._go_on()

    def do_game(self, rest: str) -> None:
        """Go to any game by its id or the beginning of its title."""
        self._at = self.shop.designs.proposal(rest).game
        self._tell_game()

    def do_help(self, _: str) -> None:
        """List these words, and the commands."""
        for name, takes in WORDS.items():
            about = getattr(self, f"do_{name}").__doc__
            self._tell(f"{name}{takes and f' {takes}'}: {about}")
        self._tell("Commands, each with what it takes behind its name, and --help for that:")
        for name, summary in self._commands.items():
            self._tell(f"{name}: {summary[0].upper()}{summary[1:]}.")

    def do_quit(self, _: str) -> None:
        """Leave; everything is saved already."""
        raise Leave

    # --- commands ----------------------------------------------------------------------------

    def _run_command(self, line: str) -> None:
        """Run a command of the command line, which opens the collection by itself."""
        try:
            words = shlex.split(line)
        except ValueError:  # a quote that is not closed: an apostrophe in a title
            words = line.split()
        if words[0] not in self._commands:
            raise InputError(words[0], "no such word", "help lists them")
        if words == ["fit"]:
            words.append(self._present)
        self.close()
        self._command([*words, "--collection", str(self._folder)])
        if self._at and self._at not in {line.id for line in self.shop.games.lines()}:
            self._at = ""

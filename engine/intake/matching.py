"""Which pictures belong to which title.

A file's name and the lettering on the picture both tell. A confidence of 1 says that file and title
are the same name; 0.85 and more that every word of one has its partner in the other, numbers
included, or that the cover says the title large and plainly, and that no other file or title comes
close. Below, a word stands alone, letters differ, name and cover are at odds, or another is nearly
as good: the person is asked. Names whose numbers differ are never matched.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from engine.intake.assignment import Likenesses, assign
from engine.intake.candidates import NameReadings, like_words, same_words
from engine.intake.evidence import SAYS, Evidence, Told
from engine.intake.likeness import likeness
from engine.intake.order import by_order
from engine.intake.readings import NameReading, habits_of, read_file, read_title
from engine.intake.saying import Saying, Shown
from engine.intake.scripts import is_foreign
from engine.intake.sides import side_named, side_of
from engine.intake.titles import title_key
from engine.model import PictureRole

LEAST = 0.5
"""Below this a picture is not even proposed."""
CLOSE = 0.1
"""A rival within this of the best makes the choice less sure."""
RIVALRY = 2.0
"""By how much a rival's closeness lowers it: one just as good takes 0.2."""
BELONGS = 0.8
"""From this on a picture that is not a title's main one is one of its others."""


class FileMatch(NamedTuple):
    """A picture found for a title."""

    file: str
    """As it was given."""
    at: int
    """Its place among those given."""
    confidence: float
    """0 to 1: what the module says of it."""
    words: str = ""
    """What speaks for it, part of a sentence."""
    role: PictureRole = PictureRole.FRONT
    """The side that it shows."""
    sides: tuple[FileMatch, ...] = ()
    """The title's pictures besides, the surest first."""


def match_pictures(
    titles: Mapping[str, str],
    files: Sequence[str],
    shown: Sequence[Shown] = (),
    fixed: Mapping[str, int] | None = None,
) -> dict[str, FileMatch]:
    """Return the file for each id of ``titles`` (id to title, in list order) that has one.

    ``files`` are names or paths; the earlier goes first among equals, so give them in
    natural order. ``shown`` tells what is known of the picture in each of them; ``fixed`` the
    place of the file that a person chose, by id, which stays. The whole is settled at once: as
    many same names as can be, then the highest total. A file serves one title, or several
    titles that are the same.
    """
    keys = {game: title_key(title) for game, title in titles.items()}
    one_of = {keys[game]: title for game, title in titles.items()}
    numbers = {key: number for number, key in enumerate(one_of)}
    settled = {numbers[keys[game]]: file for game, file in (fixed or {}).items()}
    board = _Board(tuple(one_of.values()), files, shown or [None] * len(files), settled)
    chosen = assign(board.scores)
    sure = _confidences(board, chosen)
    sides = _sides(board, chosen)
    return {
        game: board.match(number, chosen[number], sure[number])._replace(
            sides=tuple(board.match(number, file, score) for file, score in sides[number])
        )
        for game, key in keys.items()
        if (number := numbers[key]) in chosen
    }


class _Board:
    """What speaks for each pair of a title and a file, both by number."""

    def __init__(
        self,
        titles: Sequence[str],
        files: Sequence[str],
        shown: Sequence[Shown | None],
        fixed: Mapping[int, int],
    ) -> None:
        habits = habits_of(files, foreign=any(map(is_foreign, titles)))
        foreign = any(map(is_foreign, files))
        read = [read_title(title, foreign=foreign) for title in titles]
        ways = [read_file(file, habits) for file in files]
        names = _named(read, ways)
        saying = Saying(read)
        said = {
            at: found
            for at, one in enumerate(shown)
            if one is not None and (found := saying.said(one))
        }
        self._titles = titles
        self._files = files
        self._shown = shown
        self._ways = ways
        self._named_side = {
            (title, file): side_named([way])
            for title, found in names.items()
            for file, (_, way) in found.items()
        }
        scores = {title: {f: one[0] for f, one in found.items()} for title, found in names.items()}
        self.evidence = Evidence(titles, scores, said, _placed(files, len(titles), said))
        taken = set(fixed.values())
        self.scores: dict[int, dict[int, float]] = {
            title: {
                file: told.score
                for file, told in self.evidence.of(title).items()
                if told.score >= LEAST and file not in taken
            }
            for title in range(len(titles))
        }
        self.scores |= {title: {file: 1.0} for title, file in fixed.items()}

    def side(self, title: int, file: int) -> PictureRole:
        """Return the side of a title's game that a file shows."""
        pair = title, file
        known = self._named_side
        named = known[pair] if pair in known else side_named(self._ways[file])
        return side_of(named, self._shown[file])

    def same(self, one: int, other: int) -> bool:
        """Return whether two files have the same content."""
        a, b = self._shown[one], self._shown[other]
        return a is not None and b is not None and a.content == b.content != ""

    def match(self, title: int, file: int, confidence: float) -> FileMatch:
        """Return a pair as it is told."""
        told: Told | None = self.evidence.of(title).get(file)
        words = told.words if told else ""
        if told and told.score - confidence >= CLOSE / 2:
            words += ", but another comes close"
        return FileMatch(
            self._files[file], file, round(confidence, 4), words, self.side(title, file)
        )


def _placed(
    files: Sequence[str], titles: int, said: Mapping[int, Mapping[int, float]]
) -> dict[int, dict[int, float]]:
    """Return what files that are numbered in the order of the list are worth, by title."""
    plainly = {
        file: best
        for file, found in said.items()
        if found[best := max(found, key=lambda title: (found[title], -title))] >= SAYS
    }
    return by_order(files, titles, plainly)


_Named = dict[int, dict[int, tuple[float, NameReading]]]
"""For each title the files that are named like it: the likeness, and how the file is read."""


def _named(titles: NameReadings, files: NameReadings) -> _Named:
    """Return the likeness of every title and file that come into question for each other."""
    pairs = same_words(titles, files)
    scores = {title: _judged(titles[title], files, pairs[title]) for title in pairs}
    unsure = [
        title for title, found in scores.items() if 1.0 not in (one[0] for one in found.values())
    ]
    for title, found in like_words(titles, files, unsure).items():
        scores[title] |= _judged(titles[title], files, found)
    return scores


def _judged(
    title: Sequence[NameReading], files: NameReadings, found: Collection[int]
) -> dict[int, tuple[float, NameReading]]:
    best = {
        file: max(
            ((likeness(way, other), other) for way in title for other in files[file]),
            key=lambda pair: pair[0],
        )
        for file in found
    }
    return {file: pair for file, pair in best.items() if pair[0] >= LEAST}


def _confidences(board: _Board, chosen: Mapping[int, int]) -> dict[int, float]:
    """Return how sure each choice is: its likeness, less what its closest rival takes from it."""
    scores = board.scores
    asking = _asking(scores)
    holder = {file: title for title, file in chosen.items()}

    def rivals(title: int) -> Iterator[float]:
        """Yield the likeness of each other pairing that nothing better explains."""
        mine = chosen[title]
        for file, score in scores[title].items():
            other = holder.get(file)
            if (
                other != title
                and (other is None or scores[other][file] <= score)
                and board.side(title, file) is board.side(title, mine)
                and not board.same(file, mine)
            ):
                yield score
        for other in asking[mine]:
            score = scores[other][mine]
            if other != title and (other not in chosen or scores[other][chosen[other]] <= score):
                yield score

    return {title: _lowered(scores[title][file], rivals(title)) for title, file in chosen.items()}


def _sides(board: _Board, chosen: Mapping[int, int]) -> dict[int, list[tuple[int, float]]]:
    """Return for each title the pictures that nobody has and that are surely its own."""
    found: dict[int, list[tuple[int, float]]] = defaultdict(list)
    held = set(chosen.values())
    for file, titles in _asking(board.scores).items():
        best, *rest = sorted(titles, key=lambda title: -board.scores[title][file])
        score = board.scores[best][file]
        rival = board.scores[rest[0]][file] if rest else 0.0
        if file not in held and best in chosen and score >= BELONGS and score - rival >= CLOSE / 2:
            found[best].append((file, score))
    for some in found.values():
        some.sort(key=lambda pair: (-pair[1], pair[0]))
    return found


def _asking(scores: Likenesses) -> dict[int, list[int]]:
    """Return for each file the titles that it comes into question for."""
    asking: dict[int, list[int]] = defaultdict(list)
    for title, files in scores.items():
        for file in files:
            asking[file].append(title)
    return asking


def _lowered(score: float, rivals: Iterable[float]) -> float:
    closest = max(rivals, default=0.0)
    if score >= 1.0 > closest:  # the very name: what is only like it is no rival
        return score
    return max(score - RIVALRY * max(CLOSE - (score - closest), 0.0), 0.0)

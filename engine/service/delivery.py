"""A list and a folder of pictures become games of the collection, in one change."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

import msgspec

from engine import artwork, intake
from engine.artwork import Progressing
from engine.cases import CaseKind
from engine.cases.library import find_kind, known_kind
from engine.collection.copying import content_name
from engine.collection.exporting import Exported
from engine.intake import GameList, ListRow
from engine.model import Accepted, Game, Picture, SidePicture, Value
from engine.model.errors import InputError, PictureError
from engine.model.picturekinds import KINDS_IN_WORDS
from engine.model.waiting import Cancel
from engine.service import exporting, pairing
from engine.service.session import Session
from engine.state import Records

AT_MOST_NAMED = 5
"""Broken pictures named in one sentence; the rest are counted."""


class IntakeReport(Value, frozen=True):
    """What a list and a folder of pictures brought."""

    added: int
    known: int
    """Games of the list that the collection already had."""
    matched: int
    """Games whose picture was found above the threshold."""
    doubtful: int
    """Games whose picture is to be confirmed."""
    bare: int
    """Games without a picture."""
    notes: tuple[str, ...] = ()
    """Rows and pictures that could not be used, a sentence each."""


class Delivery(NamedTuple):
    """A list and pictures, looked at from end to end, before anything is taken in."""

    name: str
    """The list's file name."""
    games: GameList
    paths: Mapping[str, Path] = {}
    """Picture files by their path within their folder."""
    pictures: Mapping[str, Picture] = {}
    """What was found in those that can be opened, each named by its content."""
    notes: tuple[str, ...] = ()
    """Pictures that were passed over, a sentence each."""
    whole: Exported | None = None
    """A whole collection that was exported; then there is nothing else."""
    beside: Path = Path()
    """The folder of such an export."""


def unpack(
    list_file: Path,
    pictures: Path | None = None,
    *,
    known: Iterable[Picture] = (),
    skip_broken: bool = False,
    progress: Progressing | None = None,
    cancel: Cancel | None = None,
) -> Delivery:
    """Read a list, and every picture of a folder if one is given; write nothing.

    What was found in the ``known`` pictures, named by their content as a collection names
    them, is taken over where a file has the same content: only the others are opened.
    A picture that cannot be opened refuses the whole delivery, so that nothing stops
    half-way, unless ``skip_broken`` passes it over. Raises ListError, PictureError,
    InputError, or Cancelled when ``cancel`` says so.
    """
    if list_file.is_dir() and (list_file / exporting.JSON).is_file():
        list_file = list_file / exporting.JSON
    whole = exporting.unpack(list_file)
    if whole is not None:
        return Delivery(list_file.name, GameList(()), whole=whole, beside=list_file.parent)
    games = intake.read_list(list_file)
    paths = _picture_files(pictures)
    seen = _look(paths, known, progress, cancel)
    broken = [error for error in seen.values() if isinstance(error, PictureError)]
    if broken and not skip_broken:
        raise _refusal(broken)
    return Delivery(
        name=list_file.name,
        games=games,
        paths=paths,
        pictures={source: p for source, p in seen.items() if isinstance(p, Picture)},
        notes=tuple(str(error) for error in broken),
    )


def take_in(session: Session, delivery: Delivery, case: str) -> IntakeReport:
    """Take a delivery into the collection as one change; return what came of it.

    Games that the collection has already are left as they are, but for a picture where
    they had none. An export of a whole collection is taken into an empty one, as it was.
    ``case`` is the kind, by id or name, of games whose row does not say.
    Raises CaseError or CollectionError.
    """
    if delivery.whole is not None:
        exporting.take_in(session, delivery.whole, delivery.beside)
        present = session.snapshot.recorded
        return _report(present, [*present.games.values()], present.games, len(present.games), ())
    with session.change(f"took in {delivery.name}"):
        wanted = known_kind(session.kinds, case) if case else ""
        notes = [*delivery.games.notes, *delivery.notes]
        present = session.snapshot.recorded
        added = _new_games(
            present.games.values(),
            delivery.games.rows,
            session.kinds,
            wanted,
            session.now(),
            notes,
        )
        stored = _named_by_all(
            present.pictures,
            {
                source: msgspec.structs.replace(
                    picture, name=session.files.picture(delivery.paths[source])
                )
                for source, picture in delivery.pictures.items()
            },
        )
        there = present.pictures.keys() | stored.keys()
        exact = {row.known.id for row in delivery.games.rows if row.known}
        added = [_with_pictures(game, there, notes) if exact else game for game in added]
        games = (*present.games.values(), *added)
        pictures = {**present.pictures, **stored} if stored else {}
        found = pairing.paired(games, pairing.files_of(pictures.values()))
        waiting = [
            game
            for game in games
            if game.accepted.art is None and game.match is None and game.id not in exact
        ]
        matched = {game.id: found[game.id] for game in waiting if found[game.id].match is not None}
        changed = [matched.get(game.id, game) for game in added]
        changed += [game for game in matched.values() if game.id in present.games]
        changed += _with_sides(present.games, matched, found) if stored else []
        fresh = [
            picture for picture in stored.values() if present.pictures.get(picture.name) != picture
        ]
        if changed or fresh:
            session.keep(f"took in {delivery.name}", games=changed, pictures=fresh)
        notes.extend(session.snapshot.too_large)
        return _report(session.snapshot.recorded, added, matched, len(delivery.games.rows), notes)


def _new_games(
    known: Iterable[Game],
    rows: Sequence[ListRow],
    kinds: Mapping[str, CaseKind],
    case: str,
    now: datetime,
    notes: list[str],
) -> list[Game]:
    """Return the games of the rows that are not known yet.

    Two rows with one title are two cartridges; the same list again adds neither.
    """
    games = list(known)
    have = Counter(intake.title_key(game.title) for game in games if not game.labels)
    taken = {game.id for game in games}
    added: list[Game] = []
    for row in rows:
        key = intake.title_key(row.title)
        if have[key] > 0:
            have[key] -= 1
            continue
        if row.known is not None:
            added.append(_as_exported(row.known, taken))
            continue
        kind = find_kind(kinds, row.case) if row.case else case
        if kind is None:
            notes.append(f"Line {row.line}: {row.case} is no case kind, so one is proposed.")
        new_id = intake.game_id(row.title, taken)
        taken.add(new_id)
        added.append(
            Game(
                id=new_id,
                title=row.title,
                added_at=now,
                series=row.series,
                maker=row.maker,
                genre=row.genre,
                year=row.year,
                notes=row.notes,
                case=kind or case,
                extra=row.extra,
            )
        )
    return added


def _as_exported(game: Game, taken: set[str]) -> Game:
    """Return a game of an exported list, under another id where its own is taken."""
    if not game.id or game.id in taken:
        game = msgspec.structs.replace(game, id=intake.game_id(game.title, taken))
    taken.add(game.id)
    return game


def _with_pictures(game: Game, there: Collection[str], notes: list[str]) -> Game:
    """Return a game of an exported list without what rests on pictures that are not there."""
    match = game.match if game.match and game.match.picture in there else None
    sides = tuple(side for side in game.sides if side.picture in there)
    art = game.accepted.art
    names = {*(art.pictures if art else ()), *filter(None, game.accepted.shown.values())}
    accepted = game.accepted if names <= set(there) else Accepted(case=game.accepted.case)
    kept = msgspec.structs.replace(game, match=match, sides=sides, accepted=accepted)
    if kept != game:
        notes.append(f"{game.id}: its picture is not there, so it is open again.")
    return kept


def _picture_files(folder: Path | None) -> dict[str, Path]:
    """Return the picture files of a folder by their path within it. Raises InputError."""
    if folder is None:
        return {}
    if not folder.is_dir():
        raise InputError(str(folder), "is not a folder", "Give the folder that holds the pictures")
    paths = {path.relative_to(folder).as_posix(): path for path in intake.find_pictures(folder)}
    if not paths:
        mend = f"Give the folder that holds them, as {KINDS_IN_WORDS}"
        raise InputError(str(folder), "holds no pictures", mend)
    return paths


def _look(
    paths: Mapping[str, Path],
    known: Iterable[Picture],
    progress: Progressing | None,
    cancel: Cancel | None,
) -> dict[str, Picture | PictureError]:
    """Return what is found in every picture or wrong with it, by path within the folder.

    Those that are known by their content are not opened. Raises Cancelled.
    """
    by_content = {Path(picture.name).stem: picture for picture in known}
    names: dict[str, str] = {}
    for source, path in paths.items():
        with suppress(OSError):  # one that cannot be read is refused below, which says why
            names[source] = content_name(path)
    found: dict[str, Picture | PictureError] = {
        source: by_content[Path(name).stem]
        for source, name in names.items()
        if Path(name).stem in by_content
    }
    rest = {source: path for source, path in paths.items() if source not in found}
    found.update(artwork.inspect_all(rest, progress, cancel))
    return {
        source: msgspec.structs.replace(one, name=names[source], source=source)
        if isinstance(one := found[source], Picture) and source in names
        else one
        for source in paths
    }


def _refusal(broken: Sequence[PictureError]) -> PictureError:
    """Return one error that names the broken pictures."""
    mend = "Replace them or take them out, or add --skip-broken to go on without"
    if len(broken) == 1:
        return PictureError(broken[0].where, broken[0].what, mend.replace("them", "it"))
    named = [f"{e.where} ({e.what})" for e in broken[:AT_MOST_NAMED]]
    more = len(broken) - len(named)
    listed = ", ".join(named) + (f" and {more} more" if more else "")
    return PictureError(f"{len(broken)} pictures", f"cannot be used: {listed}", mend)


def _named_by_all(
    present: Mapping[str, Picture], stored: Mapping[str, Picture]
) -> dict[str, Picture]:
    """Return the pictures of a delivery by name, each with all file names that it came with.

    What is known of those that were there before stays known.
    """
    found: dict[str, Picture] = {}
    for source, picture in stored.items():
        one = found.get(picture.name, present.get(picture.name, picture))
        known = {one.source, *one.names}
        names = one.names if source in known else (*one.names, source)
        found[picture.name] = msgspec.structs.replace(one, names=names)
    return found


def _with_sides(
    present: Mapping[str, Game], matched: Mapping[str, Game], found: Mapping[str, Game]
) -> list[Game]:
    """Return the games that had a picture before and have more of them now."""
    return [
        msgspec.structs.replace(game, sides=sides)
        for key, game in present.items()
        if key not in matched and (sides := _sides(game, found[key])) != game.sides
    ]


def _sides(game: Game, found: Game) -> tuple[SidePicture, ...]:
    """Return a game's pictures besides the one that it has, whichever would be found for it now."""
    match = found.match
    more = (SidePicture(match.picture, match.role, match.confidence),) if match else ()
    mine = {game.match.picture if game.match else "", *(side.picture for side in found.sides)}
    return (*(side for side in more if side.picture not in mine), *_besides(game, found.sides))


def _besides(game: Game, sides: Sequence[SidePicture]) -> list[SidePicture]:
    return [side for side in sides if game.match is None or side.picture != game.match.picture]


def _report(
    recorded: Records,
    added: Sequence[Game],
    matched: Mapping[str, Game],
    rows: int,
    notes: Sequence[str],
) -> IntakeReport:
    """Count what came of an intake."""
    threshold = recorded.settings.threshold
    sure = sum(g.match is not None and g.match.confidence >= threshold for g in matched.values())
    bare = sum(
        game.match is None and game.accepted.art is None and not game.labels
        for game in recorded.games.values()
    )
    return IntakeReport(
        added=len(added),
        known=rows - len(added),
        matched=sure,
        doubtful=len(matched) - sure,
        bare=bare,
        notes=tuple(notes),
    )

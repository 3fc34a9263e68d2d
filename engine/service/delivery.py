"""A list and a folder of pictures become games of the collection, in one change."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Annotated, NamedTuple

import msgspec

from engine import artwork, intake
from engine.artwork import Progressing
from engine.cases import CaseKind
from engine.cases.library import find_kind, known_kind
from engine.collection.copying import content_name
from engine.collection.exporting import Exported
from engine.intake import NO_GAMES, GameList, ListRow
from engine.model import Accepted, Game, Picture, SidePicture, Value
from engine.model.errors import InputError, PictureError
from engine.model.picturekinds import KINDS_IN_WORDS
from engine.model.units import SPREAD
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


class IntakeLook(Value, frozen=True):
    """What a list and a folder of pictures would bring: what was understood, nothing taken."""

    report: Annotated[IntakeReport, SPREAD]
    titles: tuple[str, ...]
    """Of the games that would be added."""
    columns: dict[str, str]
    """The header that each field was found under; empty for a title a line."""
    encoding: str
    """What the text was read as; empty where there is none."""
    sheet: str
    """The sheet of a spreadsheet; empty for a text."""
    pictures: int
    """Pictures that can be opened."""
    to_confirm: tuple[tuple[str, str], ...]
    """Games with a picture that is in doubt: the title, and the picture's file name."""


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


class _Intake(NamedTuple):
    """What a delivery does to a collection."""

    added: Sequence[Game]
    matched: Mapping[str, Game]
    """Games for which a picture was found, by id."""
    games: Sequence[Game]
    """All that differ."""
    pictures: Sequence[Picture]
    """All that differ."""
    notes: Sequence[str]


def unpack(
    listed: Path | GameList | None,
    pictures: Path | None = None,
    *,
    sheet: str = "",
    known: Iterable[Picture] = (),
    skip_broken: bool = False,
    progress: Progressing | None = None,
    cancel: Cancel | None = None,
) -> Delivery:
    """Read a list, and every picture of a folder if one is given; write nothing.

    A list that is read already is taken as it is, and None where pictures come alone; of a
    spreadsheet ``sheet`` is read, see ``read_list``. For ``pictures`` one file may be given, too.
    What was found in the ``known`` pictures, named by their content as a collection names
    them, is taken over where a file has the same content: only the others are opened.
    A picture that cannot be opened refuses the whole delivery, so that nothing stops
    half-way, unless ``skip_broken`` passes it over. Raises ListError, PictureError,
    InputError, or Cancelled when ``cancel`` says so.
    """
    if isinstance(listed, Path):
        if listed.is_dir() and (listed / exporting.JSON).is_file():
            listed = listed / exporting.JSON
        whole = exporting.unpack(listed)
        if whole is not None:
            return Delivery(listed.name, NO_GAMES, whole=whole, beside=listed.parent)
    games = intake.read_list(listed, sheet) if isinstance(listed, Path) else listed
    if games is None:
        games = NO_GAMES
    paths = _picture_files(pictures)
    seen = _look(paths, known, progress, cancel)
    broken = [error for error in seen.values() if isinstance(error, PictureError)]
    if broken and not skip_broken:
        raise _refusal(broken)
    return Delivery(
        name=_name(listed, pictures),
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
        return _report(present, _as_whole(delivery.whole), len(present.games))
    with session.change(f"took in {delivery.name}"):
        wanted = known_kind(session.kinds, case) if case else ""
        brought = {
            source: msgspec.structs.replace(
                picture, name=session.files.picture(delivery.paths[source])
            )
            for source, picture in delivery.pictures.items()
        }
        found = _worked_out(
            session.snapshot.recorded, session.kinds, delivery, brought, (wanted, session.now())
        )
        if found.games or found.pictures:
            session.keep(f"took in {delivery.name}", games=found.games, pictures=found.pictures)
        found = found._replace(notes=[*found.notes, *session.snapshot.too_large])
        return _report(session.snapshot.recorded, found, len(delivery.games.rows))


def look(
    present: Records,
    kinds: Mapping[str, CaseKind],
    delivery: Delivery,
    case: str,
    now: datetime,
) -> IntakeLook:
    """Return what ``take_in`` would bring to what is ``present``. Raises CaseError."""
    wanted = known_kind(kinds, case) if case else ""
    found = (
        _worked_out(present, kinds, delivery, delivery.pictures, (wanted, now))
        if delivery.whole is None
        else _as_whole(delivery.whole)
    )
    recorded = Records(
        {**present.games, **{game.id: game for game in found.games}},
        present.sheets,
        {**present.pictures, **{picture.name: picture for picture in found.pictures}},
        present.settings,
    )
    doubted = [
        (game.title, recorded.pictures[game.match.picture].source)
        for game in found.matched.values()
        if game.match and game.match.confidence < present.settings.threshold
    ]
    return IntakeLook(
        report=_report(recorded, found, len(delivery.games.rows) or len(found.added)),
        titles=tuple(game.title for game in found.added),
        columns=delivery.games.columns,
        encoding=delivery.games.encoding,
        sheet=delivery.games.sheet,
        pictures=len(delivery.pictures),
        to_confirm=tuple(doubted),
    )


def _worked_out(
    present: Records,
    kinds: Mapping[str, CaseKind],
    delivery: Delivery,
    brought: Mapping[str, Picture],
    new: tuple[str, datetime],
) -> _Intake:
    """Return what a delivery does whose pictures are ``brought``, each under its name.

    Games that are ``new`` are in a case kind, where their row does not say, and have a time.
    """
    notes = [*delivery.games.notes, *delivery.notes]
    added = _new_games(present.games.values(), delivery.games.rows, kinds, *new, notes)
    stored = _named_by_all(present.pictures, brought)
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
    fresh = [one for one in stored.values() if present.pictures.get(one.name) != one]
    return _Intake(added, matched, changed, fresh, notes)


def _as_whole(whole: Exported) -> _Intake:
    """Return what an export of a whole collection does to an empty one."""
    matched = {game.id: game for game in whole.games if game.match is not None}
    return _Intake(whole.games, matched, whole.games, whole.pictures, ())


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
    kept = game.found_among(there)
    if not set(game.accepted.pictures) <= set(there):
        kept = msgspec.structs.replace(kept, accepted=Accepted(case=game.accepted.case))
    if kept != game:
        notes.append(f"{game.id}: its picture is not there, so it is open again.")
    return kept


def _picture_files(folder: Path | None) -> dict[str, Path]:
    """Return the picture files of a folder by their path within it. Raises InputError."""
    if folder is None:
        return {}
    if folder.is_file():
        return {folder.name: folder}
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


def _report(recorded: Records, found: _Intake, rows: int) -> IntakeReport:
    """Count what came of an intake."""
    threshold, matched = recorded.settings.threshold, found.matched.values()
    sure = sum(g.match is not None and g.match.confidence >= threshold for g in matched)
    bare = sum(
        game.match is None and game.accepted.art is None and not game.labels
        for game in recorded.games.values()
    )
    return IntakeReport(
        added=len(found.added),
        known=rows - len(found.added),
        matched=sure,
        doubtful=len(matched) - sure,
        bare=bare,
        notes=tuple(found.notes),
    )


def _name(listed: Path | GameList | None, pictures: Path | None) -> str:
    """Return what a delivery is called."""
    if isinstance(listed, Path):
        return listed.name
    return intake.PASTED if listed is not None or pictures is None else pictures.name

"""What next: the games to finish so that the sheets fill, over all papers, and what that brings."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime

from engine import ganging
from engine.cases.casing import Casing
from engine.ganging import Coming, Unfinished
from engine.ganging.papers import Paper, unfinished
from engine.ganging.results import Outlook
from engine.model import Game
from engine.model.waiting import Cancel

_LATER = datetime.max.replace(tzinfo=UTC)


def next_games(
    every: Sequence[Unfinished],
    papers: Sequence[Paper],
    casing: Casing,
    *,
    kept: Sequence[str],
    size: int,
    patience: int,
    cancel: Cancel | None = None,
) -> tuple[str, ...]:
    """Return the batch to work on: ``kept``, and games that with them fill sheets.

    Of ``every`` game that is not finished only those wanted are brought. A batch stays on one
    paper while that has games; the paper of what is kept goes first, then that of the first
    game. Raises Cancelled when ``cancel`` says so.
    """
    queues = {paper.forme.stock.id: paper for paper in papers}
    groups: dict[str, list[Unfinished]] = {}
    for game in every:
        groups.setdefault(casing.stock_of(game.case).id, []).append(game)
    chosen = list(kept)
    for stock, games in groups.items():
        own = [game.key for game in games if game.key in kept]
        room = size - len(chosen) + len(own)
        if room <= len(own) or not any(game.wanted for game in games):
            continue
        batch = ganging.next_batch(
            queues[stock].waiting,
            games,
            queues[stock].forme,
            size=room,
            patience=patience,
            cancel=cancel,
        )
        fresh = [key for key in batch if key not in chosen]
        chosen += fresh[: size - len(chosen)]
    return tuple(chosen)


def outlook(
    batch: Sequence[Game],
    papers: Sequence[Paper],
    casing: Casing,
    patience: int,
    *,
    cancel: Cancel | None = None,
) -> Outlook:
    """Return what comes of finishing the games of a batch, which are in the backlog.

    Raises Cancelled when ``cancel`` says so.
    """
    begun = [unfinished(game, casing) for game in batch]
    full = waits = 0
    for paper in papers:
        own = [g for g in begun if casing.stock_of(g.case).id == paper.forme.stock.id]
        done = [game.finished(_LATER) for game in own]
        queue = [*paper.waiting, *done]
        left = _less(paper.coming, own)
        ganged = ganging.gang(queue, left, paper.forme, patience=patience, cancel=cancel)
        full += len(ganged.ready)
        waits += len(queue) - sum(len(sheet.laid) for sheet in ganged.ready)
    return Outlook(games=len(begun), sheets=full, waits=waits)


def _less(coming: Sequence[Coming], finished: Sequence[Unfinished]) -> list[Coming]:
    """Return what is still coming when some of it is finished."""
    gone = [(game.case, game.width, game.height) for game in finished]
    left = (
        one._replace(count=one.count - gone.count((one.case, one.width, one.height)))
        for one in coming
    )
    return [one for one in left if one.count > 0]

"""Art for the press: drawn by worker processes, kept for whoever asks for the same again."""

from __future__ import annotations

from collections import OrderedDict, deque
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from functools import cache
from pathlib import Path
from threading import Event, Lock

import msgspec

from engine.artwork.rendering import ArtRequest, Laid, lay
from engine.model.errors import PictureError
from engine.model.waiting import Cancel
from engine.workers import Asked, Job, Pool, Reason
from engine.workers.limits import PRINTING

MOST_KEPT = 16_000_000
"""Bytes of JPEG that are kept: A4 full of art at 300 to the inch has 5 million, twice that is at
work at a time (counted on photographs)."""

_Key = tuple[ArtRequest, int, int]


class _Kept:
    """What was drawn last, by what was wanted and the content of the file at that time."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._laid: OrderedDict[_Key, Laid] = OrderedDict()
        self._bytes = 0
        self._lock = Lock()

    def get(self, key: _Key) -> Laid | None:
        with self._lock:
            laid = self._laid.get(key)
            if laid is not None:
                self._laid.move_to_end(key)
            return laid

    def put(self, key: _Key, laid: Laid) -> None:
        with self._lock:
            if key not in self._laid:
                self._laid[key] = laid
                self._bytes += len(laid.data)
            while self._bytes > self._most and len(self._laid) > 1:
                _, gone = self._laid.popitem(last=False)
                self._bytes -= len(gone.data)


_KEPT = _Kept(MOST_KEPT)

_REFUSED: dict[_Key, PictureError] = {}
"""What could not be drawn ahead, until it is asked for: a hostile file takes its time only once."""


def laid(wanted: ArtRequest) -> Laid:
    """Return what ``lay`` does, drawn by a worker process or kept from before.

    Raises PictureError.
    """
    key = _key(wanted)
    found = _KEPT.get(key)
    if found is None:
        if refused := _REFUSED.pop(key, None):
            raise refused
        found = _drawing().ask(Path(wanted.path).name, msgspec.msgpack.encode(wanted))
        _KEPT.put(key, found)
    return found


def prepare(wanted: Iterable[ArtRequest], cancel: Cancel | None = None) -> None:
    """Draw all of ``wanted`` that is not kept yet, on all cores, so that ``laid`` has them ready.

    A picture of which nothing comes is left to ``laid``, which says why. Raises Cancelled.
    """
    missing: dict[_Key, ArtRequest] = {}
    for one in wanted:
        try:
            key = _key(one)
        except PictureError:
            continue
        if _KEPT.get(key) is None:
            missing[key] = one
    asked = [Asked(Path(one.path).name, (msgspec.msgpack.encode(one),)) for one in missing.values()]
    for key, answer in zip(missing, _drawing().each(asked, cancel), strict=True):
        if isinstance(answer, Laid):
            _KEPT.put(key, answer)
        else:
            _REFUSED[key] = answer


def ahead(batches: Iterable[Sequence[ArtRequest]], cancel: Cancel | None = None) -> Iterator[None]:
    """Yield when the first batch is drawn, then the second, each while the next is being drawn.

    No more than two are held, so that many take no more memory than few. Raises Cancelled.
    """
    left = Event()

    def stop() -> bool:
        return left.is_set() or bool(cancel and cancel())

    with ThreadPoolExecutor(1) as beside:
        coming: deque[Future[None]] = deque()
        try:
            for batch in batches:
                coming.append(beside.submit(prepare, batch, stop))
                if len(coming) > 1:
                    coming.popleft().result()
                    yield
            if coming:
                coming.popleft().result()
                yield
        finally:
            left.set()


def _key(wanted: ArtRequest) -> _Key:
    path = Path(wanted.path)
    try:
        state = path.stat()
    except OSError as fault:
        mend = "Put it back or choose another"
        raise PictureError(path.name, "the picture is gone", mend) from fault
    return wanted, state.st_size, state.st_mtime_ns


@cache
def _drawing() -> Pool[Laid, PictureError]:
    return Pool(Job(f"{__name__}:draw", Laid, PRINTING, PictureError, _refusal))


def _refusal(name: str, reason: Reason) -> PictureError:
    return PictureError(name, f"cannot be printed: {reason}", "Save it as PNG or JPEG")


def draw(wanted: bytes) -> Laid:
    """Do what ``lay`` does. For workers. Raises PictureError."""
    return lay(msgspec.msgpack.decode(wanted, type=ArtRequest))

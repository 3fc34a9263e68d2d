"""Files that are almost right: good ones, changed in a few places by dice."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random

ODD = (
    b"\0",
    b"\xff",
    b"\x7f",
    b"\x80",
    b"\0\0\0\0",
    b"\xff\xff\xff\xff",
    b"\x7f\xff\xff\xff",
    b"\x80\0\0\0",
    b"-1",
    b"1e999",
    b"NaN",
    b"null",
    b"[[[[",
    b'"',
    b"\x1b[2J",
    b"\xe2\x80\xae",
    b"99999999999999999999",
)
"""What programs trip over: the ends of ranges, signs of no number, brackets, commands."""


def mutated(seeds: Sequence[bytes], dice: Random) -> bytes:
    """Return one of the seeds, changed in one to eight places."""
    data = bytearray(dice.choice(seeds))
    for _ in range(dice.choice((1, 1, 2, 4, 8))):
        dice.choice(_WAYS)(data, seeds, dice)
    return bytes(data)


def _place(data: bytearray, dice: Random) -> int:
    """Return a place in a file: half of the time near its beginning, where its structure lies."""
    most = min(len(data), 512) if dice.random() < 0.5 else len(data)
    return dice.randrange(most + 1)


def _flip(data: bytearray, _: Sequence[bytes], dice: Random) -> None:
    if data:
        data[min(_place(data, dice), len(data) - 1)] ^= 1 << dice.randrange(8)


def _overwrite(data: bytearray, _: Sequence[bytes], dice: Random) -> None:
    at, odd = _place(data, dice), dice.choice(ODD)
    data[at : at + len(odd)] = odd


def _insert(data: bytearray, _: Sequence[bytes], dice: Random) -> None:
    at = _place(data, dice)
    data[at:at] = dice.choice(ODD) * dice.choice((1, 1, 3, 100))


def _cut(data: bytearray, _: Sequence[bytes], dice: Random) -> None:
    at = _place(data, dice)
    del data[at : at + dice.choice((1, 4, 64, len(data)))]


def _repeat(data: bytearray, _: Sequence[bytes], dice: Random) -> None:
    at = _place(data, dice)
    data[at:at] = data[at : at + dice.choice((4, 64, 1024))] * dice.choice((1, 2, 50))


def _splice(data: bytearray, seeds: Sequence[bytes], dice: Random) -> None:
    other = dice.choice(seeds)
    at = dice.randrange(len(other) + 1)
    data[_place(data, dice) :] = other[at:]


def _number(data: bytearray, _: Sequence[bytes], dice: Random) -> None:
    """Put another figure in the place of one."""
    digits = [at for at, byte in enumerate(data[:20_000]) if 0x30 <= byte <= 0x39]
    if digits:
        at = dice.choice(digits)
        data[at : at + 1] = dice.choice((b"0", b"9", b"-1", b"1e308", b"99999999", b"0.0001"))


_WAYS: tuple[Callable[[bytearray, Sequence[bytes], Random], None], ...] = (
    _flip,
    _flip,
    _overwrite,
    _insert,
    _cut,
    _repeat,
    _splice,
    _number,
)

"""Frames with known readings, and what a bad line does to them.

Every value is used once in a run, so that any reading that was put together from pieces of two is
found out. Bytes lost from inside one value to behind it are not among the harms, so a cut frame is
not followed by one without its head: the standard has no checksum, and nobody can see them.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator

CODES = ("0112", "0114", "0121", "0126", "0129", "0130", "0137", "1129")
Sent = dict[str, set[float]]


def frame(rng: random.Random, sent: Sent, end: bytes = b"\r\n") -> bytes:
    """Return a frame with readings of some items; keep what was sent."""
    lines = [b"&&"]
    for code in sorted(rng.sample(CODES, rng.randint(1, len(CODES)))):
        number = rng.randint(1, 99) if code == "0137" else round(rng.uniform(0.1, 90), 2)
        sent.setdefault(code, set()).add(float(number))
        lines.append(f"{code}{number}".encode())
    return end.join([*lines, b"!!", b""])


def _garbage(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    at, what = rng.randrange(len(text)), bytes(rng.choices(_NOT_TEXT, k=rng.randint(1, 4)))
    return text[:at] + what + text[at + rng.randint(0, 1) :]


def _cut_tail(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    return text[: rng.randrange(len(text) - 3)]


def _cut_head(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    return text[rng.randrange(1, len(text)) :]


def _lines_lost(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    lines = text.split(b"\r\n")
    del lines[rng.randrange(len(lines))]
    return b"\r\n".join(lines)


def _break_lost(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    return text.replace(b"\r\n", b"", 1) if rng.random() < 0.5 else text.replace(b"\r\n", b"")


def _mixed(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    other = frame(rng, sent)
    at, there = rng.randrange(len(text)), rng.randrange(len(other))
    return text[:at] + other[:there] + text[at:] + other[there:]


def _inside(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    at = rng.randrange(len(text))
    return text[:at] + frame(rng, sent) + text[at:]


def _oversized(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    if rng.random() < 0.5:
        return text[:6] + b"7" * rng.randint(250, 3_000) + text[6:]
    return text[:4] + b"9901x\r\n" * rng.randint(380, 500) + text[4:]


def _letters(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    lines = text.split(b"\r\n")
    at = rng.randrange(1, len(lines) - 2)
    lines[at] = lines[at][:4] + rng.choice(
        (b"****", b"ERR", b"1,2", b"1.2.3", b"1e5", b"--3", b"nan")
    )
    return b"\r\n".join(lines)


def _unknown(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    return (
        text[:4]
        + rng.choice((b"99011.5\r\n", b"0000\r\n", b"01991e9\r\n", b"1401x\r\n"))
        + text[4:]
    )


def _out_of_range(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    code = rng.choice(("0113", "0122", "0131", "0501")).encode()
    return text[:4] + code + rng.choice((b"999999999", b"-88888888")) + b"\r\n" + text[4:]


def _other_breaks(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    return text.replace(b"\r\n", rng.choice((b"\n", b"\r", b"\n\r", b"\r\n\r\n")))


def _nothing(rng: random.Random, text: bytes, sent: Sent) -> bytes:
    return text


_NOT_TEXT = [*range(9), *range(11, 13), *range(14, 32), *range(127, 256)]
HARMS: tuple[Callable[[random.Random, bytes, Sent], bytes], ...] = (
    _garbage,
    _cut_tail,
    _cut_head,
    _lines_lost,
    _break_lost,
    _mixed,
    _inside,
    _oversized,
    _letters,
    _unknown,
    _out_of_range,
    _other_breaks,
    _nothing,
)


def harmed_frames(rng: random.Random, count: int, sent: Sent) -> bytes:
    """Return some frames one after the other, each with a harm of its own."""
    made, last = [], _nothing
    for _ in range(count):
        harm = rng.choice(HARMS)
        while last is _cut_tail and harm in (_cut_head, _lines_lost):
            harm = rng.choice(HARMS)
        made.append(harm(rng, frame(rng, sent), sent))
        last = harm
    return b"".join(made)


def pieces(stream: bytes, rng: random.Random) -> Iterator[bytes]:
    """Yield a stream in pieces of any size, as a line brings it."""
    at = 0
    while at < len(stream):
        step = rng.choice((1, 2, 7, 40, 300, 5_000))
        yield stream[at : at + step]
        at += step

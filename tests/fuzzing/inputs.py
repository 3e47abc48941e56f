"""Files from outside, harmed: bytes changed, cut, doubled, joined, and what readers trip over."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random

TOKENS = (
    b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"\x1b[31m", b"\xe2\x80\xae", b"\r", b"\n\n", b"\t",
    b'"', b"'", b'"""', b"[[", b"]]", b"{", b"}", b"\\u0000", b"\\", b"=", b",", b";", b"#",
    b"1e999", b"-1", b"0", b"NaN", b"inf", b"9" * 400, b"1.2.3", b"1,234,567.8", b"4127",
    b"9**9**9", b"true", b"null", b"\xc3\x28", b"\xed\xa0\x80", b"&&", b"!!", b"=1+2", b"@x",
    b"a" * 3000, b"[" * 300, b"{\"a\":" * 300, b"12-1/4 in", b"\xc2\xbd", b"2026-02-30",
)  # fmt: skip
LONGEST = 200_000
Harm = Callable[[Random, bytes, bytes], bytes]


def harmed(draw: Random, seeds: Sequence[bytes]) -> bytes:
    """Return one of some files with one to six harms done to it."""
    content = draw.choice(seeds)
    for _ in range(draw.randint(1, 6)):
        content = draw.choice(HARMS)(draw, content, draw.choice(seeds))[:LONGEST]
    return content


def _place(draw: Random, content: bytes) -> int:
    return draw.randint(0, len(content))


def _byte(draw: Random, content: bytes, _other: bytes) -> bytes:
    at = _place(draw, content)
    return content[:at] + bytes([draw.randrange(256)]) + content[at + 1 :]


def _token(draw: Random, content: bytes, _other: bytes) -> bytes:
    at, over = _place(draw, content), draw.choice((0, 0, 1, 5))
    return content[:at] + draw.choice(TOKENS) + content[at + over :]


def _cut(draw: Random, content: bytes, _other: bytes) -> bytes:
    at = _place(draw, content)
    return content[:at] if draw.random() < 0.5 else content[at:]


def _hole(draw: Random, content: bytes, _other: bytes) -> bytes:
    at = _place(draw, content)
    return content[:at] + content[at + draw.randint(1, 40) :]


def _doubled(draw: Random, content: bytes, _other: bytes) -> bytes:
    at = _place(draw, content)
    part = content[at : at + draw.randint(1, 400)]
    return content[:at] + part * draw.randint(2, 4) + content[at:]


def _joined(draw: Random, content: bytes, other: bytes) -> bytes:
    return content[: _place(draw, content)] + other[_place(draw, other) :]


def _lines(draw: Random, content: bytes, _other: bytes) -> bytes:
    """Put the lines in another order, lose some, or say one twice."""
    lines = content.split(b"\n")
    what = draw.randrange(3)
    if what == 0:
        draw.shuffle(lines)
    elif what == 1:
        del lines[draw.randrange(len(lines))]
    else:
        lines.insert(draw.randrange(len(lines) + 1), draw.choice(lines))
    return b"\n".join(lines)


def _number(draw: Random, content: bytes, _other: bytes) -> bytes:
    """Change a digit, as a slip of the finger does."""
    digits = [at for at, byte in enumerate(content[:5000]) if 48 <= byte <= 57]
    if not digits:
        return content
    at = draw.choice(digits)
    return content[:at] + str(draw.randrange(10)).encode() + content[at + 1 :]


HARMS: tuple[Harm, ...] = (_byte, _token, _token, _cut, _hole, _doubled, _joined, _lines, _number)

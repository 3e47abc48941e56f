"""PINs for sign-offs: what is kept of one, and whether a typed one matches.

A PIN shows that somebody who knew it was at the keys when a name was put to an entry. It guards
against a slip, or a name used for convenience; it does not prove who the person was, and whoever
owns the file can change what is kept. Only a salted scrypt hash is kept, never the PIN.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from hashlib import scrypt
from hmac import compare_digest
from secrets import token_hex

from tally.errors import InputError

LEAST, MOST = 4, 12
PROVES = (
    "A PIN shows that somebody who knew it was at the keys. It does not prove who that was; "
    "whoever owns the file can change what is kept."
)
_COST = {"n": 2**14, "r": 8, "p": 1}
_DIGITS = re.compile(rf"[0-9]{{{LEAST},{MOST}}}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """What is kept of a PIN."""

    salt: str
    digest: str


def read_pin(text: str) -> str:
    """Return a PIN as typed, or refuse; the sentence does not repeat it.

    >>> read_pin("2468")
    '2468'
    """
    if not looks_like_pin(text):
        raise InputError(f"A PIN is {LEAST} to {MOST} digits; type digits only.")
    return text


def looks_like_pin(text: str) -> bool:
    """Whether a text could be a PIN.

    >>> looks_like_pin("2468"), looks_like_pin("2468 ft")
    (True, False)
    """
    return _DIGITS.fullmatch(text) is not None


def made(pin: str) -> Pin:
    """Return what is kept of a new PIN."""
    salt = token_hex(16)
    return Pin(salt=salt, digest=_digest(pin, salt))


def matches(kept: Pin, pin: str) -> bool:
    """Whether a typed PIN is the one that was set."""
    return compare_digest(kept.digest, _digest(pin, kept.salt))


def _digest(pin: str, salt: str) -> str:
    return scrypt(pin.encode(), salt=bytes.fromhex(salt), **_COST).hex()

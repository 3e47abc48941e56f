"""The bytes a terminal sends for a key."""

from __future__ import annotations

ESCAPE = "\x1b"
EXTENDED_ESCAPE = "\x1b[27u"

_NAMED = {
    "enter": "\r",
    "escape": ESCAPE,
    "tab": "\t",
    "shift+tab": "\x1b[Z",
    "space": " ",
    "backspace": "\x7f",
    "insert": "\x1b[2~",
    "delete": "\x1b[3~",
    "pageup": "\x1b[5~",
    "pagedown": "\x1b[6~",
    "home": "\x1b[H",
    "end": "\x1b[F",
    "up": "\x1b[A",
    "down": "\x1b[B",
    "right": "\x1b[C",
    "left": "\x1b[D",
    "f1": "\x1bOP",
    "f2": "\x1bOQ",
    "f3": "\x1bOR",
    "f4": "\x1bOS",
}
_FUNCTION_NUMBERS = {5: 15, 6: 17, 7: 18, 8: 19, 9: 20, 10: 21, 11: 23, 12: 24}
_MODIFIERS = {"shift": 2, "alt": 3, "ctrl": 5}
_WITH_MODIFIER = {"up": "A", "down": "B", "right": "C", "left": "D", "home": "H", "end": "F"}


def key_bytes(key: str) -> bytes:
    """Return what a terminal sends for "enter", "f4", "ctrl+p", "shift+up", "alt+x" or "a"."""
    return _sequence(key).encode()


def _sequence(key: str) -> str:
    if key in _NAMED:
        return _NAMED[key]
    if key.startswith("f") and key[1:].isdecimal() and int(key[1:]) in _FUNCTION_NUMBERS:
        return f"\x1b[{_FUNCTION_NUMBERS[int(key[1:])]}~"
    modifier, plus, bare = key.partition("+")
    if plus and bare and modifier in _MODIFIERS:
        return _modified(modifier, bare, key)
    if len(key) == 1 and key.isprintable():
        return key
    raise ValueError(f"{key!r} is no key of a terminal.")


def _modified(modifier: str, bare: str, key: str) -> str:
    if bare in _WITH_MODIFIER:
        return f"\x1b[1;{_MODIFIERS[modifier]}{_WITH_MODIFIER[bare]}"
    if modifier == "ctrl" and len(bare) == 1 and "a" <= bare <= "z":
        return chr(ord(bare) - ord("a") + 1)
    if modifier == "alt" and len(bare) == 1:
        return ESCAPE + bare
    raise ValueError(f"{key!r} is no key of a terminal.")

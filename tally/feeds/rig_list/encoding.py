"""From the bytes of a text file to its text: UTF-8, UTF-16, or the code page that fits best."""

from __future__ import annotations

import codecs
import re
import unicodedata

from tally.feeds.opening import unread
from tally.feeds.rig_list.words import senses

_MARKS = (
    (codecs.BOM_UTF8, "utf-8", "UTF-8 with a mark"),
    (codecs.BOM_UTF16_LE, "utf-16-le", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16-be", "UTF-16"),
)
_PAGES = (
    ("cp1252", "Windows code page 1252"),
    ("cp850", "DOS code page 850"),
    ("cp437", "DOS code page 437"),
    ("cp1251", "Windows code page 1251"),
    ("cp866", "DOS code page 866"),
    ("koi8-r", "code page KOI8-R"),
)
_CELLS = re.compile(r"[,;|\t]")
_LOOKED_AT = 20_000
"""Characters that are looked at to tell code pages apart; headings stand at the start."""
_ODD = 3
"""Against a page: a mark or a capital where a small letter is wanted weighs so much."""
_HEADING = 20
"""For a page: a word of a heading that has letters beyond ASCII."""


def decoded(content: bytes, name: str) -> tuple[str, str]:
    """Return the text of a file and the name of its encoding.

    A file without a mark that is no UTF-8 may be in any of several code pages. Digits are the
    same in all of them; the page is told by the words of the headings and by where letters with
    accents may stand, and what was told is said in the preview.

    >>> decoded("L\\u00e4nge;Nr".encode("cp850"), "list.csv")
    ('L\\xe4nge;Nr', 'DOS code page 850')
    """
    for mark, encoding, words in _MARKS:
        if content.startswith(mark):
            return _strictly(content[len(mark) :], encoding, name), words
    if encoding := _wide(content):
        return _strictly(content, encoding, name), "UTF-16 without a mark"
    if b"\0" in content:
        raise unread(f"The list '{name}' is no text and no XLSX file; save it as CSV or XLSX.")
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        return _in_a_page(content)
    return text, "plain text" if text.isascii() else "UTF-8"


def _strictly(content: bytes, encoding: str, name: str) -> str:
    try:
        return content.decode(encoding)
    except UnicodeDecodeError:
        words = "UTF-8" if encoding == "utf-8" else "UTF-16"
        raise unread(
            f"The list '{name}' begins as {words} text and is broken further on; save it again."
        ) from None


def _wide(content: bytes) -> str:
    """Return the byte order of UTF-16 text without a mark, told by where its zeros stand."""
    first = content[:4000]
    if len(first) < 8 or len(content) % 2:
        return ""
    half = len(first) // 2
    if first[1::2].count(0) > half * 0.7 and not first[::2].count(0):
        return "utf-16-le"
    if first[::2].count(0) > half * 0.7 and not first[1::2].count(0):
        return "utf-16-be"
    return ""


def _in_a_page(content: bytes) -> tuple[str, str]:
    best = max(_PAGES, key=lambda page: _likelihood(content[:_LOOKED_AT], page[0]))
    return content.decode(best[0], errors="replace"), best[1]


def _likelihood(content: bytes, page: str) -> int:
    """Return how well a page fits; the first of several that fit alike is taken."""
    text = content.decode(page, errors="replace")
    found = 0
    for line in text.splitlines()[:60]:
        for part in _CELLS.split(line):
            if not part.isascii() and senses(part.strip(' "')):
                found += _HEADING
    return found - sum(_oddness(text, place) for place, char in enumerate(text) if char > "\x7f")


def _oddness(text: str, place: int) -> int:
    """Return how odd a character beyond ASCII is where it stands."""
    char = text[place]
    before = text[place - 1] if place else " "
    after = text[place + 1] if place + 1 < len(text) else " "
    if char == "\ufffd":
        return 3 * _ODD
    if char in "\u00b0\u00ba" and before in "nN":
        return 0
    if not char.isalpha():
        return _ODD if before.isalpha() or after.isalpha() else 1
    beside = [each for each in (before, after) if each.isalpha()]
    if any(_script(each) != _script(char) for each in beside):
        return 2 * _ODD
    if char.isupper() and before.islower():
        return _ODD
    return 0 if char.lower() in _USUAL else 1


_USUAL = frozenset(
    "\u00e4\u00f6\u00fc\u00df\u00e9\u00e8\u00ea\u00eb\u00e0\u00e2\u00e7\u00f1\u00ed\u00f3\u00fa"
    "\u00e1\u00e3\u00f5\u00f8\u00e5\u00e6\u00ee\u00ef\u00f4\u00fb\u00f9"
) | frozenset(map(chr, range(0x430, 0x450)))


def _script(char: str) -> str:
    return unicodedata.name(char, "?").split(" ")[0]

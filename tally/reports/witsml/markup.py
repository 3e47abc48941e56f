"""Text into XML and a document into bytes: typed text never becomes markup or an entity."""

from __future__ import annotations

import re
from collections.abc import Iterable
from xml.etree import ElementTree

# What XML 1.0 has no place for, and the carriage return, which every reader turns into a line feed.
_UNFIT = re.compile("[^\t\n\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
CUT = "..."


def kept(text: str, longest: int) -> str:
    r"""Return text as it can stand in XML: what cannot is its number, what is too long is cut.

    >>> kept("a\x1b[31m", 20), kept("abcdefgh", 6)
    ('a\\u001b[31m', 'abc...')
    """
    fit = _UNFIT.sub(lambda found: f"\\u{ord(found[0]):04x}", text)
    return fit if len(fit) <= longest else fit[: longest - len(CUT)] + CUT


def document(root: ElementTree.Element, said: Iterable[str]) -> bytes:
    """Return a document with a comment in front of it; no line of that is typed by anybody."""
    lines = "\n".join(f"  {line}" for line in said)
    if "--" in lines:
        raise ValueError("A comment of XML cannot hold two hyphens in a row.")
    ElementTree.indent(root)
    body = ElementTree.tostring(root, encoding="unicode")
    text = f'<?xml version="1.0" encoding="UTF-8"?>\n<!--\n{lines}\n-->\n{body}\n'
    return text.encode("utf-8")

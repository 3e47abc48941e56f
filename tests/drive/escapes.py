"""The control sequences in what a program sent to its terminal.

A text typed by a person must never reach the terminal as a command. `foreign_sequences` lists
every sequence and control character in the bytes of a run that the toolkit does not send itself.
"""

from __future__ import annotations

import re
from collections import Counter

SEQUENCE = re.compile(
    r"\x1b\[(?P<given>[0-?]*)(?P<between>[ -/]*)(?P<final>[@-~])"
    r"|\x1b\](?P<command>[^\x07\x1b]*)(?:\x07|\x1b\\)"
    r"|\x1b(?P<string>[PX^_])[^\x1b]*\x1b\\"
    r"|\x1b(?P<short>[ -/]*[0-~])"
    r"|(?P<control>[\x00-\x1f\x7f\x80-\x9f])"
)
"""One control sequence (ECMA-48: CSI, OSC, other strings, short escapes) or control character."""

UNFINISHED = re.compile(r"\x1b(?:\[[0-?]*[ -/]*|[\]PX^_][^\x07\x1b]*\x1b?|[ -/]*)$")
"""The start of a sequence whose end has not arrived yet."""

_MODES = (7, 25, 1000, 1003, 1004, 1006, 1015, 1016, 1049, 2004, 2026, 2048)

TOOLKIT_SENDS = frozenset(
    {"CSI m", "CSI H", "CSI >u", "CSI <u", "CSI ?2026$p", "CSI ?2048$p"}
    | {f"CSI ?{mode}{switch}" for mode in _MODES for switch in "hl"}
    | {"C0 0a", "C0 0d", "OSC 22"}
)
"""The shapes that Textual 8.2 sends on Linux while drawing, starting and leaving."""


def sequences(sent: bytes) -> Counter[str]:
    """Count the control sequences in `sent` by shape: "CSI m", "CSI ?25l", "OSC 52", "C0 07"."""
    text = sent.decode("utf-8", "replace")
    return Counter(_shape(found) for found in SEQUENCE.finditer(text))


def foreign_sequences(sent: bytes, allowed: frozenset[str] = TOOLKIT_SENDS) -> dict[str, int]:
    """Return the shapes in `sent` that are not allowed, with how often each came."""
    return {shape: n for shape, n in sorted(sequences(sent).items()) if shape not in allowed}


def _shape(found: re.Match[str]) -> str:
    if found["final"]:
        return f"CSI {_kept_parameters(found)}{found['between']}{found['final']}"
    if found["command"] is not None:
        return f"OSC {found['command'].partition(';')[0]}"
    if found["string"]:
        return f"string {found['string']}"
    if found["short"]:
        return f"ESC {found['short']}"
    return f"C{int(found['control'] >= chr(0x80))} {ord(found['control']):02x}"


def _kept_parameters(found: re.Match[str]) -> str:
    """Keep the numbers of a private mode, which say what is switched; drop all others."""
    given = found["given"]
    if given.startswith("?"):
        return given
    return given[:1] if given[:1] in ("<", "=", ">") else ""

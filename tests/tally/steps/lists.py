"""A small good list, and ways to write it out with something changed."""

from __future__ import annotations

import json
from typing import Any

HEAD: dict[str, Any] = {
    "id": "own-release",
    "title": "Own release",
    "page": "plugs",
    "purpose": "Release the plugs.",
    "caution": "Local codes, the programme and the licensed people on site govern.",
    "source": "house",
}
TEST: dict[str, Any] = {
    "id": "line-test",
    "text": "Test the lines",
    "who": "cementer",
    "critical": True,
    "hold_point": True,
    "want": "value",
    "quantity": "pressure",
    "expect": "limit:line_test",
    "compare": "at least",
}
RELEASE: dict[str, Any] = {
    "id": "top-plug-released",
    "text": "Release the top plug",
    "who": "cementer",
    "critical": True,
    "want": "state",
    "states": ["indicator moved", "indicator did not move"],
    "good": ["indicator moved"],
    "gates": ["on-depth"],
    "after": ["line-test"],
    "at_once": True,
    "key": "p",
}
RETEST: dict[str, Any] = {
    "id": "line-retest",
    "text": "Read the pressure again",
    "who": "driller",
    "want": "value",
    "quantity": "pressure",
    "expect": "step:line-test",
    "within": "limit:line_band",
    "compare": "agrees",
    "after": ["line-test"],
    "key": "r",
}


def toml(head: dict[str, Any] | None = None, *changes: dict[str, Any]) -> str:
    """Write the good list out with its head and its first steps changed; None leaves a key out."""
    steps = [TEST, RELEASE, RETEST]
    padded = [*changes, *({},) * (len(steps) - len(changes))]
    tables = [_table(step | change) for step, change in zip(steps, padded, strict=True)]
    return "\n[[steps]]\n".join([_table(HEAD | (head or {})), *tables])


def _table(fields: dict[str, Any]) -> str:
    # JSON writes texts, lists of texts, numbers and truth as TOML reads them.
    return "".join(
        f"{json.dumps(key)} = {json.dumps(value)}\n"
        for key, value in fields.items()
        if value is not None
    )

"""A PIN typed by habit where words are asked for: it must not stand in clear in a record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields

from tally.job.entry import Entry
from tally.job.job import Job
from tally.job.pins import Pin, looks_like_pin, matches

WORDS = frozenset({
    "answer", "cleared", "decided", "despite", "done", "how", "means", "note", "reason", "text",
    "told", "watch", "where", "why",
})  # fmt: skip
"""The fields of entries that hold words of one's own; a number of a joint is none of them."""


def pin_in_clear(pins: Mapping[str, Pin], text: str, names: Iterable[str]) -> str:
    """Return why a text is not taken as words: it is the PIN of one of these names; or nothing.

    The sentence does not repeat it. A PIN is looked for only in what looks like one.
    """
    if not looks_like_pin(text):
        return ""
    for name in dict.fromkeys(names):
        if name in pins and matches(pins[name], text):
            return (
                f"That is the PIN of {name}, and this would be read by everybody; it is not kept. "
                "Type words here; the PIN is asked for by itself."
            )
    return ""


def told_in_clear(job: Job, entry: Entry) -> str:
    """Return why an entry is not kept: words of it are the PIN of somebody it names; or nothing."""
    if not job.pins:
        return ""
    texts = {one.name: getattr(entry, one.name) for one in fields(entry)}
    names = tuple(text for text in texts.values() if isinstance(text, str))
    found = (pin_in_clear(job.pins, text, names) for text in _words(texts))
    return next((fault for fault in found if fault), "")


def _words(texts: Mapping[str, object]) -> Iterator[str]:
    for name, value in texts.items():
        if isinstance(value, Mapping):
            yield from _words(value)
        elif isinstance(value, str) and name in WORDS:
            yield value

"""What differs between an entry as it was made and what stands in its place: both values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tally.job.entry import Entry, to_fields

NOTHING = "nothing"
_NOT_TOLD = frozenset({"kind", "by", "at", "seq", "despite", "signed", "origins"})
_MISSING = object()


@dataclass(frozen=True, slots=True)
class Changed:
    """One value of an entry, before and after."""

    what: str
    was: str
    now: str

    def __str__(self) -> str:
        return f"{self.what}: was {self.was}, now {self.now}"


def differing(was: Entry, now: Entry) -> tuple[Changed, ...]:
    """Return each value that is another one, as it was typed where that is kept."""
    return tuple(_differing("", to_fields(was), to_fields(now)))


def _differing(path: str, was: Any, now: Any) -> Iterator[Changed]:
    if was == now:
        return
    if isinstance(was, Mapping) and isinstance(now, Mapping):
        typed = was.get("typed") != now.get("typed")
        for name in dict.fromkeys((*was, *now)):
            if (not path and name in _NOT_TOLD) or (name == "length" and typed):
                continue
            known = (each.get(name, _MISSING) for each in (was, now))
            yield from _differing(_under(path, name), *known)
    elif _named(was) and _named(now):
        yield from _differing(path, _by_name(was), _by_name(now))
    else:
        yield Changed(path, _text(was), _text(now))


def _under(path: str, name: str) -> str:
    """Return the words for a value inside of another; the tally's own text is the length."""
    word = "length" if name == "typed" else name.replace("_", " ")
    return f"{path} {word}" if path else word


def _named(value: Any) -> bool:
    """Whether a value is a list of things that have a number or a name of their own."""
    return isinstance(value, list) and all(
        isinstance(each, Mapping) and ("number" in each or "name" in each) for each in value
    )


def _by_name(things: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    return {str(each.get("number", each.get("name"))): each for each in things}


def _text(value: Any) -> str:
    if value is _MISSING or value in ("", None, [], {}):
        return NOTHING
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{_under('', str(key))} {_text(each)}" for key, each in value.items())
    if isinstance(value, list):
        return "; ".join(_text(each) for each in value)
    return str(value)

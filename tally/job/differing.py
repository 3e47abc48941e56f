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


def differing(was: Entry, now: Entry, unit: str = "") -> tuple[Changed, ...]:
    """Return each value that is another one, as it was typed where that is kept.

    `unit` is that of the tally, for its lengths that were typed as bare numbers.
    """
    return tuple(_differing("", to_fields(was), to_fields(now), unit))


def _differing(path: str, was: Any, now: Any, unit: str) -> Iterator[Changed]:
    if was == now:
        return
    if isinstance(was, Mapping) and isinstance(now, Mapping):
        typed = was.get("typed") != now.get("typed")
        for name in dict.fromkeys((*was, *now)):
            if (not path and name in _NOT_TOLD) or (name == "length" and typed):
                continue
            before, after = (each.get(name, _MISSING) for each in (was, now))
            if name == "typed":
                before, after = measured(before, unit), measured(after, unit)
            yield from _differing(_under(path, name), before, after, unit)
    elif _named(was) and _named(now):
        over = "" if path.split()[-1:] == ["items"] else path  # "joint 3", not "items 3"
        yield from _differing(over, _by_name(was), _by_name(now), unit)
    else:
        yield Changed(path, _text(was), _text(now))


def _under(path: str, name: str) -> str:
    """Return the words for a value inside of another; the tally's own text is the length."""
    if not path and name == "setup":
        return ""
    word = "length" if name == "typed" else name.replace("_", " ")
    return f"{path} {word}" if path else word


def _named(value: Any) -> bool:
    """Whether a value is a list of things that have a number or a name of their own."""
    return isinstance(value, list) and all(
        isinstance(each, Mapping) and ("number" in each or "name" in each) for each in value
    )


def _by_name(things: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    return {_called(each): each for each in things}


def _called(thing: Mapping[str, Any]) -> str:
    """Return what a thing is called: a joint by its kind and number."""
    if "number" in thing:
        return f"{thing.get('kind') or 'joint'} {thing['number']}"
    return str(thing["name"])


def measured(typed: Any, unit: str) -> Any:
    """Return a length with the unit of the tally, where it was typed as a bare number."""
    bare = isinstance(typed, str) and typed and not any(each.isalpha() for each in typed)
    return f"{typed} {unit}" if bare and unit else typed


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

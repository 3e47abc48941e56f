"""Checklists read from TOML, the shipped ones and a company's own alike; all faults at once."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import MISSING, dataclass, fields
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tally.errors import InputError, JobFileError
from tally.steps.header_lines import header_lines
from tally.steps.model import Checklist, Step
from tally.steps.rules import (
    MOST_STEPS,
    PARAGRAPHS,
    Headers,
    list_faults,
    set_faults,
    step_faults,
    text_fault,
)
from tally.units import clean, shown

if TYPE_CHECKING:
    from pydantic import BaseModel
    from pydantic_core import ErrorDetails

SHIPPED = (
    "crew_and_hole_ready.toml",
    "mud_conditioning.toml",
    "rig_up.toml",
    "plug_loading.toml",
    "plug_release.toml",
    "waiting.toml",
    "no_bump.toml",
    "floats_leak.toml",
    "returns_lost.toml",
    "early_rise.toml",
    "stopped_mixing.toml",
    "bottom_plug_late.toml",
    "diaphragm_holds.toml",
    "trapped_pressure.toml",
)
MOST_BYTES = 256 * 1024
_KINDS = {bool: "true or false", int: "a whole number", float: "a number", str: "a text"}


@dataclass(frozen=True, slots=True)
class _Read:
    """What could be read of one table: its usable fields, and what is wrong, key by key."""

    usable: dict[str, Any]
    faults: tuple[tuple[str, str], ...]

    @property
    def spoilt(self) -> frozenset[str]:
        return frozenset(key for key, _ in self.faults)


def checklists(own: Iterable[Path] = ()) -> tuple[Checklist, ...]:
    """Return the shipped lists, a company's own taking the place of those with the same id.

    Raises
    ------
    JobFileError
        If a file cannot be read or breaks a rule, or the lists do not fit together; its
        `faults` hold everything found in all the files.
    """
    read, headers, faults = _read_all(own)
    if not faults:
        by_id = {checklist.id: checklist for checklist in shipped()}
        by_id |= {checklist.id: checklist for checklist in read}
        read, faults = tuple(by_id.values()), tuple(set_faults(by_id.values(), headers))
    if faults:
        raise _refused("The checklists have", faults)
    return read


@cache
def shipped() -> tuple[Checklist, ...]:
    """Return the lists that come with the program."""
    folder = files("tally.steps")
    return tuple(
        parse_checklist((folder / name).read_text(encoding="utf-8"), name) for name in SHIPPED
    )


def read_checklist(path: Path) -> Checklist:
    """Read one list from a TOML file."""
    return _read_file(path)[0]


def places_of(paths: Iterable[Path]) -> Headers:
    """Return the lines of the steps in the files that can be read."""
    return _read_all(paths)[1]


def _read_file(path: Path) -> tuple[Checklist, Headers]:
    name = shown(path.name, 60)
    try:
        if not path.is_file():
            raise _no_file(f"There is no checklist file '{name}'; look at its name.")
        if path.stat().st_size > MOST_BYTES:
            raise _no_file(f"The file '{name}' is too large for a checklist (256 kB at most).")
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise _no_file(f"The file '{name}' is not UTF-8 text; save it as UTF-8.") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise _no_file(f"The file '{name}' could not be opened: {shown(why, 120)}.") from None
    return _parsed(text, path.name)


def parse_checklist(text: str, name: str) -> Checklist:
    """Read one list from the text of a TOML file; `name` is what the faults call the file.

    >>> parse_checklist("title = 3", "own.toml")
    Traceback (most recent call last):
    tally.errors.JobFileError: own.toml has 7 faults. List own.toml, key id: is missing.
    """
    return _parsed(text, name)[0]


def _parsed(text: str, name: str) -> tuple[Checklist, Headers]:
    """Return a list, and the line at which each of its steps begins."""
    head = _read_table(Checklist, _toml(text, shown(name, 60)))
    usable_id = "" if "id" in head.spoilt else head.usable["id"]
    title = f"List {shown(usable_id or name, 60)}"
    faults = [f"{title}, key {key}: {said}" for key, said in head.faults]
    lines = header_lines(text)
    steps, step_sentences = _read_steps(title, head.usable.get("steps", []), lines)
    checklist: Checklist = _built(Checklist, head, steps=steps)
    faults += [f"{title}, key {key}: {said}" for key, said in list_faults(checklist, head.spoilt)]
    if "steps" not in head.spoilt and not 0 < len(head.usable["steps"]) <= MOST_STEPS:
        faults.append(f"{title}, key steps: must hold from 1 to {MOST_STEPS} steps.")
    faults += step_sentences
    if faults:
        raise _refused(f"{shown(name, 60)} has", tuple(faults))
    return checklist, {
        (checklist.id, step.id): line for step, line in zip(steps, lines, strict=False)
    }


def _read_all(
    paths: Iterable[Path],
) -> tuple[tuple[Checklist, ...], Headers, tuple[str, ...]]:
    read: dict[str, Checklist] = {}
    headers: dict[tuple[str, str], int] = {}
    faults: list[str] = []
    for path in paths:
        try:
            checklist, lines = _read_file(path)
        except JobFileError as error:
            faults += error.faults
            continue
        if checklist.id in read:
            faults.append(f"List {checklist.id}, key id: two of the files carry this id.")
        read[checklist.id] = checklist
        headers |= lines
    return tuple(read.values()), headers, tuple(faults)


def _refused(what_has: str, faults: tuple[str, ...]) -> JobFileError:
    if len(faults) == 1:
        return JobFileError(faults[0], faults)
    return JobFileError(f"{what_has} {len(faults)} faults. {faults[0]}", faults)


def _no_file(sentence: str) -> JobFileError:
    return JobFileError(sentence, (sentence,))


def _toml(text: str, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        said = shown(str(error), 120)
    except RecursionError:
        said = "too many lists inside one another"
    raise _no_file(f"The file '{name}' is not TOML: {said}.")


def _read_steps(
    title: str, tables: list[Any], lines: Sequence[int]
) -> tuple[tuple[Step, ...], list[str]]:
    steps: list[Step] = []
    faults: list[str] = []
    for place, table in enumerate(tables[:MOST_STEPS], start=1):
        if not isinstance(table, Mapping):
            faults.append(f"{title}, step {place}, key steps: must be a table, [[steps]].")
            continue
        read = _read_table(Step, table)
        step = _built(Step, read)
        named = f"{title}, step {shown(step.id, 60) or f'{place} (no id)'}"
        named += f", line {lines[place - 1]}" if place <= len(lines) else ""
        found = (*read.faults, *step_faults(step, steps, read.spoilt))
        faults += [f"{named}, key {key}: {said}" for key, said in found]
        steps.append(step)
    return tuple(steps), faults


def _built(kind: type[Any], read: _Read, **more: Any) -> Any:
    """Build a step or list of what could be read; what is missing or spoilt is empty."""
    blank = {
        f.name: ""
        for f in fields(kind)
        if f.default is MISSING or (f.name in read.spoilt and f.type == "str")
    }
    texts = {
        key: tuple(value) if isinstance(value, list) else value
        for key, value in read.usable.items()
    }
    return kind(**{**blank, **texts, **more})


def _read_table(kind: type[Any], table: Mapping[str, Any]) -> _Read:
    """Look at the shape of one table, then at the words of every text in it."""
    from pydantic import ValidationError

    names = [f.name for f in fields(kind)]
    faults: list[tuple[str, str]] = []
    try:
        _shapes()[kind].model_validate(table)
    except ValidationError as error:
        faults = [_shape_fault(each, names) for each in error.errors(include_url=False)]
    spoilt = {key for key, _ in faults}
    usable: dict[str, Any] = {}
    for key in (key for key in names if key in table and key not in spoilt):
        try:
            usable[key] = _tidied(key, table[key])
        except InputError as error:
            faults.append((key, str(error)))
    return _Read(usable, tuple(faults))


@cache
def _shapes() -> dict[type[Any], type[BaseModel]]:
    """Return the strict pydantic model of each kind of table, made from its dataclass."""
    return {kind: _shape(kind) for kind in (Checklist, Step)}


def _shape(kind: type[Any]) -> type[BaseModel]:
    from pydantic import ConfigDict, create_model

    shapes = {"str": str, "bool": bool, "tuple[str, ...]": list[str]}
    expected: dict[str, Any] = {
        f.name: (shapes.get(str(f.type), list[Any]), ... if f.default is MISSING else f.default)
        for f in fields(kind)
    }
    strict = ConfigDict(strict=True, extra="forbid")
    model: type[BaseModel] = create_model(kind.__name__, __config__=strict, **expected)
    return model


def _shape_fault(error: ErrorDetails, names: list[str]) -> tuple[str, str]:
    key, place = shown(str(error["loc"][0])), error["loc"][1:]
    if error["type"] == "missing":
        return key, "is missing."
    if error["type"] == "extra_forbidden":
        near = get_close_matches(key, names, 1)
        return key, f"is not known; did you mean {near[0]}?" if near else "is not known."
    wanted = {"bool_type": "true or false", "list_type": "a list, [...]"}
    entry = f"entry {int(place[0]) + 1} " if place else ""
    wants = wanted.get(error["type"], "a text in quotes")
    given = "a list" if isinstance(error["input"], list) else _KINDS.get(type(error["input"]))
    return key, f"{entry}must be {wants}, not {given or 'a table or a date'}."


def _tidied(key: str, value: Any) -> Any:
    if isinstance(value, str):
        text = " ".join(value.splitlines()) if key in PARAGRAPHS else value
        text = clean(text, MOST_BYTES)
        fault = text_fault(key, text)
        if fault:
            raise InputError(fault)
        return text
    if isinstance(value, list) and key != "steps":
        return [_tidied(key, each) for each in value]
    return value

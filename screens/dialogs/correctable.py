"""The fields of each kind of entry that a person can correct, each with how it is put in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from screens.dialogs.form import Field
from screens.dialogs.values import (
    fittings_of,
    measure_text,
    numbers_of,
    steps_text,
    whole_number,
)
from tally.job.entries.pumping import RETURNS
from tally.job.entries.steps import OUTCOMES
from tally.job.entries.watching import TANK_CHANGES
from tally.job.entry import Entry
from tally.job.job import Job
from tally.job.naming import in_short
from tally.job.stored import to_fields as plain_fields
from tally.units import clean

Change = tuple[Field, Callable[[Any], dict[str, Any]]]


def _text(_job: Job, entry: Entry, name: str) -> Change:
    label = name.replace("_", " ").capitalize()
    value = str(getattr(entry, name))
    key = "its_reason" if name == "reason" else name  # the correction wants a reason of its own
    return Field(key, label, clean, value, optional=not value), lambda read: {name: read or ""}


def _whole(_job: Job, entry: Entry, name: str) -> Change:
    value = getattr(entry, name)
    shown = "" if value is None else str(value)
    optional = value is None
    return (
        Field(name, name.capitalize(), whole_number, shown, optional=optional),
        lambda read: {name: read},
    )


def _measure(quantity: str) -> Callable[[Job, Entry, str], Change]:
    def make(job: Job, entry: Entry, name: str) -> Change:
        value = getattr(entry, name)
        unit = job.known.shown.unit(quantity)
        shown = value.text if value else ""
        return (
            Field(
                name,
                name.replace("_", " ").capitalize(),
                measure_text(quantity, unit),
                shown,
                optional=not value,
                hint=unit,
            ),
            lambda read: {name: read},
        )

    return make


def _steps(name_typed: str) -> Callable[[Job, Entry, str], Change]:
    def make(job: Job, entry: Entry, name: str) -> Change:
        typed = str(getattr(entry, name_typed))
        optional = getattr(entry, name) is None
        hint = f"{job.known.step.unit}; empty: as listed" if optional else job.known.step.unit
        label = name.replace("_", " ").capitalize()
        return (
            Field(
                name,
                label,
                steps_text(job, loss=name == "length"),
                typed,
                optional=optional,
                hint=hint,
            ),
            lambda read: {} if read is None else {name: read[0], name_typed: read[1]},
        )

    return make


def _fittings(_job: Job, entry: Entry, name: str) -> Change:
    shown = ", ".join(str(each) for each in getattr(entry, name)) or "-"
    return (
        Field(name, "Installed", fittings_of, shown, hint="a dash: nothing"),
        lambda read: {name: [plain_fields(each) for each in read]},
    )


def _flag(yes: str, no: str) -> Callable[[Job, Entry, str], Change]:
    def make(_job: Job, entry: Entry, name: str) -> Change:
        value = yes if getattr(entry, name) else no
        field = Field(name, name.capitalize(), choices=(yes, no), value=value)
        return field, lambda read: {name: read == yes}

    return make


def _chosen(*choices: str) -> Callable[[Job, Entry, str], Change]:
    def make(_job: Job, entry: Entry, name: str) -> Change:
        value = str(getattr(entry, name))
        label = name.replace("_", " ").capitalize()
        field = Field(name, label, choices=choices, value=value, optional=not value)
        return field, lambda read: {name: read or ""}

    return make


def _numbers(job: Job, entry: Entry, name: str) -> Change:
    shown = in_short(getattr(entry, name))
    return (
        Field(name, "Joints", numbers_of(job), shown, optional=not shown, hint="1-40, 43"),
        lambda read: {name: list(read or ())},
    )


MAKERS: dict[str, dict[str, Callable[[Job, Entry, str], Change]]] = {
    "item run": {
        "number": _text,
        "length": _steps("typed"),
        "fittings": _fittings,
        "torque": _measure("torque"),
        "position": _text,
        "lowering": _measure("lowering time"),
    },
    "rejected": {"number": _text, "reason": _text},
    "laid down": {"number": _text, "reason": _text},
    "sent away": {"number": _text, "reason": _text},
    "fitted": {"number": _text, "fittings": _fittings},
    "pulled out": {"reason": _text},
    "trip tank read": {
        "volume": _measure("volume"),
        "mark": _flag("a new mark", "an ordinary reading"),
        "how": _chosen(*TANK_CHANGES),
        "since": _text,
    },
    "filled": {"volume": _measure("volume"), "source": _text},
    "weight read": dict.fromkeys(("slack_off", "pick_up", "hanging"), _measure("force")),
    "auto-fill converted": {"pressure": _measure("pressure"), "rate": _measure("flow rate")},
    "pipe moved": {
        "stroke": _measure("length"),
        "strokes": _measure("stroke rate"),
        "rotation": _measure("rotary speed"),
        "torque": _measure("torque"),
        "slack_off": _measure("force"),
        "pick_up": _measure("force"),
        "note": _text,
    },
    "pipe movement stopped": {"reason": _text},
    "flow check": {"state": _text, "time": _measure("time"), "note": _text},
    "tight spot": {
        "depth": _measure("length"),
        "overpull": _measure("force"),
        "set_down": _measure("force"),
        "done": _text,
    },
    "stuck": {"note": _text},
    "pipe free": {"how": _text},
    "losses": {"volume": _measure("volume"), "rate": _measure("flow rate"), "note": _text},
    "shut in": {
        "gain": _measure("volume"),
        "annulus_pressure": _measure("pressure"),
        "pipe_pressure": _measure("pressure"),
        "note": _text,
    },
    "well open": {"note": _text},
    "dropped": {"what": _text, "where": _text, "note": _text},
    "crew change": {"lead": _text, "told": _text},
    "fitting missed": {"number": _text, "reason": _text},
    "on depth": {"stick_up": _steps("typed"), "counted": _whole},
    "hung off": {"load": _measure("force"), "how": _text},
    "pumped": {
        "tank": _measure("volume"),
        "strokes": _whole,
        "pressure": _measure("pressure"),
        "rate": _measure("flow rate"),
        "returns_seen": _chosen(*RETURNS),
        "returns": _measure("flow rate"),
        "returned": _measure("volume"),
    },
    "list started": {"why": _text},
    "mixing read": {
        "fluid": _text,
        **dict.fromkeys(("gauge", "balance"), _measure("density")),
        "pumped": _measure("volume"),
        "sacks": _whole,
        "cement": _measure("mass"),
        "mix_fluid": _measure("volume"),
        "pressure": _measure("pressure"),
        "rate": _measure("flow rate"),
    },
    "sample kept": {"fluid": _text, "part": _text, "note": _text},
    "seen at surface": {
        "what": _text,
        "volume": _measure("volume"),
        "density": _measure("density"),
    },
    "pumped back in": {"volume": _measure("volume"), "decided": _text},
    "shoe tested": {"how": _text, "held": _flag("held", "did not hold"), "cleared": _text},
    "rate and pressure": {"rate": _measure("flow rate"), "pressure": _measure("pressure")},
    "step done": dict.fromkeys(
        ("state", "value", "witness", "given", "released", "second", "note"), _text
    ),
    "step witnessed": dict.fromkeys(("state", "value", "witness"), _text),
    "step passed over": {"outcome": _chosen(*OUTCOMES), "reason": _text, "second": _text},
    "difference answered": {"reason": _text},
    "passing answered": {"reason": _text, "second": _text},
    "exception closed": {"reason": _text, "second": _text},
    "waiting rules": {"confirmed": _text},
    "person added": {"role": _text},
    "file left": {"reason": _text},
    "note": {"text": _text},
    "notice given": dict.fromkeys(("to", "about", "means", "given", "when", "answer"), _text),
    "calibration noted": dict.fromkeys(("what", "serial", "day", "due", "done_by", "note"), _text),
    "time lost": {"cause": _text, "time": _measure("time"), "note": _text},
    "pressure tested": {
        "what": _text,
        **dict.fromkeys(("pressure", "ended"), _measure("pressure")),
        "time": _measure("time"),
        "held": _flag("held", "did not hold"),
        "device": _text,
        "note": _text,
    },
    "handed over": {"to": _text, "watch": _text},
    "bundle counted": {
        "bundle": _text,
        "noted": _whole,
        "counted": _whole,
        "numbers": _numbers,
    },
    "checked": {
        "what": _text,
        "numbers": _numbers,
        "passed": _flag("passed", "failed"),
        "who": _text,
        "mandrel": _measure("diameter"),
        "note": _text,
    },
    "equipment noted": {
        "name": _text,
        "here": _flag("yes", "no"),
        "checked": _flag("yes", "no"),
        "supplier": _text,
        "note": _text,
    },
    "order set": {"reason": _text},
}

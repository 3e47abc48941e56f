"""What is kept beside the work for the reports: one menu, and what each of its lines asks."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Any

from screens.acts import not_set_up, say
from screens.dialogs.form import Field, Form
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import measure
from screens.pages.page import Page
from tally.job.entries.records import CalibrationNoted, NoticeGiven, PressureTested, TimeLost

Act = Callable[[Page], Awaitable[None]]
MEANS = ("telephone", "mail", "radio", "in person", "the office's form")
MEASURING = ("pump pressure gauge", "casing pressure gauge", "torque turn system", "mud balance")
CAUSES = ("equipment", "waiting on people", "waiting on material", "weather", "hole", "orders")
TESTED = ("casing", "wellhead seal", "lines", "head", "blowout preventer")
HELD, NOT_HELD = "held", "did not hold"


async def keep_record(page: Page) -> None:
    """Ask what is kept, then what is to be said of it."""
    if not_set_up(page):
        return
    answer = await page.app.push_screen_wait(
        Form("Keep for the reports", [Field("what", "What", choices=tuple(_MENU))])
    )
    if answer:
        await _MENU[answer["what"]](page)


def _words(key: str, label: str, hint: str = "may be empty") -> Field:
    return Field(key, label, optional=True, hint=hint)


def _given(answer: dict[str, Any]) -> dict[str, Any]:
    """Return what was answered; what was left out stays at its default."""
    return {key: one for key, one in answer.items() if one is not None}


def _of(page: Page, key: str, label: str, quantity: str, *, optional: bool = False) -> Field:
    unit = page.job.known.shown.unit(quantity)
    hint = f"{unit}; may be empty" if optional else unit
    return Field(key, label, measure(quantity, unit), optional=optional, hint=hint)


async def _notice(page: Page) -> None:
    answer = await ask(
        page,
        "Notice given",
        Field("to", "Who was told: the person, the office"),
        Field("about", "Of what"),
        Field("means", "How", choices=MEANS, open=True),
        Field("when", "When", optional=True, hint="empty: now"),
        Field("given", "Who gave it", optional=True, hint="empty: whoever is at the keys"),
        _words("answer", "Answer, or the number of the notice"),
    )
    if answer:
        await say(page, NoticeGiven(**stamp(page), **_given(answer)))


async def _calibration(page: Page) -> None:
    answer = await ask(
        page,
        "Calibration of what measures",
        Field("what", "What", choices=MEASURING, open=True),
        _words("serial", "Serial number"),
        Field("day", "Day of its calibration", hint="as 2026-03-31"),
        Field("due", "Holds until", optional=True, hint="as 2026-03-31; may be empty"),
        _words("done_by", "Calibrated by"),
        _words("note", "Note"),
    )
    if answer:
        await say(page, CalibrationNoted(**stamp(page), **_given(answer)))


async def _lost(page: Page) -> None:
    answer = await ask(
        page,
        "Time lost, up to now",
        Field("cause", "Why the work stood", choices=CAUSES, open=True),
        _of(page, "time", "How long", "time"),
        _words("note", "Note"),
    )
    if answer:
        await say(page, TimeLost(**stamp(page), **_given(answer)))


async def _test(page: Page) -> None:
    answer = await ask(
        page,
        "Pressure test",
        Field("what", "What was tested", choices=TESTED, open=True),
        _of(page, "pressure", "Pressure put on", "pressure"),
        _of(page, "time", "Held for", "time"),
        _of(page, "ended", "Pressure at the end", "pressure", optional=True),
        Field("held", "Result", choices=(HELD, NOT_HELD)),
        _words("device", "Read on: chart, digital recorder"),
        _words("note", "What was irregular, and what was done"),
    )
    if answer:
        told = {**_given(answer), "held": answer["held"] == HELD}
        await say(page, PressureTested(**stamp(page), **told))


_MENU: dict[str, Act] = {
    "notice given": _notice,
    "time lost": _lost,
    "pressure test": _test,
    "calibration": _calibration,
}

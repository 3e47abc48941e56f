"""Trouble on the way down: one menu, and what each of its lines asks."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Any

from screens.acts import not_set_up, say
from screens.dialogs.correct import correct_run
from screens.dialogs.form import Field, Form
from screens.dialogs.pins import signed
from screens.dialogs.running import REASON_MISSED, ask, install, known_item, stamp
from screens.dialogs.values import measure
from screens.pages.page import Page
from screens.widgets.limits import pull_line
from tally.job.entries.trouble import (
    WHERE,
    CrewChanged,
    Dropped,
    FittingMissed,
    Losses,
    PipeFree,
    ShutIn,
    Stuck,
    TightSpot,
    WellOpened,
)
from tally.job.fittings import missing_on

Act = Callable[[Page], Awaitable[None]]


async def trouble(page: Page) -> None:
    """Ask what happened, then what is to be said of it."""
    if not_set_up(page):
        return
    menu = _menu(page)
    answer = await page.app.push_screen_wait(
        Form("Trouble", [Field("what", "What happened", choices=tuple(menu))])
    )
    if answer:
        await menu[answer["what"]](page)


def _menu(page: Page) -> dict[str, Act]:
    """Return what can be said now; what has an end is offered to be ended."""
    job = page.job
    stuck: tuple[str, Act] = ("pipe free again", _free) if job.stuck else ("stuck", _stuck)
    shut: tuple[str, Act] = (
        ("well open again", _open) if job.shut_in else ("gain, well shut in", _shut_in)
    )
    return dict(
        (
            ("tight spot", _tight),
            stuck,
            ("losses", _losses),
            shut,
            ("something dropped", _dropped),
            ("centralizer missed", _missed),
            ("wrong joint found later", _wrong_joint),
            ("crew change", _crew),
        )
    )


def _of(page: Page, key: str, label: str, quantity: str) -> Field:
    """Return a field for a measure that may be left out."""
    unit = page.job.known.shown.unit(quantity)
    return Field(key, label, measure(quantity, unit), optional=True, hint=unit)


def _words(key: str, label: str, hint: str = "empty: none") -> Field:
    return Field(key, label, optional=True, hint=hint)


def _given(answer: dict[str, Any]) -> dict[str, Any]:
    """Return what was answered; what was left out stays at its default."""
    return {key: one for key, one in answer.items() if one is not None}


async def _tight(page: Page) -> None:
    answer = await ask(
        page,
        "Tight spot",
        _of(page, "depth", "Depth, else that of the shoe", "length"),
        _of(page, "overpull", "Overpull", "force"),
        _of(page, "set_down", "Weight set down", "force"),
        _words("done", "What was done"),
        says=pull_line(page.job),
    )
    if answer:
        await say(page, TightSpot(**stamp(page), **_given(answer)))


async def _stuck(page: Page) -> None:
    answer = await ask(page, "Pipe stuck", _words("note", "Note"), says=pull_line(page.job))
    if answer:
        await say(page, Stuck(**stamp(page), **_given(answer)))


async def _free(page: Page) -> None:
    answer = await ask(page, "Pipe free again", Field("how", "How it came free"))
    if answer:
        await say(page, PipeFree(**stamp(page), **answer))


async def _losses(page: Page) -> None:
    answer = await ask(
        page,
        "Losses",
        _of(page, "volume", "Lost so far", "volume"),
        _of(page, "rate", "Rate", "flow rate"),
        _words("note", "Note"),
    )
    if answer:
        await say(page, Losses(**stamp(page), **_given(answer)))


async def _shut_in(page: Page) -> None:
    answer = await ask(
        page,
        "Gain, well shut in",
        _of(page, "gain", "Gain", "volume"),
        _of(page, "annulus_pressure", "Pressure in the annulus", "pressure"),
        _of(page, "pipe_pressure", "Pressure in the pipe", "pressure"),
        _words("note", "Note"),
        says="The shut-in plan and the people in charge lead; this book only records.",
    )
    if answer:
        await say(page, ShutIn(**stamp(page), **_given(answer)))


async def _open(page: Page) -> None:
    answer = await ask(
        page, "Well open again", Field("note", "Who gave it back, and how it stands")
    )
    if answer:
        await say(page, WellOpened(**stamp(page), **answer))


async def _dropped(page: Page) -> None:
    answer = await ask(
        page,
        "Something dropped",
        Field("what", "What"),
        Field("where", "Where is it", choices=WHERE),
        _words("note", "Note"),
    )
    if answer:
        await say(page, Dropped(**stamp(page), **_given(answer)))


LATER, NEVER = "installed later", "not installed"


async def _missed(page: Page) -> None:
    lacks = missing_on(page.job)
    if not lacks:
        page.refuse("Nothing of the programme is missing on what is run.")
        return
    told = "; ".join(f"{fitting} on {number}" for _, number, fitting in lacks[:4])
    answer = await ask(
        page,
        "Centralizer missed",
        Field("how", "Now", choices=(LATER, NEVER)),
        Field("number", "On item", known_item(page.job), value=lacks[-1][1]),
        Field("reason", "Reason", choices=REASON_MISSED, open=True),
        says=f"Missing: {told}",
    )
    if not answer:
        return
    if answer["how"] == LATER:
        await install(page, answer["number"], despite=answer["reason"])
        return
    told_fields = {"number": answer["number"], "reason": answer["reason"]}
    await say(page, FittingMissed(**stamp(page), **told_fields))


async def _wrong_joint(page: Page) -> None:
    """Lead to the correction of the entry that ran the wrong joint."""
    answer = await ask(
        page,
        "Wrong joint found later",
        Field("number", "Which number does the book have in its place", known_item(page.job)),
        says="The entry that ran it is corrected to the number that is really there.",
    )
    if answer:
        await correct_run(page, answer["number"])


async def _crew(page: Page) -> None:
    """Hand over; from here on entries carry the name of the next lead."""
    others = tuple(name for name in page.job.people if name != page.shoedown.who)
    answer = await ask(
        page,
        "Crew change: hand over",
        Field("lead", "Who leads from here", choices=others),
        Field("told", "What was handed over"),
    )
    if not answer:
        return
    signers = await signed(page, page.shoedown.who, answer["lead"])
    if signers is None:
        return
    if await say(page, CrewChanged(**stamp(page), **answer, signed=signers)):
        page.shoedown.who = answer["lead"]
        page.draw()

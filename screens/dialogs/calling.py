"""Trouble on the plugs page: the lists that lie ready, fluid pumped back in, a test of the shoe."""

from __future__ import annotations

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.pins import signed
from screens.dialogs.reading_lists import lists_to_read, read_a_list
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import measure
from screens.pages.page import Page
from tally.job.entries.calling import ListStarted
from tally.job.entries.shoe import PumpedBackIn, ShoeTested
from tally.job.wet_shoe import suspect
from tally.job.working import on_call

PUMPED_BACK = "Fluid pumped back in"
TESTED = "Shoe tested"
READ = "Read a list without starting it"
HELD, NOT_HELD = "held", "did not hold"


async def call(page: Page) -> None:
    """Ask what is wrong; start its list, or enter what it says of the shoe."""
    if page.job.setup is None:
        await _read(page)
        return
    ready = {plan.title: plan for plan in on_call(page.job)}
    others = {PUMPED_BACK: _pumped_back, TESTED: _tested, READ: _read}
    started = ", ".join(page.job.lists[each].title for each in page.job.started)
    answer = await ask(
        page,
        "Trouble: start a list",
        Field("what", "Which", choices=(*ready, *others)),
        says=f"Started already: {started}" if started else "",
    )
    if not answer:
        return
    if answer["what"] in others:
        await others[answer["what"]](page)
        return
    plan = ready[answer["what"]]
    stamped = stamp(page)
    told = await ask(
        page, plan.title, Field("why", "What was seen"), says=plan.purpose, caution=plan.caution
    )
    if told:
        await say(page, ListStarted(**stamped, list_id=plan.id, why=told["why"]))


async def _read(page: Page) -> None:
    """Read a list for trouble without starting it: at the meeting, or before the job is set up."""
    await read_a_list(page, [plan for plan in lists_to_read(page.job) if plan.on_call])


async def _pumped_back(page: Page) -> None:
    """Enter what was pumped back in, and who decided it."""
    stamped, unit = stamp(page), page.job.known.shown.unit("volume")
    answer = await ask(
        page,
        PUMPED_BACK,
        Field("volume", "Volume pumped back in", measure("volume", unit), hint=unit),
        Field("decided", "Decided by", choices=tuple(page.job.people)),
        says="It can take the place of the cement at the shoe, and marks the shoe as suspect.",
    )
    if answer:
        await say(page, PumpedBackIn(**stamped, **answer))


async def _tested(page: Page) -> None:
    """Enter a test of the shoe; one that held clears it by a person's name."""
    stamped = stamp(page)
    answer = await ask(
        page,
        TESTED,
        Field("how", "How: pressure, time, what was seen"),
        Field("held", "It", choices=(HELD, NOT_HELD)),
        Field("cleared", "By the name of", choices=tuple(page.job.people)),
        says="\n".join(f"suspect: {each.why}" for each in suspect(page.job)),
    )
    if not answer:
        return
    signers = await signed(page, answer["cleared"])
    if signers is not None:
        told = {**answer, "held": answer["held"] == HELD, "signed": signers}
        await say(page, ShoeTested(**stamped, **told))

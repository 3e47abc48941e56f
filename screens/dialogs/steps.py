"""What the steps of a checklist ask, and the entries they make."""

from __future__ import annotations

from typing import Any

from screens.acts import others, pass_gates, say
from screens.dialogs.conditioning import fill_seen_full
from screens.dialogs.form import Field, Form
from screens.dialogs.pins import signed, signed_form
from screens.dialogs.rig_fields import from_rig
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import measure, measure_text, whole_number
from screens.pages.page import Page
from tally.job.entries.passing import DifferenceAnswered, PassingAnswered
from tally.job.entries.pumping import RETURNS, Pumped
from tally.job.entries.steps import (
    OUTCOMES,
    StepDone,
    StepPassed,
    StepWitnessed,
)
from tally.job.entry import clock
from tally.job.expected import expected
from tally.job.gates import slurry_under_way
from tally.job.job import Job, StepRecord
from tally.job.step_wants import gate_reasons, giving
from tally.job.witnessing import holding, nobody
from tally.steps.model import Checklist, Step

PRESSURES = ("cement pressure", "standpipe pressure")
RATES = ("cement rate", "flow in")
ROLES = {"pressure": PRESSURES, "flow rate": RATES}
"""What the rig's stream may fill in for a step, by quantity; never where two people compare."""


def shut_reasons(job: Job, place: tuple[Checklist, Step]) -> tuple[str, ...]:
    """Return why a step must wait."""
    return gate_reasons(job, *place)


async def do_step(page: Page, plan: Checklist, step: Step) -> None:
    """Do a step: at once where one key stores it, else with what it wants and its witness.

    The time is that of the key, however long the answers take.
    """
    stamped = stamp(page)
    record = page.job.steps.get((plan.id, step.id))
    if record is not None:
        page.refuse(
            f"Entered as {record.outcome} at {clock(record.at)}; c corrects entry {record.seq}."
        )
        return
    where: dict[str, Any] = {"list_id": plan.id, "step_id": step.id}
    if step.at_once and slurry_under_way(page.job) and gate_reasons(page.job, plan, step):
        if await say(page, StepDone(**stamped, **where)):
            await answer_passing(page, plan, step)
        return
    passing = await _pass_gates(page, plan, step)
    if passing is None or _nobody_for(page, step, stamped["by"]):
        return
    told = await _answered(page, plan, step, passing.get("second", ""))
    if told is None:
        return
    said = await say(page, StepDone(**stamped, **where, **{**passing, **told}))
    if said and step.blind and page.job.steps[(plan.id, step.id)].differs:
        await answer_difference(page, plan, step)
    if said and step.fills:
        await fill_seen_full(page)


def _nobody_for(page: Page, step: Step, doer: str) -> bool:
    """Refuse on the page where nobody can release the step or witness it; whether it was so."""
    job = page.job
    if step.blind and not giving(job, doer):
        page.refuse("Nobody but who is at the keys or set up the programme can give it; F2, a.")
        return True
    if step.at_once or not step.critical:
        return False
    lacks = nobody(job, step.who, "releasing this hold point") if step.hold_point else ""
    lacks = lacks or nobody(job, step.witness, "witnessing this step")
    if not lacks and not step.hold_point and not witnesses(job, step, doer):
        lacks = f"{doer} does it and nobody else can witness it; w: who is at the keys."
    if lacks:
        page.refuse(lacks)
    return bool(lacks)


def witnesses(job: Job, step: Step, doer: str) -> tuple[str, ...]:
    """Return who can witness a step that somebody did."""
    return tuple(name for name in holding(job, step.witness) if name != doer)


async def _answered(page: Page, plan: Checklist, step: Step, second: str) -> dict[str, Any] | None:
    """Ask for what a step wants and for the PINs; nothing where it was left."""
    doer = page.shoedown.who
    fields = [] if step.at_once else _fields(page, plan, step, doer)
    if not fields:
        signers = await signed(page, second)
        return None if signers is None else {"signed": signers}
    answer = await signed_form(
        page,
        step.text,
        fields,
        ("given", "released", "witness"),
        also=second,
        offer=step.hold_point,
        says=_expects(page.job, plan, step),
        caution=step.caution,
    )
    if answer and answer.get("released") == doer:
        answer["released"] = ""
    return answer


def _fields(page: Page, plan: Checklist, step: Step, doer: str) -> list[Field]:
    if not step.hold_point:
        return [*_seen(page, plan, step), *_given(page, step), *_witness(page, step, doer)]
    can = holding(page.job, step.who)
    first = doer if doer in can else can[0] if len(can) == 1 else ""
    released = Field("released", f"Released by ({step.who})", choices=can, value=first)
    return [*_seen(page, plan, step), *_given(page, step), released, *_witness(page, step, "")]


def _given(page: Page, step: Step) -> list[Field]:
    """Return the question who gave a figure unseen; whoever has the role stands in it."""
    if not step.blind:
        return []
    can = giving(page.job, page.shoedown.who)
    having = [name for name in can if name in holding(page.job, step.who)]
    first = having[0] if len(having) == 1 else ""
    label = "Second person, who gave it unseen"
    return [Field("given", label, choices=can, value=first)]


async def answer_passing(page: Page, plan: Checklist, step: Step) -> None:
    """Ask why a shut gate was passed by an event that is stored already."""
    reasons = gate_reasons(page.job, plan, step)
    answer = await pass_gates(page, f"Stored. Gate shut: {step.text}", reasons)
    if answer is None:
        page.refuse("The event is stored; k says why its shut gate was passed.")
        return
    signers = await signed(page, answer["second"])
    if signers is not None:
        told: dict[str, Any] = {
            "reason": answer["despite"],
            "second": answer["second"],
            "signed": signers,
        }
        told |= {"list_id": plan.id, "step_id": step.id}
        await say(page, PassingAnswered(**stamp(page), **told))


async def answer_difference(page: Page, plan: Checklist, step: Step) -> None:
    """Ask why a figure given unseen differs from ours, now that it is recorded."""
    record = page.job.steps[(plan.id, step.id)]
    answer = await ask(
        page,
        f"Recorded, and it differs: {step.text}",
        Field("reason", "Why it differs"),
        says=f"{record.differs} Find out why, both sheets beside each other. Esc leaves it open; "
        f"k answers it later, c corrects entry {record.seq}.",
    )
    if answer:
        told = {"list_id": plan.id, "step_id": step.id, "reason": answer["reason"]}
        await say(page, DifferenceAnswered(**stamp(page), **told))


async def _pass_gates(page: Page, plan: Checklist, step: Step) -> dict[str, str] | None:
    """Return the reason and second person for a shut gate; empty where none is shut."""
    reasons = gate_reasons(page.job, plan, step)
    return await pass_gates(page, f"Gate shut: {step.text}", reasons) if reasons else {}


def _expects(job: Job, plan: Checklist, step: Step) -> str:
    want = expected(job, plan, step)
    if want is None or step.blind:
        return ""
    how = "" if step.compare == "agrees" else f"{step.compare} "
    return f"Expected {how}{want.text} ({want.origin})"


def _seen(page: Page, plan: Checklist, step: Step) -> list[Field]:
    if step.want == "state":
        return [Field("state", "What was seen", choices=step.states)]
    if step.want == "value":
        unit = page.job.known.shown.unit(step.quantity)
        field = Field(
            "value", f"Value, {step.quantity}", measure_text(step.quantity, unit), hint=unit
        )
        roles = () if step.blind else ROLES.get(step.quantity, ())
        return [from_rig(page, field, *roles) if roles else field]
    return []


def _witness(page: Page, step: Step, doer: str) -> list[Field]:
    if not step.critical:
        return []
    label = f"Witness ({step.witness})" if step.witness else "Witness, not the doer"
    return [Field("witness", label, choices=witnesses(page.job, step, doer))]


async def confirm_step(page: Page, plan: Checklist, step: Step) -> None:
    """Ask for what one key has left open: why a gate was passed, the witness, what was seen."""
    record = page.job.steps[(plan.id, step.id)]
    if not record.answered:
        await answer_passing(page, plan, step)
    elif record.differs and step.blind:
        await answer_difference(page, plan, step)
    elif not _nobody_after(page, step, record.by):
        await _witness_step(page, plan, step, record)


def _nobody_after(page: Page, step: Step, doer: str) -> bool:
    """Refuse on the page where nobody can witness what was stored; whether it was so."""
    if not step.critical or witnesses(page.job, step, doer):
        return False
    lacks = nobody(page.job, step.witness, "witnessing this step")
    page.refuse(lacks or f"{doer} did it, and nobody else on this job can witness it; F2, a.")
    return True


async def _witness_step(page: Page, plan: Checklist, step: Step, record: StepRecord) -> None:
    """Confirm what one key has stored."""
    answer = await signed_form(
        page,
        f"{'Witness' if step.critical else 'Tell'}: {step.text}",
        [
            *(_seen(page, plan, step) if not (record.state or record.value) else []),
            *_witness(page, step, record.by),
        ],
        ("witness",),
        says=f"Entered by {record.by} at {clock(record.at)}. " + _expects(page.job, plan, step),
    )
    if answer:
        told: dict[str, Any] = {**stamp(page), **answer}
        await say(page, StepWitnessed(list_id=plan.id, step_id=step.id, **told))


async def pass_over(page: Page, plan: Checklist, step: Step) -> None:
    """Say that a step is not done or does not apply, with the reason."""
    fields = [
        Field("outcome", "Outcome", choices=OUTCOMES),
        Field("reason", "Reason"),
    ]
    if step.critical:
        fields.append(Field("second", "Second person", choices=others(page, page.shoedown.who)))
    answer = await signed_form(page, f"Pass over: {step.text}", fields, ("second",))
    if answer:
        told: dict[str, Any] = {**stamp(page), **answer}
        await say(page, StepPassed(list_id=plan.id, step_id=step.id, **told))


async def read_counts(page: Page) -> None:
    """Read both counts, the pressure and the rate."""
    shown = page.job.known.shown if page.job.setup else None
    if shown is None or page.job.zeroed is None:
        page.refuse("The volume is not zeroed yet; that comes with the release of the top plug.")
        return
    stamped = stamp(page)

    def wanted(key: str, label: str, quantity: str, *roles: str) -> Field:
        unit = shown.unit(quantity)
        field = Field(key, label, measure(quantity, unit), optional=True, hint=unit)
        return from_rig(page, field, *roles)

    answer = await page.app.push_screen_wait(
        Form(
            "Both counts since the zero",
            [
                wanted(
                    "tank",
                    "Volume by the displacement tank",
                    "volume",
                    "displacement tank",
                    "volume pumped",
                ),
                from_rig(page, Field("strokes", "Strokes", whole_number, optional=True), "strokes"),
                wanted("pressure", "Pump pressure", "pressure", *PRESSURES),
                wanted("rate", "Rate", "flow rate", *RATES),
                Field(
                    "returns_seen",
                    "Returns against the pump",
                    choices=RETURNS,
                    optional=True,
                ),
                wanted(
                    "returned", "Returned since the zero, by the pits", "volume", "returned volume"
                ),
            ],
        )
    )
    if answer:
        told = {key: one for key, one in answer.items() if one is not None}
        await say(page, Pumped(**stamped, **told))

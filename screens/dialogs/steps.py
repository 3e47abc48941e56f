"""What the steps of a checklist ask, and the entries they make."""

from __future__ import annotations

from typing import Any

from screens.acts import others, pass_gates, say
from screens.dialogs.conditioning import fill_seen_full
from screens.dialogs.form import Field, Form
from screens.dialogs.pins import signed
from screens.dialogs.running import stamp
from screens.dialogs.values import measure, measure_text, whole_number
from screens.pages.page import Page
from tally.job.entries.pumping import RETURNS, Pumped
from tally.job.entries.steps import (
    OUTCOMES,
    StepDone,
    StepPassed,
    StepWitnessed,
    gate_reasons,
)
from tally.job.entry import clock
from tally.job.expected import expected
from tally.job.job import Job
from tally.steps.model import Checklist, Step


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
    passing = await _pass_gates(page, plan, step)
    if passing is None:
        return
    answers: dict[str, Any] = {}
    if not step.at_once:
        fields = [*_seen(page, plan, step), *_witness(page, step, stamped["by"])]
        if fields:
            answered = await page.app.push_screen_wait(
                Form(step.text, fields, says=_expects(page.job, plan, step), caution=step.caution)
            )
            if not answered:
                return
            answers = {key: value or "" for key, value in answered.items()}
    signers = await signed(page, answers.get("witness", ""), passing.get("second", ""))
    if signers is None:
        return
    told: dict[str, Any] = {**stamped, **passing, **answers, "signed": signers}
    said = await say(page, StepDone(list_id=plan.id, step_id=step.id, **told))
    if said and step.fills:
        await fill_seen_full(page)


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
        return [
            Field("value", f"Value, {step.quantity}", measure_text(step.quantity, unit), hint=unit)
        ]
    return []


def _witness(page: Page, step: Step, doer: str) -> list[Field]:
    if not step.critical:
        return []
    label = f"Witness ({step.witness})" if step.witness else "Witness, not the doer"
    return [Field("witness", label, choices=others(page, doer))]


async def witness_step(page: Page, plan: Checklist, step: Step) -> None:
    """Confirm what one key has stored."""
    record = page.job.steps[(plan.id, step.id)]
    answer = await page.app.push_screen_wait(
        Form(
            f"{'Witness' if step.critical else 'Tell'}: {step.text}",
            [
                *(_seen(page, plan, step) if not (record.state or record.value) else []),
                *_witness(page, step, record.by),
            ],
            says=f"Entered by {record.by} at {clock(record.at)}. " + _expects(page.job, plan, step),
        )
    )
    if not answer:
        return
    signers = await signed(page, answer.get("witness", ""))
    if signers is not None:
        await say(
            page,
            StepWitnessed(
                **stamp(page), list_id=plan.id, step_id=step.id, signed=signers, **answer
            ),
        )


async def pass_over(page: Page, plan: Checklist, step: Step) -> None:
    """Say that a step is not done or does not apply, with the reason."""
    fields = [
        Field("outcome", "Outcome", choices=OUTCOMES),
        Field("reason", "Reason"),
    ]
    if step.critical:
        fields.append(Field("second", "Second person", choices=others(page, page.shoedown.who)))
    answer = await page.app.push_screen_wait(Form(f"Pass over: {step.text}", fields))
    if not answer:
        return
    signers = await signed(page, answer.get("second", ""))
    if signers is not None:
        told: dict[str, Any] = {**stamp(page), **answer, "signed": signers}
        await say(page, StepPassed(list_id=plan.id, step_id=step.id, **told))


async def read_counts(page: Page) -> None:
    """Read both counts, the pressure and the rate."""
    shown = page.job.known.shown if page.job.setup else None
    if shown is None or page.job.zeroed is None:
        page.refuse("The volume is not zeroed yet; that comes with the release of the top plug.")
        return
    stamped = stamp(page)

    def wanted(key: str, label: str, quantity: str) -> Field:
        unit = shown.unit(quantity)
        return Field(key, label, measure(quantity, unit), optional=True, hint=unit)

    answer = await page.app.push_screen_wait(
        Form(
            "Both counts since the zero",
            [
                wanted("tank", "Volume by the displacement tank", "volume"),
                Field("strokes", "Strokes", whole_number, optional=True),
                wanted("pressure", "Pump pressure", "pressure"),
                wanted("rate", "Rate", "flow rate"),
                Field(
                    "returns_seen",
                    "Returns against the pump",
                    choices=RETURNS,
                    optional=True,
                ),
                wanted("returned", "Returned since the zero, by the pits", "volume"),
            ],
        )
    )
    if answer:
        told = {key: one for key, one in answer.items() if one is not None}
        await say(page, Pumped(**stamped, **told))

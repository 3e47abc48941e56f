"""What was checked: drift, visual, thread, inspection of one joint or of many; a failed one."""

from __future__ import annotations

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import measure, numbers_of
from screens.pages.page import Page
from tally.job.checks import CHECKS, DRIFT
from tally.job.entries.rack import Checked
from tally.job.entries.running import Rejected
from tally.job.job import ON_RACK, Job
from tally.job.naming import in_short

PASSED, FAILED = "passed", "failed"
REJECT, KEEP = "yes, reject", "no, it stays on the rack"
LATE = ("checked before, not written down", "checked again at the floor")


async def check(page: Page, number: str) -> None:
    """Note a check of the joint at the cursor, or of a range; offer to reject what failed."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; there is no pipe to check.")
        return
    answer = await ask(page, "Drift, visual, thread, inspection", *_fields(page, number))
    if not answer:
        return
    passed, what = answer["found"] == PASSED, answer["what"]
    failure = None if passed else await _failure(page, answer["numbers"], what)
    if not passed and failure is None:
        return
    note, reject = failure or ("", False)
    entry = Checked(
        **stamp(page),
        what=what,
        passed=passed,
        numbers=answer["numbers"],
        who=answer["who"],
        mandrel=answer["mandrel"] if what == DRIFT else None,
        note=note,
    )
    if await say(page, entry, reasons=LATE) and reject:
        await _reject(page, entry)


def _fields(page: Page, number: str) -> list[Field]:
    unit = page.job.known.shown.unit("diameter")
    return [
        Field("numbers", "Joints", numbers_of(page.job), value=number, hint="1-40, 43"),
        Field("what", "Check", choices=CHECKS, value=DRIFT),
        Field("found", "Found", choices=(PASSED, FAILED), value=PASSED),
        Field(
            "mandrel",
            "Mandrel",
            measure("diameter", unit),
            value=_last_mandrel(page.job),
            optional=True,
            hint=f"{unit}, for a drift",
        ),
        Field("who", "Checked by", value=page.shoedown.who),
    ]


def _last_mandrel(job: Job) -> str:
    """Return the mandrel of the last drift, which mostly goes through the next joint too."""
    drifts = [mark for (_, what), mark in job.checks.items() if what == DRIFT and mark.mandrel]
    last = max(drifts, key=lambda mark: mark.seq, default=None)
    return last.mandrel.text if last and last.mandrel else ""


async def _failure(page: Page, numbers: tuple[str, ...], what: str) -> tuple[str, bool] | None:
    """Ask what was found, and whether what failed is rejected: a failure alone rejects nothing."""
    there = _on_rack(page.job, numbers)
    found = Field("note", "What was found", optional=True)
    offer = Field("reject", "Reject now?", choices=(REJECT, KEEP), value=REJECT)
    answer = await ask(
        page,
        f"{in_short(numbers)} failed {what}",
        *((found, offer) if there else (found,)),
        says="Failed alone rejects nothing; a joint that is kept asks when its turn comes.",
    )
    if not answer:
        return None
    return answer["note"] or "", answer.get("reject") == REJECT


async def _reject(page: Page, entry: Checked) -> None:
    reason = f"failed {entry.what}" + (f": {entry.note}" if entry.note else "")
    for number in _on_rack(page.job, entry.numbers):
        if not await say(page, Rejected(**stamp(page), number=number, reason=reason)):
            return


def _on_rack(job: Job, numbers: tuple[str, ...]) -> list[str]:
    return [one for one in numbers if one in job.items and job.items[one].state == ON_RACK]

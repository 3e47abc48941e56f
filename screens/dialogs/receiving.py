"""The joints of a bundle or a truck counted against its delivery note."""

from __future__ import annotations

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import numbers_of, whole_number
from screens.pages.page import Page
from tally.job.entries.rack import BundleCounted

DIFFERS = ("counted twice, the note is wrong", "one was not loaded", "to be cleared with the yard")


async def count_bundle(page: Page) -> None:
    """Note the count of a bundle; where the note says otherwise the book asks."""
    job = page.job
    if job.setup is None:
        page.refuse("The job is not set up yet; set it up before pipe is counted.")
        return
    answer = await ask(
        page,
        "Joints of a bundle or a truck",
        Field("bundle", "Bundle or truck", value=f"{len(job.bundles) + 1}"),
        Field("noted", "By the delivery note", whole_number, optional=True),
        Field("counted", "As counted", whole_number, hint="by a person, not from the note"),
        Field(
            "numbers",
            "Its numbers",
            numbers_of(job),
            optional=True,
            hint="1-40, 43; empty if they are not painted yet",
        ),
    )
    if answer:
        told = {**answer, "numbers": answer["numbers"] or ()}
        await say(page, BundleCounted(**stamp(page), **told), reasons=DIFFERS)

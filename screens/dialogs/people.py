"""Somebody new on the job."""

from __future__ import annotations

from collections.abc import Callable

from screens.acts import say
from screens.dialogs.form import Field, Form
from screens.pages.page import Page
from tally.errors import InputError
from tally.job.entries.people import PersonAdded
from tally.job.job import Job
from tally.job.setup import ROLES
from tally.steps.model import Step
from tally.units import clean


async def add_person(page: Page) -> str:
    """Add somebody to the people of the job; return the name, or nothing when cancelled."""
    answer = await page.app.push_screen_wait(
        Form(
            "Somebody new on the job",
            [
                Field("name", "Name", _new_name(page.job)),
                Field("role", "Role", choices=roles(page.job)),
            ],
        )
    )
    if not answer:
        return ""
    app = page.shoedown
    entry = PersonAdded(by=app.who or answer["name"], at=app.now(), **answer)
    return str(answer["name"]) if await say(page, entry) else ""


def roles(job: Job) -> tuple[str, ...]:
    """Return the roles that a person may have: the usual ones, and those that a list names."""
    named = (role for plan in job.lists.values() for step in plan.steps for role in _of(step))
    return tuple(dict.fromkeys((*ROLES, *named)))


def _of(step: Step) -> tuple[str, ...]:
    return tuple(role for role in (step.who, step.witness) if role)


def _new_name(job: Job) -> Callable[[str], str]:
    """Return a reader of a name that nobody on the job has."""
    taken = {name.casefold(): person for name, person in job.people.items()}

    def read(text: str) -> str:
        name = clean(text, 60)
        other = taken.get(name.casefold())
        if other is not None:
            raise InputError(f"{other.name} is on the job already, as {other.role}.")
        return name

    return read

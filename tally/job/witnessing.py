"""Who may stand behind a step: the role it names, and the PIN of whoever has one."""

from __future__ import annotations

from collections.abc import Iterable

from tally.job.job import Job, StepRecord
from tally.job.setup import same_name
from tally.steps.model import Step

WITHOUT_PIN = "without a PIN"


def holding(job: Job, role: str) -> tuple[str, ...]:
    """Return the names of those on the job who have a role; everybody where none is named."""
    people = job.people.values()
    return tuple(one.name for one in people if not role or same_name(one.role, role))


def nobody(job: Job, role: str, what: str) -> str:
    """Return that nobody on the job has the role that something is for, or nothing."""
    if holding(job, role):
        return ""
    return f"Nobody on this job is {role}, and {what} is for that role; add the person (F2, a)."


def other_role(job: Job, name: str, role: str, what: str) -> str:
    """Return why a person on the job cannot stand for a role, or nothing."""
    having = holding(job, role)
    person = job.people.get(name)
    if person is None or name in having:
        return ""
    return nobody(job, role, what) or (
        f"{name} is {person.role}; {what} is for the {role}: {', '.join(having)}."
    )


def unsigned(job: Job, names: Iterable[str], signed: Iterable[str]) -> str:
    """Return who has a PIN and did not sign with it, or nothing."""
    for name in names:
        if name in job.pins and name not in signed:
            return f"{name} has a PIN and has not signed with it; enter it again with the PIN."
    return ""


def signed_how(name: str, signed: Iterable[str]) -> str:
    """Return a name with how it was signed.

    >>> signed_how("N. Haddad", ("N. Haddad",)), signed_how("N. Haddad", ())
    ('N. Haddad, with PIN', 'N. Haddad, without a PIN')
    """
    return f"{name}, {'with PIN' if name in signed else WITHOUT_PIN}"


def behind(step: Step, record: StepRecord) -> tuple[str, ...]:
    """Return who stands behind a step, and how each signed: for a hold point its releaser too."""
    released = (record.by,) if step.hold_point else ()
    witness = (record.witness,) if record.witness and step.critical else ()
    return tuple(signed_how(name, record.signed) for name in (*released, *witness))

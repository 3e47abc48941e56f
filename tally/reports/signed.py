"""How a report was signed and amended, in the words that every way of writing it shares."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tally.job.issue import Amendment, Issue
from tally.job.setup import same_name
from tally.job.signature import Signature
from tally.job.unfinished import unfinished
from tally.reports.final_tally import FinalTally
from tally.reports.text_parts import offset, stamp, who

UNSIGNED = "Not final until it is signed on the last page."
SHORT_HASH = 12
_STICK_UP = "; depths rest on the usual stick-up"


def standing(tally: FinalTally, report: str) -> str:
    """Return what stands at the head of each page: whether it is final, and which issue it is."""
    lacks = unfinished(tally.job, report)
    if lacks:
        return f"NOT FINAL: {lacks}{_STICK_UP if report == 'tally' else ''}."
    return issue_told(tally.issues[report]) + still_open(tally)


def still_open(tally: FinalTally) -> str:
    """Return how many exceptions are still open, to stand behind a sentence, or nothing."""
    still = len(tally.open_exceptions)
    return f" Exceptions still open: {still}." if still else ""


def not_final(tally: FinalTally, report: str) -> str:
    """Return in a sentence why a report cannot be signed yet, or nothing."""
    lacks = unfinished(tally.job, report)
    return f"NOT FINAL: {lacks}." if lacks else ""


def issue_told(issue: Issue) -> str:
    """Return in a sentence which issue a report is, and who approved it or what it waits for."""
    named = f"{issue.name[0].upper()}{issue.name[1:]}"
    if issue.approved:
        by = ", ".join(who(one.name, one.at) for one in issue.approved)
        return f"{named}, approved by {by}."
    if not issue.signatures and not issue.earlier:
        return UNSIGNED
    return f"{named}, not final: {issue.not_final}."


def file_mark(tally: FinalTally, report: str) -> str:
    """Return what the name of a file says of a report: not final, or which later issue it is."""
    number = tally.issues[report].number
    issue = f"-issue-{number}" if number > 1 else ""
    return issue + ("-not-final" if unfinished(tally.job, report) else "")


def signing_lines(
    issue: Issue, roles: Sequence[tuple[str, str]]
) -> Iterator[tuple[str, str, Signature | None]]:
    """Yield a line for each role that must sign, with who signed, then those who signed besides."""
    left = list(issue.signatures)
    for role, name in roles:
        own = [one for one in left if same_name(one.role, role)]
        yield from ((role, one.name, one) for one in own)
        left = [one for one in left if one not in own]
        if not own:
            yield role, name, None
    yield from ((one.role, one.name, one) for one in left)


def signed_told(one: Signature) -> tuple[str, str]:
    """Return what a signature means and how it was made, and when, with its entry."""
    zone = offset(one.at)
    return f"{one.meaning}, {one.how}", f"{stamp(one.at)} {zone} (entry {one.seq})"


def earlier_told(one: Signature, number: int) -> str:
    """Return a signature under an issue before this one, and what it stands on."""
    return (
        f"{one.meaning} before issue {number} by {one.name}, {one.role}, "
        f"{stamp(one.at)} {offset(one.at)}, {one.how}: "
        f"entries 1 to {one.entries}, the last hash {one.head[:SHORT_HASH]}."
    )


def amendments_told(issue: Issue) -> tuple[str, ...]:
    """Return what this issue has to say of those before it: who signed, what was amended since."""
    if issue.number == 1:
        return ()
    signed = (earlier_told(one, issue.number) for one in issue.earlier)
    added = f"Entries added since, which amend nothing that was signed: {issue.added}."
    told = (f"{each[0].upper()}{each[1:]}" for each in signed)
    return (*told, *(amendment_told(one) for one in issue.amendments), added)


def amendment_told(one: Amendment) -> str:
    """Return one amendment: the entry, both values, who, when and why."""
    values = "; ".join(str(each) for each in one.values)
    both = values or f"was {one.was}, now {one.now}"
    return (
        f"Issue {one.issue}: entry {one.seq} amends entry {one.of} ({one.was}), "
        f"{who(one.by, one.at)}: {one.reason or 'no reason given'}. {both[0].upper()}{both[1:]}."
    )

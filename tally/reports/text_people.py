"""The last sections of the text page: what was installed, what was accepted, who signs."""

from __future__ import annotations

from tally.job.signature import Signature
from tally.reports.final_tally import CAUTION, FinalTally
from tally.reports.guard import plain
from tally.reports.page import WIDTH, Column, Lines, Section, headings, rule, wrapped
from tally.reports.said import Accepted, Corrected
from tally.reports.signed import amendments_told, signed_told, signing_lines
from tally.reports.text_parts import cells, stacked, who

_FITTINGS = (
    Column("", 34),
    Column("installed", 10, right=True),
    Column("wanted", 10, right=True),
    Column("difference", 10, right=True),
    Column("", 15),
    Column("whole programme", 16, right=True),
)
_SIGNED = (Column("", 24), Column("", 26), Column("", 48))
_PEOPLE = (Column("name", 50), Column("role", 49))


def fittings_section(tally: FinalTally) -> Section:
    """Return what is installed against what the programme wants on the joints run."""
    heading = (rule("CENTRALIZERS AND SCRATCHERS, on the joints run"),)
    if not tally.fittings:
        return Section(heading, (("None in the programme, none installed.", ""),))
    lines = [cells(_FITTINGS, *row) for row in fitting_rows(tally)]
    table = stacked(headings(_FITTINGS), *lines, ("",))
    return Section(heading, (table, _missing(tally), ("",)))


def fitting_rows(tally: FinalTally) -> tuple[tuple[str, ...], ...]:
    """Return each kind: installed, wanted, the difference, whether it agrees, the programme."""
    return tuple(
        (
            one.what,
            str(one.installed),
            str(one.wanted),
            f"{one.difference:+d}" if one.difference else "0",
            "agrees" if not one.difference else "DOES NOT AGREE",
            str(one.programme),
        )
        for one in tally.fittings
    )


def _missing(tally: FinalTally) -> Lines:
    return wrapped(plain(missing_told(tally)), hang=2)


def missing_told(tally: FinalTally) -> str:
    """Return what the programme wants on the joints run and is not there."""
    if not tally.missing:
        return "On every joint run what the programme wants is installed."
    lacks = (f"{fitting} on {number}" for _, number, fitting in tally.missing)
    return f"Wanted and not installed: {'; '.join(lacks)}."


def exceptions_section(tally: FinalTally) -> Section:
    """Return the differences that were accepted, open or closed, with who and when."""
    still = sum(1 for one in tally.exceptions if not one.closed_by)
    heading = (rule(f"EXCEPTIONS: {len(tally.exceptions)}, of them open: {still}"),)
    if not tally.exceptions:
        return Section(heading, (("None.", ""),))
    return Section(heading, (*(_exception(one) for one in tally.exceptions), ("",)))


def _exception(one: Accepted) -> Lines:
    accepted, settled = exception_told(one)
    return stacked(
        wrapped(plain(accepted), hang=2),
        ("  " + line for line in wrapped(plain(settled), WIDTH - 2, hang=2)),
    )


def exception_told(one: Accepted) -> tuple[str, str]:
    """Return what was accepted, and how it was closed if it was."""
    settled = (
        f"Closed by {who(one.closed_by, one.closed_at)}: {one.closing}"
        if one.closed_by
        else "OPEN: nobody has closed it."
    )
    return f"Entry {one.seq}, {who(one.by, one.at)}: {one.what}", settled


def corrections_section(tally: FinalTally) -> Section:
    """Return every correction: what was said first, what stands now, who, when and why."""
    heading = (rule(f"CORRECTIONS: {len(tally.corrections)}"),)
    if not tally.corrections:
        return Section(heading, (("None.", ""),))
    return Section(heading, (*(_correction(one) for one in tally.corrections), ("",)))


def _correction(one: Corrected) -> Lines:
    return wrapped(plain(correction_told(one)), hang=2)


def correction_told(one: Corrected) -> str:
    """Return what was said first, what stands now, who, when and why."""
    both = f"Was: {one.was}. Now: {one.now}."
    if one.was == one.now:
        both = f"In: {one.was}."
    unsaid = f" {one.unsaid[0].upper()}{one.unsaid[1:]}." if one.unsaid else ""
    return (
        f"Entry {one.seq} corrects entry {one.of}, {who(one.by, one.at)}: {one.reason}. "
        f"{both}{unsaid}"
    )


def amendments_section(tally: FinalTally) -> Section:
    """Return what was amended after signing, both values beside each other."""
    issue = tally.issues["tally"]
    told = tuple(wrapped(plain(one), hang=2) for one in amendments_told(issue))
    heading = (rule(f"AMENDMENTS AFTER SIGNING: {len(issue.amendments)}"),)
    return Section(heading, (*told, ("",)) if told else ())


def people_section(tally: FinalTally) -> Section:
    """Return the people of the job with their roles."""
    lines = [cells(_PEOPLE, person.name, person.role) for person in tally.people]
    none = () if lines else ("Nobody is named.",)
    return Section((rule("PEOPLE"),), (stacked(headings(_PEOPLE), *lines, none, ("",)),))


def signatures_section(tally: FinalTally) -> Section:
    """Return the caution and a line to sign on for each who must."""
    lines = [
        signature_line(role, name) if one is None else _signed(one)
        for role, name, one in signing_lines(tally.issues["tally"], tally.signatures)
    ]
    not_final = () if tally.final else ("NOT FINAL: do not sign as the final tally.", "")
    group = stacked(wrapped(CAUTION), ("",), not_final, *lines)
    return Section((rule("CAUTION AND SIGNATURES"),), (group,))


def _signed(one: Signature) -> Lines:
    meaning, at = signed_told(one)
    return ("", *cells(_SIGNED, one.role, one.name, f"signed: {meaning}, {at}"), "")


def signature_line(role: str, name: str) -> Lines:
    """Return a line to sign on."""
    label = plain(name) if len(plain(name)) <= 26 else ""
    blank = label.ljust(26) if label else "_" * 26
    line = f"{role:<24} {blank} signed {'_' * 20} date {'_' * 15}"
    return ("", line, "")

"""The sections that the documents share: the job, depths, counts, what was accepted, who signs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tally.job.issue import Issue
from tally.job.signature import Signature
from tally.reports.final_tally import CAUTION, FinalTally
from tally.reports.pdf.document import Section
from tally.reports.pdf.pieces import LEADING, Pieces, Space, Table, paragraph, table
from tally.reports.signed import amendments_told, signed_told, signing_lines
from tally.reports.text_counts import NOT_COUNTED, counted_by_hand, counts
from tally.reports.text_depths import (
    NO_COLLAR,
    ROUNDED,
    called,
    convention,
    converted,
    shoe_track,
    sums,
    volumes,
)
from tally.reports.text_job import job_lines, pipe_rows
from tally.reports.text_people import (
    correction_told,
    exception_told,
    fitting_rows,
    missing_told,
)
from tally.reports.text_running import running_told

_LABEL = 150.0


def pairs(room: float, told: Iterable[tuple[str, str]]) -> tuple[Pieces, ...]:
    """Return labels with what stands for them."""
    columns = table(room, ("", _LABEL), ("", 0.0))
    return tuple(columns.row(each) for each in told)


def listed(columns: Table, rows: Iterable[Sequence[str]]) -> tuple[Pieces, ...]:
    """Return a group for each row of a table."""
    return tuple(columns.row(row) for row in rows)


def job_section(tally: FinalTally, room: float) -> Section:
    """Return the well, the hole, the pipe, and when and by whom the string was landed."""
    lines = ((label, ", ".join(part for part in told if part)) for label, *told in job_lines(tally))
    columns = table(
        room,
        *(("key", 20.0), ("pipe", 0.0), ("OD", 52.0, True), ("ID", 52.0, True)),
        *(("weight", 56.0, True), ("grade", 70.0), ("connection", 90.0)),
    )
    first, *others = listed(columns, pipe_rows(tally))
    told = pairs(room, ((label, text) for label, text in lines if text))
    return Section("Job", (*told, (Space(), *columns.heading(), *first), *others))


def depths_section(tally: FinalTally, room: float) -> Section:
    """Return where the string stands, and what the depths are measured from."""
    named = f"Depths and lengths, in {tally.setup.step.unit}"
    if not tally.rows:
        return Section(named, (paragraph("Nothing is run yet.", room),))
    show = tally.setup.step.show
    columns = table(room, ("", _LABEL), ("", 62.0, True), ("", 0.0))
    added = tuple(
        (
            *(
                piece
                for label, steps, told in each
                for piece in _sum(columns, label, show(steps), told)
            ),
            Space(),
        )
        for each in (*sums(tally), shoe_track(tally))
        if each
    )
    lacks = () if tally.shoe_track else (paragraph(NO_COLLAR, room),)
    measured = (*paragraph(convention(tally.setup.well.datum), room), Space())
    return Section(named, (measured, *added, *lacks, *_places(tally, room)))


def _sum(columns: Table, label: str, value: str, told: str) -> Pieces:
    return columns.row([label, value, told], bold=label.split(",")[0].isupper())


def _places(tally: FinalTally, room: float) -> tuple[Pieces, ...]:
    show = tally.setup.step.show
    columns = table(room, ("item", _LABEL), ("top", 62.0, True), ("bottom", 62.0, True), ("", 0.0))
    rows = [
        columns.row([called(row), show(row.top), show(row.bottom), row.description])
        for row in tally.rows
        if not row.joint
    ]
    return ((*columns.heading(), *rows[0]), *rows[1:]) if rows else ()


def counts_section(tally: FinalTally, room: float) -> Section:
    """Return the counts that must agree, by number and by length."""
    step = tally.setup.step
    columns = table(room, ("", _LABEL), ("joints", 40.0, True), ("length", 62.0, True), ("", 0.0))
    groups = [
        (
            *(
                piece
                for label, share, note in group
                for piece in columns.row(
                    [label, f"{share.count:,}", step.show(share.length), note],
                    bold=label.isupper(),
                )
            ),
            Space(),
        )
        for group in counts(tally)
    ]
    by_hand = counted_by_hand(tally)
    if by_hand is None:
        last = paragraph(NOT_COUNTED, room)
    else:
        last = columns.row([by_hand[0], by_hand[1], "", by_hand[2]])
    return Section(f"Counts, lengths in {step.unit}", (*groups, last), columns.heading())


def volumes_section(tally: FinalTally, room: float) -> Section:
    """Return the volumes and weights of the string as run; each is rounded by itself."""
    columns = table(room, ("", _LABEL), ("", 62.0, True), ("", 0.0))
    said = converted(tally)
    more = (paragraph(said, room),) if said else ()
    told = (*paragraph(ROUNDED, room), Space())
    return Section("Volumes and weights", (told, *listed(columns, volumes(tally)), *more))


def fittings_section(tally: FinalTally, room: float) -> Section:
    """Return what is installed against what the programme wants on the joints run."""
    named = "Centralizers and scratchers, on the joints run"
    if not tally.fittings:
        return Section(named, (paragraph("None in the programme, none installed.", room),))
    columns = table(
        room,
        *(("", 0.0), ("installed", 46.0, True), ("wanted", 46.0, True)),
        *(("difference", 50.0, True), ("", 80.0), ("whole programme", 80.0, True)),
    )
    missing = (Space(), *paragraph(missing_told(tally), room, indent=8.0))
    return Section(named, (*listed(columns, fitting_rows(tally)), missing), columns.heading())


def while_running_section(tally: FinalTally, room: float) -> Section:
    """Return what was read of the connections, flow checks, trouble and changes of crew."""
    told = running_told(tally.job)
    none = (paragraph("No flow check, trouble or change of crew is entered.", room),)
    return Section("While running", tuple(paragraph(one, room, indent=8.0) for one in told) or none)


def exceptions_section(tally: FinalTally, room: float) -> Section:
    """Return the differences that were accepted, open or closed, with who and when."""
    still = len(tally.open_exceptions)
    named = f"Exceptions: {len(tally.exceptions)}, of them open: {still}"
    groups = []
    for one in tally.exceptions:
        accepted, settled = exception_told(one)
        beside = table(room, ("", 8.0), ("", 0.0)).row(["", settled], bold=not one.closed_by)
        groups.append((*paragraph(accepted, room, indent=8.0), *beside))
    return Section(named, tuple(groups) or (paragraph("None.", room),))


def corrections_section(tally: FinalTally, room: float) -> Section:
    """Return every correction: what was said first, what stands now, who, when and why."""
    groups = tuple(paragraph(correction_told(one), room, indent=8.0) for one in tally.corrections)
    named = f"Corrections: {len(tally.corrections)}"
    return Section(named, groups or (paragraph("None.", room),))


def people_section(tally: FinalTally, room: float) -> Section:
    """Return the people of the job with their roles."""
    columns = table(room, ("name", 0.0), ("role", 0.0))
    rows = listed(columns, ((person.name, person.role) for person in tally.people))
    return Section("People", rows or (paragraph("Nobody is named.", room),), columns.heading())


def amendments_section(tally: FinalTally, room: float, report: str) -> Section:
    """Return what was amended after signing, both values beside each other."""
    issue = tally.issues[report]
    told = amendments_told(issue)
    groups = tuple(paragraph(one, room, indent=8.0) for one in told)
    return Section(f"Amendments after signing: {len(issue.amendments)}", groups)


def signatures_section(
    tally: FinalTally,
    room: float,
    roles: Sequence[tuple[str, str]],
    unfinished: str,
    report: str,
) -> Section:
    """Return the caution, who signed, and a line for each who must; all of it on one page."""
    bold = (*paragraph(unfinished, room, bold=True), Space()) if unfinished else ()
    lines = signed_lines(tally.issues[report], roles, room)
    group = (*paragraph(CAUTION, room), Space(), *bold, *lines)
    return Section("Caution and signatures", (group,))


def signed_lines(issue: Issue, roles: Sequence[tuple[str, str]], room: float) -> Pieces:
    """Return printed name, role, meaning, date and time of each signature, or a line to sign on."""
    return tuple(
        piece
        for role, name, one in signing_lines(issue, roles)
        for piece in (signature(role, name, room) if one is None else _signed(one, room))
    )


def _signed(one: Signature, room: float) -> Pieces:
    columns = table(room, ("", 104.0), ("", 108.0), ("", 0.0), ("", 160.0))
    line = columns.row([one.role, one.name, *signed_told(one)], bold=True)
    return (Space(1.2 * LEADING), *line, Space(0.6 * LEADING))


def signature(role: str, name: str, room: float) -> Pieces:
    """Return a line to sign on."""
    columns = table(room, ("", 118.0), ("", 130.0), ("", 0.0), ("", 130.0))
    blank = "_" * 28
    line = columns.row([role, name or blank, f"signed {'_' * 22}", f"date {'_' * 20}"])
    return (Space(1.2 * LEADING), *line, Space(0.6 * LEADING))

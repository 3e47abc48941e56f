"""The fields that regulators ask for, on one page, to be copied into the form of the place."""

from __future__ import annotations

from tally.reports.fields import Fields
from tally.reports.final_tally import FinalTally, only_name
from tally.reports.pdf.document import Document, Section, written
from tally.reports.pdf.letters import shortened
from tally.reports.pdf.paper import Paper
from tally.reports.pdf.parts import signed_lines
from tally.reports.pdf.pieces import Pieces, Space, height, paragraph, table, title
from tally.reports.pdf.tally_pdf import titled
from tally.reports.regulator_fields import regulator_fields
from tally.reports.signed import amendments_told, standing

_LABEL = 160.0
_SET = "Smallest common set"
_TITLE = "Fields for the regulator's form"
_CAUTION = (
    "To be copied into the form of the place, which may ask for more. What the book does not have "
    "is said to be not recorded. Local codes come first."
)
_CUT = "Texts that end in three dots are cut to keep to one page; the report has them in full."


def regulator_pdf(tally: FinalTally, paper: Paper) -> bytes:
    """Return the page as a file."""
    return written(regulator_document(tally, paper), paper)


def regulator_document(tally: FinalTally, paper: Paper) -> Document:
    """Return the page; where it would not hold all, texts are cut to a line and it says so."""
    page = _page(tally, paper.width, whole=True)
    if height(title(_SET, paper.width)) + height(page) > paper.height:
        page = _page(tally, paper.width, whole=False)
    return titled(tally, _TITLE, standing(tally, "fields"), (Section(_SET, (page,)),))


def _page(tally: FinalTally, room: float, *, whole: bool) -> Pieces:
    groups = [_group(one, room, whole=whole) for one in regulator_fields(tally)]
    role = "company representative"
    return (
        *paragraph(_CAUTION, room),
        *(() if whole else paragraph(_CUT, room, bold=True)),
        *(piece for group in groups for piece in group),
        *_amended(tally, room),
        *signed_lines(tally.issues["fields"], [(role, only_name(tally.job, role))], room),
    )


def _amended(tally: FinalTally, room: float) -> Pieces:
    """Return what was amended after signing, where it was."""
    told = amendments_told(tally.issues["fields"])
    lines = (piece for one in told for piece in paragraph(one, room, indent=8.0))
    heading = paragraph("Amendments after signing", room, bold=True)
    return (Space(4.0), *heading, *lines) if told else ()


def _group(told: Fields, room: float, *, whole: bool) -> Pieces:
    columns = table(room, ("", _LABEL), ("", 0.0))
    widths = [column.width for column in columns.columns]
    rows = (
        columns.row(
            each
            if whole
            else [shortened(text, wide) for text, wide in zip(each, widths, strict=True)]
        )
        for each in told.fields
    )
    return (
        Space(4.0),
        *paragraph(told.title, room, bold=True),
        *(piece for row in rows for piece in row),
    )

"""Pages: no heading without what it heads, headings on each page, nothing over the foot."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tally.reports.pdf.document import Document, Section, parted, written
from tally.reports.pdf.paper import A4, LETTER, Paper
from tally.reports.pdf.pieces import Line, Piece, Space, height, table, title
from tests.tally.reports.pdf.reading import lines, outside

COLUMNS = table(A4.width, ("number", 60.0, True), ("said", 0.0))


def section(name: str, groups: list[int]) -> Section:
    """Return a section with groups of so many rows."""
    made = tuple(
        tuple(piece for row in range(rows) for piece in COLUMNS.row([f"{name}{place}", str(row)]))
        for place, rows in enumerate(groups)
    )
    return Section(name, made, COLUMNS.heading())


def text_of(piece: Piece) -> str:
    """Return what a line says; nothing for another piece."""
    return piece.texts[0][1] if isinstance(piece, Line) else ""


SECTIONS = st.lists(
    st.lists(st.integers(1, 90), min_size=1, max_size=8).map(lambda groups: section("S", groups)),
    min_size=1,
    max_size=5,
)


@settings(max_examples=60, deadline=None)
@given(SECTIONS, st.sampled_from([A4, LETTER]))
def test_every_page_holds_its_pieces_and_every_heading_has_a_row(
    sections: list[Section], paper: Paper
) -> None:
    bodies = parted(sections, paper)
    rows = sum(len(group) for each in sections for group in each.groups)
    opening = len(title("S", paper.width)) + len(COLUMNS.heading())
    openings = 0
    for body in bodies:
        assert 0 < height(body) <= paper.height + 1e-6
        starts = [at for at, piece in enumerate(body) if text_of(piece) in ("S", "S, continued")]
        assert starts[0] == 1, "a page begins with a title"
        for start, end in zip(starts, [*starts[1:], len(body) + 1], strict=True):
            assert end - start > opening, "a title stands over nothing"
        openings += len(starts)
    assert sum(map(len, bodies)) == rows + openings * opening


def test_a_group_is_not_parted_while_it_fits_a_page() -> None:
    for body in parted([section("S", [20, 20, 20, 20])], A4):
        rows = [text_of(piece) for piece in body]
        assert all(rows.count(f"S{place}") in (0, 20) for place in range(4))


def test_a_page_says_what_it_is_and_how_many_there_are() -> None:
    made = written(
        Document("Title", "Well, string", "NOT FINAL.", 7, "ab" * 32, "2026-01-01 10:00",
                 (section("S", [200]), Section("T", ((Space(3.0),),)))),
        LETTER,
    )  # fmt: skip
    read = lines(made)
    assert len(read) == 4
    for number, page in enumerate(read, start=1):
        assert page[0].startswith("Title")
        text = "\n".join(page)
        assert f"page {number} of 4" in text
        assert "Well, string" in text
        assert "NOT FINAL." in text
        assert f"7 entries, the last at 2026-01-01 10:00; chain ends {'ab' * 32}" in text
        assert ("S, continued" in text) == (number > 1)
    assert outside(made, LETTER) == []

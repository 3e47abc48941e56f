"""Pages: groups kept together, headings repeated, long groups parted."""

from tally.reports.page import LINES, Column, Section, pages, row, wrapped


def paged(*sections: Section) -> list[list[str]]:
    """Return the bodies of the pages, empty lines left off."""
    made = pages(sections, lambda page, count: (f"{page}/{count}",), lambda *_: ("foot",))
    assert {len(page) for page in made} == {LINES}
    return [[line for line in page[1:-1] if line] for page in made]


def test_a_group_goes_to_the_next_page_whole() -> None:
    groups = tuple((f"g{number}",) * 25 for number in range(3))
    first, second = paged(Section(("head",), groups))
    assert first == ["head", *["g0"] * 25, *["g1"] * 25]
    assert second == ["head", *["g2"] * 25]


def test_a_group_longer_than_a_page_is_parted() -> None:
    lines = tuple(str(number) for number in range(130))
    bodies = paged(Section(("head",), (lines,)))
    assert [line for body in bodies for line in body if line != "head"] == list(lines)
    assert all(body[0] == "head" for body in bodies)


def test_a_word_longer_than_the_line_is_parted() -> None:
    assert wrapped("x" * 25, 10) == ("x" * 10, "x" * 10, "x" * 5)


def test_a_long_cell_goes_on_below() -> None:
    columns = (Column("a", 4), Column("b", 3, right=True))
    assert row(columns, ("one two", "7")) == ("one    7", "two")


def test_a_gap_after_the_last_group_opens_no_page_with_a_heading_alone() -> None:
    room = LINES - 2
    bodies = paged(
        Section(("head",), (("g",) * (room - 1), ("",))),
        Section(("after",), (("h",),)),
    )
    assert bodies == [["head", *["g"] * (room - 1)], ["after", "h"]]

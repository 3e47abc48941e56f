"""The workbook, read back by another program: numbers are numbers, all else is text."""

import io
import re
import zipfile
from decimal import Decimal
from typing import Any

import pytest
from python_calamine import CalamineWorkbook

from tally.reports.guard import Number, visible
from tally.reports.tally_csv import not_run_header, string_cells, string_header
from tally.reports.tally_xlsx import CUT, LONGEST, sheets, tally_xlsx, text_of
from tests.tally.reports.jobs import HEAD, HOSTILE, tally

NAMES = ["Tally", "Not in the string", "Sums", "Job"]
Rows = list[list[Any]]


def read(content: bytes) -> dict[str, Any]:
    """Return the cells of each sheet as a spreadsheet sees them."""
    book = CalamineWorkbook.from_filelike(io.BytesIO(content))
    assert book.sheet_names == NAMES
    return {name: book.get_sheet_by_name(name).to_python() for name in NAMES}


def column(rows: Rows, name: str) -> list[Any]:
    """Return a column by its heading."""
    place = rows[0].index(name)
    return [row[place] for row in rows[1:]]


def exact(numbers: list[float], unit: str) -> list[Decimal]:
    """Return lengths as they were written, without what a binary fraction adds."""
    assert all(isinstance(each, float) for each in numbers)
    return [round(Decimal(each), 0 if unit == "mm" else 2) for each in numbers]


def parts(content: bytes) -> dict[str, str]:
    """Return the files that a workbook is made of."""
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        return {name: packed.read(name).decode("utf-8") for name in packed.namelist()}


@pytest.mark.parametrize("unit", ["ft", "m", "mm"])
def test_lengths_and_depths_equal_the_book(unit: str) -> None:
    made = tally("", unit)
    told = read(tally_xlsx(made))
    for name, steps in (
        ("length", [row.length for row in made.rows]),
        ("cumulative_length", [row.cumulative for row in made.rows]),
        ("top_depth", [row.top for row in made.rows]),
        ("bottom_depth", [row.bottom for row in made.rows]),
    ):
        found = exact(column(told["Tally"], f"{name}_{unit}"), unit)
        assert found == [Decimal(made.setup.step.show(each).replace(",", "")) for each in steps]
    aside = exact(column(told["Not in the string"], f"length_{unit}"), unit)
    run = exact(column(told["Tally"], f"length_{unit}"), unit)
    sums = dict(
        zip(column(told["Sums"], "what"), column(told["Sums"], f"length_{unit}"), strict=True)
    )
    assert sum(run) == exact([sums["STRING LENGTH"]], unit)[0]
    assert sum(run) == exact([sums["string length"]], unit)[0]
    others = exact([sums["other items of the string"]], unit)[0]
    assert sum(run) + sum(aside) - others == exact([sums["received"]], unit)[0]
    deep = exact(column(told["Tally"], f"bottom_depth_{unit}"), unit)[0]
    assert deep == exact([sums["SHOE DEPTH"]], unit)[0]


def test_counts_and_the_chain_stand_in_it() -> None:
    made = tally()
    told = read(tally_xlsx(made))
    pieces = dict(zip(column(told["Sums"], "what"), column(told["Sums"], "pieces"), strict=True))
    assert pieces["ON LOCATION"] == made.balance.on_location.count
    assert pieces["joints run"] == sum(1 for row in made.rows if row.joint)
    job: dict[str, Any] = dict(told["Job"][1:])
    assert (job["entries"], job["chain ends"]) == (made.entries, HEAD)
    assert job["tally"] == "FINAL CASING TALLY"
    assert dict(read(tally_xlsx(tally(landed=False)))["Job"])["tally"].endswith("NOT FINAL")


@pytest.mark.parametrize("unit", ["ft", "mm"])
def test_headings_carry_their_units(unit: str) -> None:
    made = tally("", unit)
    told = read(tally_xlsx(made))
    assert tuple(told["Tally"][0]) == string_header(made)
    assert tuple(told["Not in the string"][0]) == not_run_header(made)
    assert {"ft": "weight_lb_per_ft", "mm": "weight_kg_per_m"}[unit] in told["Tally"][0]


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_typed_becomes_a_formula_or_a_link(text: str) -> None:
    made = tally(f"{text} https://x.example ")
    content = tally_xlsx(made)
    files = parts(content)
    pages = [each for name, each in files.items() if name.startswith("xl/worksheets/sheet")]
    assert len(pages) == len(NAMES)
    for page in pages:
        assert not re.search(r"<f[ >]|<hyperlink|t=\"(str|e|b|inlineStr)\"", page)
    assert not any("relationships/hyperlink" in each for each in files.values())
    assert not any(name.startswith("xl/externalLinks") for name in files)
    told = read(content)
    for row, cells in zip(told["Tally"][1:], string_cells(made), strict=True):
        for has, cell in zip(row, cells, strict=True):
            typed = isinstance(cell, str) and not isinstance(cell, Number)
            assert isinstance(has, str if typed else float)
            if typed:
                assert has == visible(str(cell))


def test_the_same_tally_gives_the_same_bytes() -> None:
    assert tally_xlsx(tally()) == tally_xlsx(tally())
    core = parts(tally_xlsx(tally()))["docProps/core.xml"]
    assert re.findall(r"W3CDTF\">([^<]+)<", core) == ["2026-03-01T22:10:00Z"] * 2


def test_headings_stay_in_sight_and_stand_on_every_printed_page() -> None:
    files = parts(tally_xlsx(tally()))
    for number in range(1, len(NAMES) + 1):
        page = files[f"xl/worksheets/sheet{number}.xml"]
        assert re.search(r'<pane ySplit="1" topLeftCell="A2"[^>]*state="frozen"/>', page)
        assert f"47 entries, chain ends {HEAD}" in page
    assert files["xl/workbook.xml"].count("_xlnm.Print_Titles") == len(NAMES)


def test_numbers_show_the_decimals_of_the_page() -> None:
    style = parts(tally_xlsx(tally()))["xl/styles.xml"]
    assert 'numFmtId="2"' in style or 'formatCode="0.00"' in style


def test_a_text_longer_than_a_cell_is_cut_and_says_so() -> None:
    assert text_of("w" * LONGEST) == "w" * LONGEST
    cut = text_of("w" * (LONGEST + 1))
    assert (len(cut), cut.endswith(CUT)) == (LONGEST, True)


def test_every_row_is_as_wide_as_its_heading() -> None:
    for sheet in sheets(tally()):
        assert {len(row) for row in sheet.rows} <= {len(sheet.heading)}

"""The casing and cementing report: what the book has, and what it has not."""

import re
from dataclasses import replace

import pytest

from tally.job.gates import applies
from tally.reports.final_tally import FinalTally
from tally.reports.pdf.files import pdf_files
from tally.reports.pdf.paper import A4, LETTER, Paper
from tally.reports.pdf.regulator_pdf import regulator_pdf
from tally.reports.pdf.report_pdf import report_pdf
from tally.reports.smaller.cementing import pumping_sheet
from tests.tally.reports.jobs import HEAD, HOSTILE, tally
from tests.tally.reports.pdf.jobs import demonstration, long_string
from tests.tally.reports.pdf.reading import lines, outside, overlapping, pages


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("units", ["field", "metric"])
def test_the_demonstration_reads_back(units: str, paper: Paper) -> None:
    made = demonstration("end", units)
    job = report_pdf(made, paper)
    read = pages(job)
    text = "\n".join("\n".join(page) for page in read)
    wanted = made.setup.shown.show(
        float(made.figures["displacement_to_collar"].value or 0), "volume"
    )
    assert f"displacement by the programme\n{wanted}\n" in text
    for told in (
        "bump pressure\n1735 psi; Ivo Marek, 2026-03-12 17:57",
        "line test\n3600 psi (held 10 min on the chart); Ivo Marek, 2026-03-12 14:17",
        "cement, amount\n590 sacks of",
        "top of cement as found, method\nnot recorded",
        "make-up torque\nnot recorded",
        "Release the top plug; watch the indicator\nindicator moved\nIvo Marek\nN. Haddad\n",
        "OPEN: nobody has closed it.",
    ):
        assert told in text
    for number, page in enumerate(read, start=1):
        assert f"page {number} of {len(read)}" in page
        assert any(HEAD in line for line in page)
    assert outside(job, paper) == []
    assert overlapping(job) == []


@pytest.mark.parametrize(
    ("until", "standing"),
    [("third", "NOT FINAL: the string is not on depth."), ("end", "Not final until it is signed")],
)
def test_it_says_whether_it_can_be_signed(until: str, standing: str) -> None:
    made = pdf_files(demonstration(until), "x", LETTER)
    ends = "-not-final-letter.pdf" if until == "third" else "-letter.pdf"
    assert set(made) == {f"x-{what}{ends}" for what in ("tally", "report", "regulator")}
    for page in pages(made[f"x-report{ends}"]):
        assert any(line.startswith(standing) for line in page)


def test_readings_and_events_of_the_displacement() -> None:
    text = [line for page in lines(report_pdf(demonstration(), A4)) for line in page]
    assert "2026-03-12 17:48 584.8 bbl 5,820 1030 psi 2 bbl/min 537" in [
        re.sub(r" \d+$", " 537", line) for line in text
    ]
    marks = [line for line in text if re.match(r"[1-5] .* 2026-03-12 1\d:\d\d Ivo Marek", line)]
    assert len(marks) == 5
    assert "rose sharply and stands 597.9 2026-03-12 17:54" in marks[-1]


@pytest.mark.parametrize("text", HOSTILE, ids=ascii)
def test_hostile_text_comes_out_as_text(text: str) -> None:
    made = tally(text)
    regulator = regulator_pdf(made, A4)
    assert len(lines(regulator)) == 1
    for document in (report_pdf(made, A4), regulator):
        read = "".join("".join(page) for page in lines(document))
        assert not [char for char in read if ord(char) < 32 or 0x7F <= ord(char) < 0xA0]
        assert not set("\u202e\u2066\u200b") & set(read)
        assert outside(document, A4) == []


def test_the_regulators_page_is_one_page() -> None:
    for made in (demonstration(), demonstration("third"), long_string(403, "mm")):
        for paper in (A4, LETTER):
            (page,) = lines(regulator_pdf(made, paper))
            text = "\n".join(page)
            for label in ("operator", "setting depth", "notices given", "signed ____"):
                assert label in text


def test_steps_without_their_limit_are_left_out_as_on_the_page_and_said() -> None:
    made = demonstration()
    limits = {key: one for key, one in made.setup.limits.items() if key != "bleed_watch"}
    setup = replace(made.setup, limits=limits)
    plan = made.job.lists["plug-release"]
    watched = next(step for step in plan.steps if step.only_with == "limit:bleed_watch")
    steps = {key: one for key, one in made.job.steps.items() if key[1] != watched.id}
    made = replace(made, setup=setup, job=replace(made.job, setup=setup, steps=steps))
    drawn = " ".join(line for page in lines(report_pdf(made, A4)) for line in page)
    assert watched.text not in drawn
    left_out = [step for step in plan.steps if not applies(made.job, step)]
    assert watched in left_out
    what = "step" if len(left_out) == 1 else "steps"
    assert f"{len(left_out)} {what} left out, not applying" in drawn


def test_a_reading_in_doubt_is_listed_as_one_that_counts_nowhere() -> None:
    made = demonstration()
    *counted, last = made.job.pumped
    doubted = replace(made, job=made.job.but(pumped=tuple(counted), in_doubt=(last,)))
    text = [line for page in lines(report_pdf(doubted, A4)) for line in page]
    (row,) = [line for line in text if line.endswith(f"{last.seq} in doubt")]
    assert last.tank is not None
    assert last.tank.text in row
    (written,) = [each for each in _read_rows(doubted) if "in doubt" in each]
    assert last.tank.text.split()[0] in " ".join(written)


def _read_rows(made: FinalTally) -> list[tuple[str, ...]]:
    (part,) = [one for one in pumping_sheet(made).parts if one.title == "As read since the zero"]
    assert part.grid is not None
    return list(part.grid.rows)

"""A set-up written as a job file and read again is the same set-up, and so through the forms."""

from __future__ import annotations

import tomllib
from pathlib import Path

from hypothesis import HealthCheck, given, settings

from demo_db.play import FOLDER
from tally.feeds.job_document import document_of_setup
from tally.feeds.job_draft import document_of, draft_of
from tally.feeds.job_file import look_through, read_job_file
from tally.feeds.job_text import job_text
from tally.job.setup import Setup
from tests.tally.feeds.job_files import HOLE, SECTIONS, taken
from tests.tally.feeds.setups import setups

ONE_BY_ONE = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def read_again(document: dict[str, object]) -> Setup:
    looked = look_through(document, Path())
    assert looked.job is not None, [str(fault) for fault in looked.faults]
    return looked.job.setup


@ONE_BY_ONE
@given(setup=setups())
def test_a_set_up_written_or_typed_and_read_again_is_the_same(setup: Setup) -> None:
    document = document_of_setup(setup)
    text = job_text(document, "a set-up")
    assert all(line.isprintable() for line in text.split("\n"))
    assert read_again(tomllib.loads(text)) == setup
    typed = document_of(draft_of(document))
    assert typed == document
    assert read_again(typed) == setup


def test_the_demonstrations_job_file_written_again_makes_the_same_set_up() -> None:
    setup = read_job_file(FOLDER / "job.toml").setup
    document = tomllib.loads(job_text(document_of_setup(setup)))
    assert document["running_order"] == "shoe 1 2 collar 3-40 marker 41-205"
    assert read_again(document) == setup


def test_what_is_as_it_is_anyway_is_not_written(tmp_path: Path) -> None:
    document = document_of_setup(taken(tmp_path, (HOLE, SECTIONS)).setup)
    assert set(document) == {
        "running_order", "well", "hole", "hole_section", "previous_casing", "other_casing", "zone",
        "survey", "tally", "units", "pipe", "mud", "pump", "item", "centralizer", "fitting",
        "people", "limits",
    }  # fmt: skip
    assert document["tally"] == {"unit": "ft", "stick_up": "3.1"}
    assert document["zone"] == [
        {"name": "upper sand", "top": "120 ft", "bottom": "140 ft", "weak_at": "12 lb/gal"}
    ]


def test_what_stands_among_the_centralizers_stays_there_whatever_its_name(tmp_path: Path) -> None:
    made = taken(
        tmp_path, ('[[centralizer]]\nwhat = "bow centralizer"', '[[centralizer]]\nwhat = "bow"')
    )
    marked = {rule.what: rule.centralizer for rule in made.setup.programme}
    assert marked["bow"]
    assert not any(marked[what] for what in marked if what != "bow")
    again = document_of_setup(made.setup)
    assert "bow" in [line["what"] for line in again["centralizer"]]
    assert "bow" not in [line["what"] for line in again.get("fitting", [])]

"""A book that is not finished: what is there is written, what is wanted and not there is named."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.errors import InputError, ShoedownError
from tally.job.entries.people import Note
from tally.job.job import StepRecord
from tally.reports.export import chosen, export
from tally.reports.final_tally import final_tally
from tally.reports.progress import listening
from tests.tally.reports.jobs import entries
from tests.tally.reports.witsml.documents import (
    STRING,
    Given,
    bare,
    but,
    cemented,
    cementing,
    extras,
    found,
    parsed,
    roots,
    run,
    with_setup,
    written,
)

BOTH = chosen(["witsml", "witsml-1.4.1.1"])


def test_a_string_on_the_way_has_lengths_and_no_depths() -> None:
    made = run(landed=False)
    for end, root in roots(made).items():
        assert "Not final: the string is not on depth" in written(made)[end].decode()
        assert not found(root, "MdInterval")
        assert not found(root, "StringMdInterval")
        assert "depth of shoe" not in extras(root)
    assert len(found(roots(made)["tubular"], "TubularComponent", "Len")) == len(made.tally.rows)
    landed = roots(run())["downhole-component"]
    assert len(found(landed, "StringEquipment", "MdInterval")) == len(run().tally.rows)


def test_a_book_without_cement_says_so() -> None:
    made = written(run())
    assert made.keys() == STRING
    for content in made.values():
        assert "nothing of a cementing is planned or recorded in the book" in content.decode()


def test_a_design_alone_has_no_report() -> None:
    full = cemented()
    job = replace(full.tally.job, steps={}, zeroed=None, pumped=(), mixing=(), at_surface=())
    root = cementing(but(full, job))
    assert not found(root, "JobReport")
    assert len(found(root, "CementDesignStage", "Step")) == len(job.known.fluids)
    assert not found(root, "VolPumped")
    (said,) = found(root, "Citation", "Description")
    assert "nothing has been pumped" in said.text


def test_volumes_alone_make_the_fluids_of_a_programme() -> None:
    full = cemented()
    pumping = replace(full.tally.setup.pumping, spacer_volume=None)
    job = with_setup(full.tally.job, fluids=(), additives=(), pumping=pumping)
    root = cementing(but(full, job))
    assert [one.text for one in found(root, "CementingFluid", "DescFluid")] == (
        ["slurry"] if pumping.slurry_volume else []
    )
    assert found(root, "JobReport")


def test_what_nobody_entered_is_left_out() -> None:
    full = cemented()
    kept = {key: one for key, one in full.tally.job.steps.items() if key[1] == "first-slurry"}
    job = replace(full.tally.job, steps=kept, pumped=(), zeroed=None, mixing=(), at_surface=())
    root = cementing(but(full, job))
    (stage,) = found(root, "CementReportStage")
    have = [child.tag.rpartition("}")[2] for child in stage]
    assert have == ["NumStage", "TypeStage", "DTimPumpStart"]


@pytest.mark.parametrize(
    ("step", "state", "element", "wanted"),
    [
        ("bumped", "rose sharply and stands", "PlugBumped", ["true"]),
        ("bumped", "rose and fell back", "PlugBumped", []),
        ("bumped", "no rise up to the volume limit", "PlugBumped", ["false"]),
        ("floats-held", "flow goes on", "FloatHeld", ["false"]),
        ("floats-held", "shut in with pressure kept on", "FloatHeld", []),
    ],
)
def test_what_was_seen_is_yes_or_no_only_where_it_says_so(
    step: str, state: str, element: str, wanted: list[str]
) -> None:
    full = cemented()
    record = StepRecord(900, "done", "Ivo", "2026-03-12T18:00:00-06:00", state=state)
    job = replace(full.tally.job, steps={**full.tally.job.steps, ("plug-release", step): record})
    root = cementing(but(full, job))
    assert [one.text for one in found(root, element)] == wanted
    assert state in [
        one.text for one in found(root, "CementReportStage", "ExtensionNameValue", "Value")
    ]


def test_nothing_run_is_refused_in_a_sentence() -> None:
    with pytest.raises(ShoedownError, match=r"^Nothing is run yet; .*\.$"):
        written(bare(run().tally.setup))


def test_a_book_without_a_set_up_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    said = [Note(text="nobody set it up", by="Ama", at="2026-03-01T23:10:00+01:00")]
    with (
        Book.create(tmp_path / "job.db", said) as book,
        pytest.raises(ShoedownError, match="not set up yet"),
    ):
        export(book, tmp_path / "out", BOTH)
    assert not (tmp_path / "out").exists()


def test_a_mandatory_element_that_is_not_there_is_named() -> None:
    made = run()
    nobody = replace(made.entries[0], by="")
    harmed = Given(made.tally, (nobody, *made.entries[1:]), made.book)
    with pytest.raises(InputError, match=re.escape('"Tubular, Citation, Originator"')) as told:
        written(harmed)
    assert re.fullmatch(r"[^\n]*\.", str(told.value))


def test_an_export_writes_both_versions_and_says_where_it_is(tmp_path: Path) -> None:
    told: list[str] = []
    with Book.create(tmp_path / "job.db", entries()) as book:
        with listening(lambda at: told.append(str(at))):
            made = export(book, tmp_path / "out", BOTH)
        again = {path: path.read_bytes() for path in made}
        export(book, tmp_path / "out", BOTH)
        tally = final_tally(book.job, book.entries, book.head)
    assert [path.name for path in made] == [
        "job-witsml-2.1-tubular.xml",
        "job-witsml-2.1-downhole-component.xml",
        "job-witsml-1.4.1.1-tubulars.xml",
    ]
    assert all(path.read_bytes() == content for path, content in again.items())
    assert any("witsml" in one for one in told)
    lengths = found(parsed(made[0].read_bytes()), "TubularComponent", "Len")
    assert round(sum(float(one.text) for one in lengths) * 100) == tally.depths.string
    assert not {"witsml", "witsml-1.4.1.1"} & {kind.key for kind in chosen([])}

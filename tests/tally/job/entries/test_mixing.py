"""The mixing log: what is read, what is asked, what stays in sight, and its totals."""

from __future__ import annotations

import pytest

from tally.job.entries.mixing import MixRead, SampleKept, SurfaceSeen
from tally.job.figures import figure
from tally.units import Measure, read
from tests.tally.job.invented import Telling, landed, limits, setup


def mud(text: str) -> Measure:
    return read(text, "density")


def volume(text: str) -> Measure:
    return read(text, "volume")


def told() -> Telling:
    return landed(setup(limits=limits(slurry_density_band="0.2 lb/gal")))


def test_two_means_that_differ_by_more_than_the_band_stay_in_sight_once() -> None:
    tale = told()
    before = len(tale.job.exceptions)
    tale.says(MixRead, fluid="slurry", gauge=mud("15.8 lb/gal"), balance=mud("15.6 lb/gal"))
    assert len(tale.job.exceptions) == before
    for _ in range(2):
        tale.says(MixRead, fluid="slurry", gauge=mud("15.8 lb/gal"), balance=mud("15.5 lb/gal"))
    assert [each.what for each in tale.job.exceptions[before:]] == [
        "Mixing: slurry: gauge 15.8 lb/gal and balance 15.5 lb/gal differ by more than 0.2 lb/gal."
    ]
    assert figure(tale.job, "mixed_density").value == mud("15.5 lb/gal").value


def test_totals_stand_until_they_are_read_again_and_are_asked_about_when_they_fall() -> None:
    tale = told()
    used = {"pumped": volume("40 bbl"), "sacks": 120, "mix_fluid": volume("9 bbl")}
    tale.says(MixRead, fluid="slurry", **used)
    tale.says(MixRead, fluid="slurry", gauge=mud("15.8 lb/gal"))
    assert figure(tale.job, "mixed_volume").value == pytest.approx(volume("40 bbl").value)
    assert figure(tale.job, "mixed_sacks").value == 120
    assert figure(tale.job, "mixed_fluid").value == pytest.approx(volume("9 bbl").value)
    asked = tale.asks(MixRead, fluid="slurry", pumped=volume("39 bbl"), sacks=119)
    assert asked == (
        "Of slurry: pumped, 39 bbl, is below the last, 40 bbl. "
        "Of slurry: 119 sacks is below the last, 120."
    )


def test_spacer_is_weighed_and_is_no_slurry() -> None:
    tale = told()
    tale.says(MixRead, fluid="spacer", balance=mud("12 lb/gal"), pumped=volume("20 bbl"))
    assert figure(tale.job, "mixed_volume").value is None


def test_samples_and_what_is_seen_at_surface_are_kept() -> None:
    tale = told()
    tale.says(SampleKept, fluid="slurry", part="start", note="tin 1")
    tale.says(SurfaceSeen, what="cement", volume=volume("8 bbl"), density=mud("15 lb/gal"))
    assert [(each.part, each.note) for each in tale.job.samples] == [("start", "tin 1")]
    assert tale.job.at_surface[0].volume == volume("8 bbl")


def test_what_is_refused() -> None:
    tale = told()
    assert (
        tale.refuses(MixRead, fluid="slurry")
        == "Type a density, something used so far, or the pressure."
    )
    assert "it has spacer, slurry" in tale.refuses(MixRead, fluid="tar", sacks=1)
    assert "below nothing" in tale.refuses(MixRead, fluid="slurry", sacks=-1)
    assert "say start, middle, end" in tale.refuses(SampleKept, fluid="slurry", part="whole")
    assert "say spacer or cement" in tale.refuses(SurfaceSeen, what="mud")
    early = Telling().starts()
    assert "Nothing is run yet" in early.refuses(SurfaceSeen, what="cement")

"""The mixing log: densities against the band, totals against the programme, samples, surface."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from screens.ink import ATTENTION, BOLD, INK, QUIET, Line, line, rule, wrap
from tally.job.cementing_records import MixReading
from tally.job.entries.mixing import PARTS
from tally.job.entry import clock
from tally.job.figures import figure, show
from tally.job.job import Job
from tally.job.mix_plan import mixed_names, off_density, planned_density
from tally.job.recipes import slurry_doubts

WIDTH = 70
LAST = 8
"""Readings that the panel shows; the final tally has them all."""
TOTALS = (("mixed_volume", "slurry"), ("mixed_sacks", "sacks"), ("mixed_fluid", "mix fluid"))


def mixing_lines(job: Job) -> list[Content]:
    """Return the whole log in lines."""
    if job.setup is None:
        return [line("The job is not set up yet.")]
    return [*_weighed(job), line(""), *_totals(job), line(""), *_samples(job), *_surface(job)]


def _weighed(job: Job) -> Iterator[Content]:
    yield rule(
        WIDTH, (6, "fluid"), (28, "gauge"), (42, "balance"), (56, "planned"), (WIDTH, "band")
    )
    if not job.mixing:
        yield line("Nothing is weighed yet; r reads densities and what is used so far.", QUIET)
    for reading in job.mixing[-LAST:]:
        yield _reading(job, reading)


def _reading(job: Job, reading: MixReading) -> Content:
    planned, band = planned_density(job, reading.fluid), job.known.limit("slurry_density_band")
    off = off_density(job, reading)
    word = "outside" if off else "agrees" if band and planned is not None else "no limit set"
    texts = [one.text if one else "-" for one in (reading.gauge, reading.balance)]
    drawn = Line(WIDTH).put(0, clock(reading.at), QUIET).put(6, reading.fluid[:10], INK)
    drawn.end(28, texts[0], INK).end(42, texts[1], INK)
    drawn.end(56, show(job, planned, "density"), QUIET)
    return drawn.end(WIDTH, word, ATTENTION if off else INK).content()


def _totals(job: Job) -> Iterator[Content]:
    yield rule(WIDTH, (14, "so far"), (42, "used"), (WIDTH, "programme"))
    for key, what in TOTALS:
        found = figure(job, key)
        drawn = Line(WIDTH).put(0, what, INK).end(42, show(job, found.value, found.quantity), BOLD)
        planned = [each for each in found.inputs if each.where.startswith("figure ")]
        text = show(job, planned[0].value, planned[0].quantity) if planned else "-"
        yield drawn.end(WIDTH, text, QUIET).content()
    for doubt in slurry_doubts(job.known):
        yield from wrap(f"in doubt: {doubt.text}", WIDTH, ATTENTION)


def _samples(job: Job) -> Iterator[Content]:
    for name in mixed_names(job):
        kept = [each.part for each in job.samples if each.fluid == name]
        if kept:
            lacks = [part for part in PARTS if part not in kept]
            more = f"; not kept: {', '.join(lacks)}" if lacks else ""
            text = f"samples of {name}: {', '.join(kept)}{more}"
            yield from wrap(text, WIDTH, ATTENTION if lacks else INK)
    if not job.samples:
        yield line("no sample is kept", QUIET)


def _surface(job: Job) -> Iterator[Content]:
    for each in job.at_surface:
        seen = ", ".join(one.text for one in (each.volume, each.density) if one)
        text = f"{each.what} seen at surface {clock(each.at)}" + (f": {seen}" if seen else "")
        yield from wrap(text, WIDTH)
    if not job.at_surface:
        yield line("neither spacer nor cement was seen at surface", QUIET)

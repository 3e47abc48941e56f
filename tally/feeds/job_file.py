"""The job file, job.toml: everything a job is set up with, read strictly, all faults at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tally.errors import InputError, JobFileError
from tally.feeds.job_faults import Fault, Spot
from tally.feeds.opening import read_toml, refused
from tally.feeds.pipe_list import ListRules, read_pipe_list
from tally.feeds.short_forms import read_order
from tally.job.entries.people import ListTaken, SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entry import Entry
from tally.job.setup import Setup
from tally.steps.model import Checklist, to_fields
from tally.steps.reading import checklists
from tally.units import clean, read_exact, shown

if TYPE_CHECKING:
    from tally.feeds.job_checks import Listed
    from tally.feeds.job_parts import Parts
    from tally.feeds.job_shape import Shape


@dataclass(frozen=True, slots=True)
class JobFile:
    """A job as it was read from its files."""

    setup: Setup
    arrivals: tuple[Arrival, ...]
    checklists: tuple[Checklist, ...]
    pipe_list: str
    """The name of the pipe list, for the record; nothing where none was named."""


@dataclass(frozen=True, slots=True)
class Looked:
    """What a job file, or the forms of a set-up, came to: a job, or what is wrong."""

    faults: tuple[Fault, ...]
    job: JobFile | None
    doubts: tuple[Fault, ...] = ()
    """What can be worked with and is doubtful all the same."""


def look_through(
    document: Mapping[str, Any], folder: Path, there: Sequence[Listed] | None = None
) -> Looked:
    """Return the job that the tables of a job file describe, or everything that is wrong.

    Parameters
    ----------
    document : mapping
        The tables as TOML holds them
    folder : Path
        Where the pipe list and a company's own checklists are looked for
    there : sequence of (number, kind), optional
        What came on location already, for a book that is set up again; the running order is held
        against it, and against the pipe list if the document names one
    """
    from tally.feeds.job_checks import check_order, check_tables
    from tally.feeds.job_doubts import doubts_of
    from tally.feeds.job_parts import parts_of, setup_of
    from tally.feeds.job_shape import shape_of

    shape = shape_of(document)
    parts = parts_of(shape)
    check_tables(shape)
    arrivals = _arrivals(shape, parts, folder)
    if arrivals is not None:
        there = [*(there or ()), *((one.number, one.kind) for one in arrivals)]
    known = {one.number for one in parts.items} | {number for number, _ in there or ()}
    order = _order(shape, known)
    check_order(shape, parts, order, there)
    lists = _checklists(shape, folder)
    doubts = tuple(doubts_of(shape))
    if shape.faults:
        return Looked(tuple(shape.faults), None, doubts)
    name = Path(shape.text("pipe_list")).name
    setup = setup_of(shape, parts, order)
    return Looked((), JobFile(setup, arrivals or (), lists, name), doubts)


def read_job_file(path: Path) -> JobFile:
    """Return the job that a job file describes, with its pipe list and its checklists.

    The pipe list and a company's own checklists are looked for beside the job file.

    Raises
    ------
    JobFileError
        If anything in any of the files is doubtful; `faults` holds a sentence for each thing,
        naming table and key, what is there and what is wanted.
    """
    looked = look_through(read_toml(path, "job file"), path.parent)
    if looked.job is None:
        faults = [str(fault) for fault in looked.faults]
        raise refused(f"The job file '{shown(path.name, 60)}' has", faults)
    return looked.job


def job_entries(path: Path, by: str, at: str) -> list[Entry]:
    """Return the entries with which a book is begun from a job file.

    Parameters
    ----------
    path : Path
        The job file
    by : str
        Who sets the job up
    at : str
        When, ISO 8601 with its offset
    """
    return first_entries(read_job_file(path), by, at)


def first_entries(job: JobFile, by: str, at: str) -> list[Entry]:
    """Return the entries that begin a book: set up, checklists taken, pipe received if any."""
    who = clean(by, 60)
    taken = [ListTaken(checklist=to_fields(each), by=who, at=at) for each in job.checklists]
    begun: list[Entry] = [SetUp(setup=job.setup, by=who, at=at), *taken]
    if job.arrivals:
        begun.append(Received(items=job.arrivals, source=job.pipe_list, by=who, at=at))
    return begun


def _arrivals(shape: Shape, parts: Parts, folder: Path) -> tuple[Arrival, ...] | None:
    """Return the items of the pipe list; nothing where there is none or it could not be read."""
    spot = Spot(key="pipe_list")
    if "pipe_list" not in shape.top:
        return None
    try:
        name = clean(shape.text("pipe_list"))
        return read_pipe_list(folder / name, _rules(shape, parts))
    except InputError as fault:
        shape.fault(spot, str(fault))
    except JobFileError as error:
        shape.faults += [Fault(spot, each, whole=True) for each in error.faults]
    shape.spoilt.add("pipe_list")
    return None


def _rules(shape: Shape, parts: Parts) -> ListRules:
    """Return what the list is read with; a spoilt [tally] or [[pipe]] is not held against it."""
    pipes = None if "pipe" in shape.spoilt or not parts.pipes else parts.pipes
    if parts.lengths is None:
        pipes = pipes and tuple(replace(each, shortest=None, longest=None) for each in pipes)
        return ListRules(parts.step, None, pipes)
    loss = parts.lengths.make_up_loss
    taken_off = read_exact(loss, "length", parts.lengths.unit) if loss else None
    return ListRules(parts.step, taken_off, pipes)


def _order(shape: Shape, known: set[str]) -> tuple[str, ...]:
    if "running_order" not in shape.top:
        return ()
    try:
        return read_order(clean(shape.text("running_order"), 20_000), known)
    except InputError as fault:
        shape.fault(Spot(key="running_order"), str(fault))
        return ()


def _checklists(shape: Shape, folder: Path) -> tuple[Checklist, ...]:
    own = shape.top.get("checklists", [])
    try:
        return checklists([folder / clean(name) for name in own])
    except InputError as fault:
        shape.fault(Spot(key="checklists"), str(fault))
    except JobFileError as error:
        shape.faults += [Fault(Spot(key="checklists"), each, whole=True) for each in error.faults]
    return ()

"""The documents of some jobs, read with lxml, which did not write them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from xml.etree.ElementTree import Element

from lxml import etree

from demo_db.play import entries as played
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.job.job import Job
from tally.job.setup import Setup
from tally.reports.final_tally import final_tally
from tally.reports.witsml.cement_facts import cement_facts
from tally.reports.witsml.cement_job import cement_job_21
from tally.reports.witsml.files import witsml_21, witsml_1411
from tally.reports.witsml.heading import Given
from tally.reports.witsml.markup import document
from tally.reports.witsml.older_cement import cement_jobs_1411
from tests.tally.reports.jobs import HEAD, entries

BOOK = "5eed5eed5eed5eed"
STRING = {"tubular", "downhole-component", "tubulars"}
CEMENT = {"cement-job", "cement-jobs"}


@lru_cache(maxsize=1)
def _demonstration() -> tuple[tuple[Entry, ...], Job]:
    made = played()
    return made, fold(made)


@lru_cache(maxsize=2)
def cemented(units: str = "field") -> Given:
    """Return the demonstration, cemented, with its figures in either unit set."""
    made, job = _demonstration()
    return given(with_setup(job, units=units), made)


def with_setup(job: Job, **changed: object) -> Job:
    """Return a job with some of its set-up changed."""
    return replace(job, setup=replace(job.known, **changed))


def but(made: Given, job: Job) -> Given:
    """Return the same tally of a job that was changed; its figures stay those of before."""
    return replace(made, tally=replace(made.tally, job=job, setup=job.known))


def cementing(made: Given) -> etree._Element:
    """Return the root of the cementing alone, in 2.1."""
    return _read(cement_job_21(made, cement_facts(made.tally)))


def older_cementing(made: Given) -> etree._Element:
    """Return the root of the cementing alone, in 1.4.1.1."""
    return _read(cement_jobs_1411(made, cement_facts(made.tally)))


def _read(root: Element) -> etree._Element:
    return parsed(document(root, ["cementing alone"]))


def given(job: Job, made: tuple[Entry, ...]) -> Given:
    """Return what the documents of a job are made from."""
    return Given(final_tally(job, made, (len(made), HEAD)), made, BOOK)


@lru_cache(maxsize=4)
def run(text: str = "", unit: str = "ft", *, landed: bool = True) -> Given:
    """Return the short job without a cementing, every typed field beginning with the text."""
    made = tuple(entries(text, unit, landed=landed))
    return given(fold(made), made)


def bare(setup: Setup) -> Given:
    """Return a job of which nothing but the set-up is there."""
    return given(Job(setup=setup), tuple(entries())[:1])


def written(made: Given) -> dict[str, bytes]:
    """Return all the documents by the ends of their names, written this moment."""
    return {end: content for (end, _), content in {**witsml_21(made), **witsml_1411(made)}.items()}


_KEPT: list[tuple[Given, dict[str, bytes]]] = []
"""What was written of the jobs asked for last: a string of 200 joints takes a while."""


def contents(made: Given) -> dict[str, bytes]:
    """Return what `written` does, kept for the job that was asked for last."""
    for known, documents in _KEPT:
        if known is made:
            return documents
    documents = written(made)
    _KEPT[:] = [*_KEPT[-3:], (made, documents)]
    return documents


def parsed(content: bytes) -> etree._Element:
    """Return the root of a document, read without any entity or network."""
    parser = etree.XMLParser(resolve_entities=False, no_network=True)
    return etree.fromstring(content, parser)


def roots(made: Given) -> dict[str, etree._Element]:
    """Return the roots of all the documents, to be changed at will."""
    return {end: parsed(content) for end, content in contents(made).items()}


def name(element: etree._Element) -> str:
    """Return the name of an element without its namespace."""
    return etree.QName(element).localname


def found(root: etree._Element, *names: str) -> list[etree._Element]:
    """Return the elements at the end of a path of names, anywhere below."""
    path = "/".join(f"*[local-name()='{each}']" for each in names)
    return root.xpath(f".//{path}")


def number(element: etree._Element) -> tuple[float, str]:
    """Return the figure of an element and its unit."""
    return float(element.text), element.get("uom")


def said(root: etree._Element) -> Iterator[str]:
    """Yield every text of a document."""
    for element in root.iter(etree.Element):
        if not len(element) and element.text:
            yield element.text


def extras(root: etree._Element) -> dict[str, etree._Element]:
    """Return the values of the pairs of name and value by their names; the last of each name."""
    pairs = root.xpath(
        ".//*[local-name()='ExtensionNameValue' or local-name()='extensionNameValue']"
    )
    return {pair[0].text: pair[1] for pair in pairs}

"""The documents of a book by their names: three of WITSML 2.1, two of 1.4.1.1."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from tally.errors import ShoedownError
from tally.reports.signed import file_mark
from tally.reports.witsml.cement_facts import CementFacts, cement_facts
from tally.reports.witsml.cement_job import cement_job_21
from tally.reports.witsml.downhole import downhole_21
from tally.reports.witsml.heading import Given, comment
from tally.reports.witsml.layout import NEWER, OLDER
from tally.reports.witsml.markup import document
from tally.reports.witsml.older_cement import ONE_BY_ONE, cement_jobs_1411
from tally.reports.witsml.tubular import tubular_21, tubulars_1411

NO_CEMENT = "No cement job goes with it: nothing of a cementing is planned or recorded in the book."


STRING, CEMENT_JOB = "tally", "report"
"""The reports whose state the documents share, by what they tell of."""
Documents = dict[tuple[str, str], bytes]
"""Contents by the end of the name and by the report whose state they share."""


def witsml_21(given: Given) -> Documents:
    """Return the documents of 2.1.

    Raises
    ------
    ShoedownError
        If nothing is run, or something that the standard asks for is not in the book.
    """
    facts = _facts(given)
    made = {
        ("tubular", STRING): tubular_21(given),
        ("downhole-component", STRING): downhole_21(given),
    }
    if _any(facts):
        made["cement-job", CEMENT_JOB] = cement_job_21(given, facts)
    return _documents(given, made, NEWER, *_missing(facts))


def witsml_1411(given: Given) -> Documents:
    """Return the documents of 1.4.1.1; raises as `witsml_21` does."""
    facts = _facts(given)
    made = {("tubulars", STRING): tubulars_1411(given)}
    if _any(facts):
        made["cement-jobs", CEMENT_JOB] = cement_jobs_1411(given, facts)
    return _documents(given, made, OLDER, *_missing(facts), *(ONE_BY_ONE * _any(facts)))


def _facts(given: Given) -> CementFacts:
    if not given.tally.rows:
        raise ShoedownError("Nothing is run yet; WITSML tells of a string, and there is none.")
    return cement_facts(given.tally)


def _any(facts: CementFacts) -> bool:
    return facts.planned or facts.begun


def _missing(facts: CementFacts) -> tuple[str, ...]:
    return () if _any(facts) else (NO_CEMENT,)


def _documents(
    given: Given, made: dict[tuple[str, str], Element], version: str, *further: str
) -> Documents:
    said = comment(given, version, *further)
    return {key: document(root, said) for key, root in made.items()}


def witsml_files(given: Given, version: str, name: str) -> dict[str, bytes]:
    """Return the documents of a version by the names of their files.

    A name says whether the report that tells the same is final, so that a final one is left alone.
    """
    made = witsml_21(given) if version == NEWER else witsml_1411(given)
    return {
        f"{name}-witsml-{version}-{end}{file_mark(given.tally, report)}.xml": content
        for (end, report), content in made.items()
    }

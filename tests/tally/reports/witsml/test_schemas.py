"""The documents against published schemas, by lxml and by xmlschema, where a folder is given.

Where none is, that is said at the end of the run, and the structure check stands alone.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import pytest
import xmlschema
from lxml import etree

from tests.conftest import pytest_terminal_summary
from tests.tally.reports.witsml.documents import cemented, found, roots, run
from tests.tally.reports.witsml.order import faults
from tests.tally.reports.witsml.schemas import FILES, NOTICE, VARIABLE, folder, notice, schema_of

STRINGS = ("tubular", "downhole-component", "tubulars")


@lru_cache(maxsize=8)
def _by_lxml(schema: Path) -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(schema, etree.XMLParser(no_network=True)))


@lru_cache(maxsize=8)
def _by_xmlschema(schema: Path) -> xmlschema.XMLSchema:
    return xmlschema.XMLSchema(str(schema), allow="local")


def complaints(root: etree._Element, end: str) -> list[str]:
    """Return what the structure check and, where schemas are given, two validators complain of."""
    told = faults(root)
    given = folder()
    if given is None:
        assert notice(["tests/tally/reports/witsml/test_schemas.py"]) == NOTICE
        return told
    schema = schema_of(end, given)
    checked = _by_lxml(schema)
    checked.validate(root)
    told += [f"lxml: {one.message}" for one in checked.error_log]
    again = _by_xmlschema(schema).iter_errors(etree.tostring(root, encoding="unicode"))
    return told + [f"xmlschema: {one.reason}" for one in again]


@pytest.mark.parametrize("units", ["field", "metric"])
@pytest.mark.parametrize("end", FILES)
def test_every_document_is_valid(end: str, units: str) -> None:
    assert complaints(roots(cemented(units))[end], end) == []


@pytest.mark.parametrize("text", ["", "<&\x1b\ufffe]]> ", "w" * 180])
@pytest.mark.parametrize("end", STRINGS)
def test_any_text_and_a_string_on_the_way_are_valid(end: str, text: str) -> None:
    assert complaints(roots(run(text))[end], end) == []
    assert complaints(roots(run(text, landed=False))[end], end) == []


def _out_of_order(root: etree._Element) -> None:
    one = (found(root, "Od") or found(root, "od"))[0]
    one.getparent().insert(0, one)


def _unmarked(root: etree._Element) -> None:
    (one, *_) = [each for each in root.iter(etree.Element) if each.get("uid")]
    del one.attrib["uid"]


@pytest.mark.parametrize("harm", [_out_of_order, _unmarked])
@pytest.mark.parametrize("end", ["tubular", "downhole-component"])
def test_a_fault_is_seen_by_all_of_them(harm: Callable[[etree._Element], None], end: str) -> None:
    root = roots(run())[end]
    harm(root)
    told = complaints(root, end)
    assert told
    if folder() is not None:
        assert {one.partition(":")[0] for one in told} >= {"lxml", "xmlschema"}


@pytest.mark.parametrize("unit", ["lbm/galUS", "ppg"])
def test_a_unit_of_the_other_version_is_seen(unit: str) -> None:
    root = roots(cemented())["cement-job"]
    found(root, "CementingFluid", "Density")[0].set("uom", unit)
    told = complaints(root, "cement-job")
    assert bool(told) == (folder() is not None)


class _Lines:
    """Takes what is said at the end of a run."""

    def __init__(self, tests: list[str]) -> None:
        self.stats = {"passed": [type("Report", (), {"nodeid": test}) for test in tests]}
        self.lines: list[str] = []

    def line(self, text: str, **_: bool) -> None:
        self.lines.append(text)


def test_a_run_without_schemas_says_so(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    ours = ["tests/tally/reports/witsml/test_schemas.py::test_every_document_is_valid"]
    for tests, given, told in (
        (ours, "", [NOTICE]),
        (ours, str(tmp_path), []),
        (["tests/tally/test_built.py::test"], "", []),
    ):
        monkeypatch.setenv(VARIABLE, given)
        reporter = _Lines(tests)
        pytest_terminal_summary(reporter)
        assert reporter.lines == told


def test_a_folder_that_lacks_a_schema_fails_by_name(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match=r"CementJob\.xsd is not below"):
        schema_of("cement-job", tmp_path)

"""Order, cardinality and identifiers of every document, against the standard noted once more."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from lxml import etree

from tally.job.fold import fold
from tests.tally.reports.witsml.documents import (
    BOOK,
    CEMENT,
    STRING,
    Given,
    cemented,
    contents,
    found,
    given,
    name,
    roots,
    run,
    written,
)
from tests.tally.reports.witsml.order import faults

SPACES = {
    "Tubular": "http://www.energistics.org/energyml/data/witsmlv2",
    "DownholeComponent": "http://www.energistics.org/energyml/data/witsmlv2",
    "CementJob": "http://www.energistics.org/energyml/data/witsmlv2",
    "tubulars": "http://www.witsml.org/schemas/1series",
    "cementJobs": "http://www.witsml.org/schemas/1series",
}
JOBS: dict[str, Callable[[], Given]] = {
    "field": cemented,
    "metric": lambda: cemented("metric"),
    "metres": lambda: run(unit="m"),
    "millimetres": lambda: run(unit="mm"),
    "on the way": lambda: run(landed=False),
}


@pytest.mark.parametrize("job", JOBS)
def test_every_element_stands_in_its_order(job: str) -> None:
    made = roots(JOBS[job]())
    assert made.keys() == (STRING | CEMENT if job in ("field", "metric") else STRING)
    for end, root in made.items():
        assert faults(root) == [], end
        assert etree.QName(root).namespace == SPACES[name(root)]


def _lacking(root: etree._Element) -> None:
    one = found(root, "Od")[0]
    one.getparent().remove(one.getprevious())


def _moved(root: etree._Element) -> None:
    one = found(root, "Od")[0]
    one.getparent().insert(0, one)


def _twice(root: etree._Element) -> None:
    one = found(root, "Sequence")[0]
    one.addnext(etree.fromstring(etree.tostring(one)))


def _unmarked(root: etree._Element) -> None:
    del found(root, "TubularComponent")[0].attrib["uid"]


@pytest.mark.parametrize(
    ("harm", "told"),
    [
        (_moved, "TubularComponent is out of order"),
        (_lacking, "TubularComponent lacks Id"),
        (_twice, "TubularComponent repeats Sequence"),
        (_unmarked, "TubularComponent has the attributes []"),
    ],
)
def test_the_structure_check_sees_a_fault(
    harm: Callable[[etree._Element], None], told: str
) -> None:
    root = roots(run())["tubular"]
    harm(root)
    assert told in faults(root)


def test_what_is_pointed_to_is_there() -> None:
    made = roots(cemented())
    for root in made.values():
        have = [one.get("uid") for one in root.iter(etree.Element) if one.get("uid")]
        for one in root.xpath("//*[local-name()='Uid']"):
            assert one.text in have
    for kind in ("StringEquipment", "Accessory", "Equipment"):
        uids = [one.get("uid") for one in found(made["downhole-component"], kind)]
        named = [uid for uid in uids if uid]
        assert len(named) == len(set(named)) > 0


def test_identifiers_follow_from_the_book() -> None:
    made = roots(cemented())
    uuids = {made[end].get("uuid") for end in ("tubular", "downhole-component", "cement-job")}
    assert len(uuids) == 3
    shape = re.compile("[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
    assert all(shape.fullmatch(uuid) for uuid in uuids)
    assert found(made["tubulars"], "tubular")[0].get("uid") == made["tubular"].get("uuid")
    wells = {one.get("uidWell") for one in found(made["cement-jobs"], "cementJob")}
    assert wells == {found(made["downhole-component"], "Well", "Uuid")[0].text}
    assert BOOK not in str(uuids)


def test_the_same_book_gives_the_same_bytes() -> None:
    entries_of = run().entries
    again = given(fold(entries_of), tuple(entries_of))
    assert written(run()) == written(again)
    assert written(replace(again, book="another")) != written(again)


@pytest.mark.parametrize("end", sorted(STRING | CEMENT))
def test_every_file_names_the_source_and_claims_no_more(end: str) -> None:
    text = contents(cemented())[end].decode("utf-8")
    assert "WITSML is a trademark of Energistics" in text
    assert "writes WITSML 2.1 documents" in text or "writes WITSML 1.4.1.1 documents" in text
    assert re.findall("[^.]*certified[^.]*", text) == [
        "\n  Not a certified product: a document written from the published standard"
    ]

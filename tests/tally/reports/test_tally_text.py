"""The page that is signed: plain ASCII, at most 100 columns, sums that add up as printed."""

import re
from decimal import Decimal

import pytest

from tally.errors import ShoedownError
from tally.job.entries.auto_fill import AutoFillConverted
from tally.job.entries.waiting import WaitingPicked
from tally.job.fold import EMPTY
from tally.job.setup import Filling
from tally.reports.final_tally import final_tally
from tally.reports.page import LINES, WIDTH
from tally.reports.tally_text import tally_text
from tally.units import read
from tests.tally.job.invented import CEMENTER, REP, Telling, running, setup
from tests.tally.job.test_waiting import LAB, STRENGTH, TIME, bumped
from tests.tally.job.test_zones import SAND
from tests.tally.reports.jobs import HEAD, HOSTILE, tally

AUTO = Filling(auto_fill=read("40 %", "ratio"))
ITEM = re.compile(r" {0,4}\d+ \S+ +(?:joint|shoe|collar) +A +(?P<length>[\d,.]+) +(?P<to>[\d,.]+)")
BLOCK = re.compile(r"joints (\d+-\d+) (brought forward|subtotal) +([\d,.]+)(?: +([\d,.]+))?")


def pages(text: str) -> list[list[str]]:
    """Return the lines of each page."""
    lines = text.splitlines()
    return [lines[start : start + LINES] for start in range(0, len(lines), LINES)]


def amount(text: str, label: str) -> Decimal:
    """Return the amount printed behind a label."""
    found = re.search(rf"^{re.escape(label)} +(?:\d+ +)?(-?[\d,]+\.\d\d)", text, re.MULTILINE)
    assert found is not None, label
    return Decimal(found[1].replace(",", ""))


@pytest.mark.parametrize("text", ["", *HOSTILE])
@pytest.mark.parametrize("unit", ["ft", "mm"])
def test_plain_text_of_at_most_100_columns(text: str, unit: str) -> None:
    raw = tally_text(tally(text, unit)).encode("utf-8")
    assert not [byte for byte in raw if byte != 0x0A and not 0x20 <= byte <= 0x7E]
    assert max(len(line) for line in raw.splitlines()) <= WIDTH == 100
    assert raw.count(b"\n") % LINES == 0


def test_every_page_has_its_number_and_the_chain() -> None:
    made = pages(tally_text(tally()))
    assert len(made) > 3
    for number, page in enumerate(made, start=1):
        assert page[0].startswith("FINAL CASING TALLY")
        assert page[0].endswith(f"page {number} of {len(made)}")
        assert page[-1] == f"47 entries, chain ends {HEAD}"


def test_not_final_until_on_depth() -> None:
    for page in pages(tally_text(tally(landed=False))):
        assert page[0].startswith("CASING TALLY, NOT FINAL")
        assert page[2].startswith("*** NOT FINAL: the string is not on depth")
    open_tally, final = tally_text(tally(landed=False)), tally_text(tally())
    assert "NOT FINAL: do not sign" in open_tally
    assert "the usual one of the set-up, NOT measured" in open_tally
    assert "are not counted by a person yet" in open_tally
    assert "NOT" not in final.replace("DOES NOT AGREE", "").replace("NOT IN THE STRING", "")


@pytest.mark.parametrize("unit", ["ft", "m", "mm"])
def test_tens_of_joints_add_up_as_printed(unit: str) -> None:
    text = tally_text(tally("", unit))
    forward = to_here = block = Decimal(0)
    labels = []
    for line in text.splitlines():
        if item := ITEM.match(line):
            block += Decimal(item["length"].replace(",", ""))
            to_here = Decimal(item["to"].replace(",", ""))
            assert to_here == forward + block
        elif edge := BLOCK.match(line):
            first, second = (Decimal((edge[place] or "0").replace(",", "")) for place in (3, 4))
            if edge[2] == "brought forward":
                assert first == to_here
                forward, block = first, Decimal(0)
            else:
                assert (first, second) == (block, to_here)
                labels.append(edge[1])
    assert labels == ["1-10", "11-20", "21-30"]
    assert f"{to_here:,}" == tally("", unit).setup.step.show(tally("", unit).job.length)


def test_the_depths_add_up_as_printed() -> None:
    text = tally_text(tally())
    shoe = amount(text, "SHOE DEPTH")
    assert amount(text, "string length") - amount(text, "less stick-up") == shoe
    assert amount(text, "hole depth") - shoe == amount(text, "POCKET BELOW THE SHOE")
    assert amount(text, "casing point") - shoe == amount(text, "shoe above casing point")
    collar = amount(text, "FLOAT COLLAR, TOP")
    assert shoe - amount(text, "SHOE TRACK") == collar == amount(text, "collar")
    assert "typed as 390 m, converted" in text
    assert "measured from the rotary table; down is positive" in text


def test_the_counts_add_up_as_printed() -> None:
    text = tally_text(tally())
    here = amount(text, "ON LOCATION")
    assert amount(text, "received") - amount(text, "less sent away") == here
    parts = ("run", "left on rack", "rejected", "laid down")
    counts = text[text.index("ON LOCATION") : text.index("ACCOUNTED FOR")]
    assert sum(amount(counts, part) for part in parts) == here == amount(text, "ACCOUNTED FOR")
    joints, others = amount(text, "joints run"), amount(text, "other items of the string")
    assert joints + others == amount(text, "STRING LENGTH") == amount(text, "string length")
    assert re.search(r"counted on the rack by a person +2 +Ama, .*DOES NOT AGREE", text)


@pytest.mark.parametrize(
    "line",
    [
        r"9 +joint +40\.14 rejected +thread +Ama, 2026-03-01 23:10",
        r"31 +joint +43\.29 laid down +bent +Ama",
        r"34 +joint +43\.71 sent away +not ours +Ama",
        r"Left on rack, 1 in all, 43\.57 ft \(number, length\):\n33 43\.57",
        r"bow centralizer +31 +30 +\+1 DOES NOT AGREE +33",
        r"Wanted and not installed: bow centralizer mid-joint on 1; .* on 32\.",
        r"EXCEPTIONS: 1, of them open: 0",
        r"Entry 45, Ama, 2026-03-01 23:10: On depth: The shoe is at 1,235\.72 ft, 43.81 ft above",
        r"Closed by Ama, 2026-03-01 23:10: found",
        r"Entry 44 corrects entry 6, Ama, .*: slip\. Was: 1 run with .*\.\n  Now: 1 run\.",
        r"Ivo +tally keeper",
        r"tally keeper +Ivo +signed _+ date _+",
        r"checker +_+ signed _+ date _+",
        r"company representative +_+ signed _+ date _+",
        r"not a gauge, a barrier or a licensed person's decision",
        r"Shoe track contents +6\.0 bbl",
        r"hung off +245 klbf, slips, Ama",
        r"datum +rotary table, elevation 312\.4 ft",
    ],
)
def test_it_says(line: str) -> None:
    assert re.search(line, tally_text(tally())), line


def test_a_signature_line_is_not_parted_from_the_others() -> None:
    last = "\n".join(pages(tally_text(tally()))[-1])
    assert last.count("signed ____") == 3
    assert "CAUTION AND SIGNATURES" in last


def test_open_exceptions_stay_in_sight_on_every_page() -> None:
    from dataclasses import replace

    made = tally()
    still = tuple(replace(one, closed_by="", closing="") for one in made.exceptions)
    text = tally_text(replace(made, exceptions=still))
    assert all("Exceptions still open: 1" in page[2] for page in pages(text))
    assert "OPEN: nobody has closed it." in text


def test_a_job_that_is_not_set_up_has_no_tally() -> None:
    with pytest.raises(ShoedownError, match="not set up yet"):
        final_tally(EMPTY, (), (0, ""))


def printed(told: Telling) -> str:
    """Return the tally of a job told, without the breaks of its lines."""
    text = tally_text(final_tally(told.job, told.entries, (len(told.entries), HEAD)))
    return " ".join(text.split())


def test_the_auto_fill_float_and_who_converted_it_stand_with_the_volumes():
    told = running("S1", "1", "2", "C1", plan=setup(filling=AUTO))
    text = printed(told)
    assert "CHECK: the auto-fill float was not said to be converted." in text
    told.says(AutoFillConverted, by=CEMENTER, pressure=read("350 psi", "pressure"))
    text = printed(told)
    assert "The auto-fill float was converted at 350 psi: Rui Bastos" in text
    assert "Let in at the foot by auto-fill" in text
    assert "auto-fill" not in printed(running("S1", "1"))


def test_zones_and_waiting_stand_in_the_text_where_there_are_any():
    told = bumped(zones=(SAND,), strengths=LAB)
    told.says(WaitingPicked, rules=(TIME, STRENGTH), confirmed=REP)
    text = printed(told)
    assert "-- ZONES" in text
    assert "sand, 400 ft to 440 ft, oil" in text
    assert "IN DOUBT: No centralizer is on it." in text
    assert "None of it shows that the zone is shut off" in text
    assert "-- WAITING ON CEMENT" in text
    assert "cement in place bump, 2026-05-02" in text
    assert "strength 300 psi, wait 9 h" in text
    assert "time 8 h, wait 8 h" in text
    assert f"confirmed by {REP}" in text
    assert "12 to 24 h is common habit and clears nothing." in text


def test_without_zones_and_before_the_bump_neither_section_stands():
    text = printed(running("S1", "1"))
    assert "ZONES" not in text
    assert "WAITING ON CEMENT" not in text
    assert "No waiting rule is confirmed for the place yet." in printed(bumped())

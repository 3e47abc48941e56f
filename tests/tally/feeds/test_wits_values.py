"""Numbers of the stream in SI, and what is wrong with them, in words."""

from __future__ import annotations

from datetime import datetime

import pytest

from tally.errors import InputError
from tally.feeds.wits_frames import Frame
from tally.feeds.wits_items import FIELD, METRIC, UNITS, items
from tally.feeds.wits_slip import Known, SlipWatch
from tally.feeds.wits_values import Reading, WitsReader

KLBF = 4448.2216152605
"""[N], the exact pound-force (0.45359237 kg x 9.80665 m/s2) times 1,000."""
BBL = 0.158987294928


def read(units: str, *lines: tuple[str, str], reader: WitsReader | None = None, at: float = 0.0):
    return (reader or WitsReader(units)).read(Frame(lines), at)


def test_every_unit_of_the_items_is_known():
    named = {name for item in items().values() for name in (item.metric, item.field)}
    assert named - UNITS.keys() == {"----", "MMHO"}
    assert len(items()) == 40 + 18 + 29 + 30 + 33


@pytest.mark.parametrize(
    ("units", "code", "text", "si"),
    [
        (FIELD, "0114", "172.5", 172.5 * KLBF),
        (METRIC, "0114", "76.7", 767_000.0),
        (FIELD, "0112", "41.2", 41.2 * 0.3048),
        (METRIC, "0112", "12.6", 12.6),
        (FIELD, "1129", "45.3", 45.3 * BBL),
        (FIELD, "0121", "1240", 1240 * 6894.757293168),
        (METRIC, "0121", "8550", 8.55e6),
        (FIELD, "0129", "243.6", 243.6 * 231 * 0.0254**3 / 60),
        (METRIC, "0129", "922", 0.922 / 60),
        (FIELD, "1716", "5.8", 5.8 * BBL / 60),
        (FIELD, "1719", "15.8", 15.8 * 0.45359237 / (231 * 0.0254**3)),
        (FIELD, "0134", "104", 313.15),
        (FIELD, "0137", "5269", 5269.0),
        (METRIC, "0113", "36", 0.01),
        (FIELD, "0128", "100", 1.0),
    ],
)
def test_a_number_is_read_in_the_unit_of_its_set(units, code, text, si):
    value = read(units, (code, text)).values[code]
    assert value.si == pytest.approx(si, rel=1e-9)
    assert value.number == float(text)


@pytest.mark.parametrize(
    ("code", "text", "kind", "says"),
    [
        ("9901", "5", "unknown item", "Item 9901 is not known"),
        ("0114", "****", "wrong number", '"****" is no number'),
        ("0114", "1,720", "wrong number", "is no number"),
        ("0114", "1.7e2", "wrong number", "is no number"),
        ("0114", "nan", "wrong number", "is no number"),
        ("0114", "0000172", "wrong number", "is no number"),
        ("0114", "9" * 40, "wrong number", "is no number"),
        ("0114", "88888", "outside any range", "88888 klbf cannot be"),
        ("0132", "99.9", "outside any range", "99.9 lb/gal cannot be"),
    ],
)
def test_what_cannot_be_a_reading_is_told_and_passed_over(code, text, kind, says):
    reader = WitsReader(FIELD)
    values = read(FIELD, ("0112", "41.2"), (code, text), reader=reader).values
    assert values.keys() == {"0112"}
    assert reader.faults.counts == {kind: 1}
    assert says in reader.faults.last[kind]


@pytest.mark.parametrize("text", ["-999.25", "-9999", "-8888.00", "-999.2500", ""])
def test_no_reading_is_no_value_and_no_fault(text):
    reader = WitsReader(FIELD)
    assert not read(FIELD, ("0114", text), reader=reader).values
    assert reader.nulls == 1
    assert not reader.faults.counts


def test_the_clock_of_the_rig_is_read_and_its_jumps_are_told():
    reader = WitsReader(FIELD)
    first = read(FIELD, ("0105", "260312"), ("0106", "31157"), reader=reader, at=100.0)
    assert first.rig_time == datetime(2026, 3, 12, 3, 11, 57)
    read(FIELD, ("0105", "260312"), ("0106", "031207"), reader=reader, at=110.0)
    assert not reader.faults.counts
    read(FIELD, ("0105", "260312"), ("0106", "041217"), reader=reader, at=120.0)
    assert "jumped 3,600 s forward" in reader.faults.last["clock jump"]
    read(FIELD, ("0105", "260312"), ("0106", "031227"), reader=reader, at=130.0)
    assert "jumped 3,600 s back" in reader.faults.last["clock jump"]
    assert read(FIELD, ("0105", "261312"), ("0106", "031227"), reader=reader).rig_time is None
    assert '"261312 031227"' in reader.faults.last["wrong time"]


def test_frames_that_did_not_come_are_told_by_the_count_of_their_record():
    reader = WitsReader(FIELD)
    for number in ("7", "8", "12"):
        read(FIELD, ("0104", number), ("0112", "41"), reader=reader)
    assert reader.faults.last["frames missing"] == (
        "Record 1: after 8 came 12; 3 between them did not come."
    )
    read(FIELD, ("1104", "1"), ("0104", "13"), reader=reader)
    assert reader.faults.counts["frames missing"] == 1


def test_another_unit_set_is_refused():
    with pytest.raises(InputError, match="field or metric"):
        WitsReader("imperial")


# Which unit set it is in

LOADS = (38 * KLBF, 166 * KLBF, 178 * KLBF)
JOB = Known(LOADS, hole_depth=8260 * 0.3048, mud_weight=1222.25)


def slip(units: str, *readings: tuple[str, str], seconds: float = 12.0) -> SlipWatch:
    """The same reading again and again for so long."""
    watch, at = SlipWatch(units), 0.0
    while at <= seconds:
        watch.take(read(units, *readings), JOB, at)
        at += 1.0
    return watch


@pytest.mark.parametrize(
    ("sent", "item", "what"),
    [
        # what a metric rig sends: 172 klbf = 765 kN = 76.5 kdaN; 8260 ft = 2517.6 m
        (METRIC, ("0114", "76.5"), "hook load 76.5 fits this job in 10 kN only"),
        (METRIC, ("0110", "2517.6"), "hole depth 2517.6 fits this job in m only"),
        (METRIC, ("0132", "1222"), ""),  # 1,222 lb/gal is no density at all
        (FIELD, ("0114", "172"), "hook load 172 fits this job in klbf only"),
        (FIELD, ("0110", "8260"), "hole depth 8260 fits this job in ft only"),
        (FIELD, ("0132", "10.2"), "mud density 10.2 fits this job in lb/gal only"),
        (FIELD, ("0112", "97.5"), "block position 97.5 fits this job in ft only"),
    ],
)
def test_a_stream_read_in_the_wrong_unit_set_is_told(sent, item, what):
    wrong = METRIC if sent == FIELD else FIELD
    watch = slip(wrong, item)
    assert watch.told.startswith(f"The {what}" if what else "")
    assert watch.doubted == bool(what)
    if what:
        assert f"set its units to {sent}" in watch.told
    right = slip(sent, item)
    assert not right.doubted
    assert not right.told


def test_a_load_that_passes_through_while_pipe_is_set_is_doubted_and_no_slip_yet():
    watch = slip(FIELD, ("0114", "76.5"), seconds=3.0)
    assert watch.doubted
    assert not watch.told
    watch.take(read(FIELD, ("0114", "172")), JOB, 5.0)
    assert not watch.doubted


def test_the_slip_ends_when_the_load_fits_again():
    watch = slip(METRIC, ("0114", "172"))
    assert watch.told
    watch.take(read(METRIC, ("0114", "76.5")), JOB, 20.0)
    assert not watch.told


def test_nothing_known_is_nothing_held_against():
    watch = SlipWatch(METRIC)
    reading: Reading = read(METRIC, ("0114", "172"), ("0110", "8260"), ("0132", "10.2"))
    watch.take(reading, Known(), 0.0)
    watch.take(reading, Known(), 60.0)
    assert not watch.doubted

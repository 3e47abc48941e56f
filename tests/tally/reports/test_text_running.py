"""What happened while the string was run, as the final tally tells it."""

from tally.job.entries.flow import FlowChecked
from tally.job.entries.running import ItemRun
from tally.job.entries.trouble import CrewChanged, TightSpot
from tally.reports.final_tally import final_tally
from tally.reports.tally_text import tally_text
from tally.reports.text_running import running_told
from tally.units import read
from tests.tally.job.invented import LEAD, REP, running


def test_each_thing_is_told_in_its_turn_with_the_shoe_of_its_moment():
    told = running("S1", "1")
    told.says(TightSpot, set_down=read("10 klbf", "force"))
    told.says(FlowChecked, state="no flow", time=read("5 min", "time"), note="quiet")
    for number, torque, time in (("2", "8900 ft-lbf", "20 s"), ("C1", "9100 ft-lbf", "12 s")):
        told.says(
            ItemRun,
            number=number,
            torque=read(torque, "torque"),
            lowering=read(time, "lowering time"),
        )
    told.says(CrewChanged, lead=REP, told="joint 3 next")
    lines = running_told(told.job)
    assert lines[0] == "Make-up torque read on 2 of 4 connections: 8,900 to 9,100 ft-lbf."
    assert lines[1] == "Lowering timed on 2 of 4 items, the shortest 12 s."
    assert [line.partition("shoe at ")[2] for line in lines[2:]] == [
        "38.80 ft: tight spot: set down 10 klbf",
        "38.80 ft: flow check, 5 min: no flow (quiet)",
        f"80.46 ft: crew change: {REP} leads from here; joint 3 next",
    ]
    assert all(LEAD in line for line in lines[2:])
    text = tally_text(final_tally(told.job, told.entries, (len(told.entries), "0" * 64)))
    assert "WHILE RUNNING" in text
    assert "tight spot: set down 10 klbf" in " ".join(text.split())


def test_with_nothing_told_the_section_does_not_stand():
    told = running("S1")
    assert running_told(told.job) == ()
    text = tally_text(final_tally(told.job, told.entries, (len(told.entries), "0" * 64)))
    assert "WHILE RUNNING" not in text

"""The shipped waiting rules against the values read in their sources, typed here once more."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tally.job.setup import WaitingRule
from tally.job.waiting_rules import MEMORY, asks, rules_for, shipped_rules
from tally.units import read, to_unit
from tests.tally.job.invented import setup

READ = [
    # name, hours, strength, its unit, all or any of them, where it was read
    ("us-offshore-bottom-500-ft", None, 500, "psi", "all", "30 CFR 250.420(c), 1 July 2010"),
    ("us-offshore-bottom-500-ft-2001", None, 500, "psi", "all", "30 CFR 250.404(a)(2), 2001"),
    ("us-offshore-sulphur-strength", None, 160, "psi", "all", "30 CFR 250.1608(a)(2), 2001"),
    ("us-offshore-sulphur-conductor", 8, None, "psi", "all", "30 CFR 250.1609(b), 6 June 2016"),
    ("us-offshore-sulphur-others", 12, None, "psi", "all", "30 CFR 250.1609(b), 6 June 2016"),
    ("california-offshore-first-surface", 8, 500, "psi", "any", "14 CCR 1744.4"),
    ("california-offshore-others", 12, 500, "psi", "any", "14 CCR 1744.4"),
    ("texas-production", 8, None, "psi", "all", "16 TAC 3.13, after 1 January 2014"),
    ("pennsylvania-surface", 8, 350, "psi", "all", "25 Pa. Code 78a.85(b)-(c)"),
    ("pennsylvania-bottom-300-ft", None, 1200, "psi", "all", "25 Pa. Code 78a.85(b)"),
    ("montana", 8, 300, "psi", "all", "ARM 36.22.1001(2)"),
    ("wyoming", 8, 300, "psi", "all", "053-7 Wyo. Code R. 7-6(b)"),
    ("nevada", None, 300, "psi", "all", "NAC 522.265(2)"),
    ("oklahoma", None, 500, "psi", "all", "OAC 165:10-3-4(c), 2024"),
    ("quebec", 12, None, "psi", "all", "M-13.1, r. 1, s. 27, 2023"),
    ("quebec-water-bodies", None, 3500, "kPa", "all", "S-34.1, r. 1, s. 175, 2018"),
    ("storage-cavern", 6, 3600, "kPa", "all", "permit exhibits of 18 June 1999"),
    ("ohio-plugging", None, 500, "psi", "all", "OAC 1501:9-11-07(B)"),
    ("handbook-500-psi", None, 500, "psi", "all", "handbook, properties of cement"),
]
FROM_MEMORY = [
    ("us-offshore-conductor", 8, None, "psi"),
    ("us-offshore-others", 12, None, "psi"),
    ("texas-surface", None, 500, "psi"),
    ("alberta", 48, 3500, "kPa"),
    ("us-onshore-federal", None, 500, "psi"),
]
BY_NAME = {rule.name: rule for rule in shipped_rules()}


def values(rule: WaitingRule, unit: str) -> tuple[float | None, float | None]:
    hours = to_unit(rule.time.value, "h") if rule.time else None
    strength = round(to_unit(rule.strength.value, unit), 6) if rule.strength else None
    return hours, strength


@pytest.mark.parametrize(("name", "hours", "strength", "unit", "need", "source"), READ)
def test_a_rule_asks_what_was_read(
    name: str, hours: float | None, strength: float | None, unit: str, need: str, source: str
) -> None:
    rule = BY_NAME[name]
    assert values(rule, unit) == (hours, strength), source
    assert rule.need == need, source
    assert rule.edition, source
    assert rule.edition != MEMORY, source


@pytest.mark.parametrize(("name", "hours", "strength", "unit"), FROM_MEMORY)
def test_a_rule_that_was_not_read_says_so(
    name: str, hours: float | None, strength: float | None, unit: str
) -> None:
    assert values(BY_NAME[name], unit) == (hours, strength)
    assert BY_NAME[name].edition == MEMORY


def test_every_shipped_rule_is_in_one_of_the_tables() -> None:
    named = [*(row[0] for row in READ), *(row[0] for row in FROM_MEMORY)]
    assert sorted(named) == sorted(BY_NAME)
    assert len(named) == len(shipped_rules())


def test_no_rule_says_safe_and_each_asks_something() -> None:
    for rule in shipped_rules():
        words = " ".join((rule.says, rule.where, rule.meanwhile, rule.place, rule.clause))
        assert words.isascii()
        assert "safe" not in words.lower()
        assert asks(rule) != "neither time nor strength", rule.name


def test_a_rule_of_the_job_takes_the_place_of_a_shipped_one() -> None:
    own = WaitingRule(name="montana", place="the county", time=read("20 h", "time"))
    extra = replace(own, name="company", time=read("16 h", "time"))
    found = rules_for(setup(waiting_rules=(own, extra)))
    assert found[:2] == (own, extra)
    assert [rule.place for rule in found if rule.name == "montana"] == ["the county"]
    assert len(found) == len(shipped_rules()) + 1

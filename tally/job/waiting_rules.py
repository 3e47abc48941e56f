"""The rules for waiting on cement that may be picked: the shipped ones and the job's own."""

from __future__ import annotations

from functools import cache

from tally.job.setup import Setup, WaitingRule
from tally.job.stored import from_fields

MEMORY = "memory, verify"
"""The edition of a rule that was not read in a document."""


@cache
def shipped_rules() -> tuple[WaitingRule, ...]:
    """Return the rules that come with the program.

    >>> shipped_rules()[0].place, shipped_rules()[0].strength.text
    ('USA, offshore', '500 psi')
    """
    import tomllib
    from importlib.resources import files

    text = (files("tally.cement") / "waiting_rules.toml").read_text(encoding="utf-8")
    return tuple(from_fields(WaitingRule, row) for row in tomllib.loads(text)["waiting_rule"])


def rules_for(setup: Setup) -> tuple[WaitingRule, ...]:
    """Return every rule that may be picked: the job's own first, in place of one of that name."""
    own = {rule.name: rule for rule in setup.waiting_rules}
    return (*own.values(), *(rule for rule in shipped_rules() if rule.name not in own))


def asks(rule: WaitingRule) -> str:
    """Return what a rule asks for in a few words.

    >>> asks(shipped_rules()[5])
    '8 h or 500 psi, bottom 500 ft, by pretest'
    """
    wanted = [each.text for each in (rule.time, rule.strength) if each is not None]
    joined = (" or " if rule.need == "any" else " and ").join(wanted)
    return ", ".join(each for each in (joined, rule.where) if each) or "neither time nor strength"

"""Picking the rules for waiting on cement, and who confirms them for the place."""

from __future__ import annotations

from collections.abc import Callable

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.pins import signed_form
from screens.dialogs.running import ask, stamp
from screens.pages.page import Page
from tally.errors import InputError
from tally.job.entries.waiting import WaitingPicked
from tally.job.setup import Setup, WaitingRule
from tally.job.waiting_rules import asks, rules_for

OWN = "the job's own rules"


async def pick_rules(page: Page) -> None:
    """Ask for the place, then for its rules by number and the person who confirms them."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; that comes first (F2).")
        return
    stamped, setup = stamp(page), page.job.known
    names = places(setup)
    where = await ask(page, "Waiting on cement: the place", Field("place", "Place", choices=names))
    if not where:
        return
    offered = rules_at(setup, where["place"])
    people = tuple(page.job.people)
    answer = await signed_form(
        page,
        f"Waiting on cement: {where['place']}",
        [
            Field("rules", "Rules that hold here, by number", chosen_of(offered), hint="1 or 1, 2"),
            Field("confirmed", "Confirmed for the place by", choices=people),
        ],
        ("confirmed",),
        says="\n".join(_offer(number, rule) for number, rule in enumerate(offered, 1)),
        caution="the text of the rule governs, and editions change",
    )
    if answer:
        await say(page, WaitingPicked(**stamped, **answer))


def places(setup: Setup) -> tuple[str, ...]:
    """Return the places that rules are known for, the job's own rules first."""
    own = (OWN,) if setup.waiting_rules else ()
    known = sorted({rule.place for rule in rules_for(setup) if rule not in setup.waiting_rules})
    return (*own, *known)


def rules_at(setup: Setup, place: str) -> tuple[WaitingRule, ...]:
    """Return the rules of a place; the job's own are offered with every one."""
    others = () if place == OWN else (rule for rule in rules_for(setup) if rule.place == place)
    return tuple(dict.fromkeys((*setup.waiting_rules, *others)))


def _offer(number: int, rule: WaitingRule) -> str:
    strings = f" [{rule.strings}]" if rule.strings else ""
    end = f"{rule.clause}, {rule.edition}" if rule.edition else rule.clause
    says = f" {rule.says}" if rule.says else ""
    return f"{number}  {asks(rule)}{strings}: {end}.{says}"


def chosen_of(offered: tuple[WaitingRule, ...]) -> Callable[[str], tuple[WaitingRule, ...]]:
    """Return a reader of numbers with commas between them, as the rules they stand for."""

    def look(text: str) -> tuple[WaitingRule, ...]:
        numbers = [part.strip() for part in text.split(",")]
        wrong = [one for one in numbers if not (one.isdigit() and 0 < int(one) <= len(offered))]
        if wrong:
            raise InputError(
                f"'{wrong[0][:20]}' is none of the rules; type 1 to {len(offered)}, with commas."
            )
        return tuple(offered[int(one) - 1] for one in dict.fromkeys(numbers))

    return look

"""The rules for waiting on cement, picked by somebody for the place of the job."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.cementing_records import Picked
from tally.job.entry import Entry, clock, entry_kind
from tally.job.job import Job
from tally.job.setup import WaitingRule
from tally.job.waiting_rules import MEMORY
from tally.job.witnessing import unsigned


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingPicked(Entry):
    """A named person says which rules hold at the place; each is kept as it read then."""

    KIND = "waiting rules"

    rules: tuple[WaitingRule, ...]
    confirmed: str

    def check(self, job: Job) -> str:
        """Refuse no rule at all, a rule twice, one that asks nothing, and a name nobody knows."""
        if job.setup is None:
            return "The job is not set up yet; the waiting rules are picked after that."
        if not self.rules:
            return "Pick at least one rule; one of the job's own is added to its set-up."
        names = [rule.name for rule in self.rules]
        twice = next((name for name in names if names.count(name) > 1), "")
        if twice:
            return f"The rule {twice} is picked twice; name each rule once."
        empty = next((one for one in self.rules if one.time is None and one.strength is None), None)
        if empty is not None:
            return f"The rule {empty.name} asks for neither a time nor a strength; look at it."
        if self.confirmed not in job.people:
            return (
                f"{self.confirmed or 'Nobody'} is not among the people of this job; a person "
                "who knows the place confirms the rules by name."
            )
        return ""

    def demand(self, job: Job) -> str:
        """Want the PIN of whoever confirms, where there is one."""
        return unsigned(job, (self.confirmed,), self.signed)

    def ask(self, job: Job) -> str:
        """Ask about rules that nobody read in a document, and where rules were picked before."""
        unread = ", ".join(rule.name for rule in self.rules if rule.edition == MEMORY)
        questions = []
        if unread:
            questions.append(
                f"Not read in a document: {unread}. Hold it against its text and say where that "
                "was read."
            )
        if job.picked is not None and job.picked.rules != self.rules:
            questions.append(
                f"Rules were confirmed by {job.picked.confirmed} at {clock(job.picked.at)} "
                "already; say why they change."
            )
        return " ".join(questions)

    def apply(self, job: Job) -> Job:
        """Keep the rules and who confirmed them."""
        picked = Picked(self.seq, self.rules, self.confirmed, self.at, self.despite)
        return replace(job, picked=picked)

    def said(self) -> str:
        """Return the entry in words."""
        names = ", ".join(rule.name for rule in self.rules)
        return f"waiting rules {names}, confirmed by {self.confirmed}"

"""What the help of a page says: the three questions, and an answer to each."""

from __future__ import annotations

from dataclasses import dataclass

QUESTIONS = ("What do I do here?", "What do the numbers mean?", "Where do they come from?")


@dataclass(frozen=True, slots=True)
class HelpText:
    """The answers of one page, each a short paragraph."""

    do: str = ""
    mean: str = ""
    source: str = ""

    def answers(self) -> tuple[tuple[str, str], ...]:
        """Return each question with its answer."""
        answers = (self.do, self.mean, self.source)
        return tuple(zip(QUESTIONS, answers, strict=True))

"""The balance of the joints, by count and by length: two rows that must agree."""

from __future__ import annotations

from textual.content import Content

from screens.ink import BOLD, INK, QUIET, STOP, Line
from tally.job.counts import balance
from tally.job.job import SENT_AWAY, Job

COLUMNS = (18, 30, 44, 56, 68)
WORDS = ("on location", "run", "left on rack", "rejected", "laid down")
SIGNS = ("=", "+", "+", "+", "")


def balance_lines(job: Job, width: int) -> list[Content]:
    """Return the words, the counts, the lengths, and what was sent away if anything was."""
    sums, step = balance(job), job.known.step
    parts = (sums.on_location, sums.run, sums.left, sums.rejected, sums.laid_down)
    out = sums.difference
    counts = _row(width, "joints", [str(part.count) for part in parts], f"{out.count:+d}")
    lengths = _row(width, step.unit, [step.show(part.length) for part in parts], _signed(job))
    return [_words(width), counts, lengths, *_sent_away(job, width)]


def _signed(job: Job) -> str:
    out = balance(job).difference.length
    return ("+" if out > 0 else "") + (job.known.step.show(out) if out else "+0")


def _words(width: int) -> Content:
    drawn = Line(width)
    for column, word in zip(COLUMNS, WORDS, strict=True):
        drawn.end(column, word, QUIET)
    return drawn.content()


def _row(width: int, unit: str, shown: list[str], out: str) -> Content:
    drawn = Line(width).put(0, unit, QUIET)
    for column, text, sign in zip(COLUMNS, shown, SIGNS, strict=True):
        drawn.end(column, text, BOLD).put(column + 1, sign, QUIET)
    agrees = out == "+0"
    return drawn.put(
        COLUMNS[-1] + 2, "agrees" if agrees else out, INK if agrees else STOP
    ).content()


def _sent_away(job: Job, width: int) -> list[Content]:
    gone = [each for each in job.items.values() if each.state == SENT_AWAY and each.kind == "joint"]
    if not gone:
        return []
    length = job.known.step.with_unit(sum(each.length for each in gone))
    word = "joint" if len(gone) == 1 else "joints"
    return [
        Line(width).put(0, f"sent away {len(gone)} {word}, {length}: not counted", QUIET).content()
    ]

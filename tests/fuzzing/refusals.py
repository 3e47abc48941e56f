"""How a reader takes harmed files: taken or refused in sentences, never broken or stuck."""

from __future__ import annotations

import re
import time
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from random import Random

from tally.errors import JobFileError, ShoedownError
from tests.fuzzing.inputs import harmed
from tests.fuzzing.targets import Target

LONGEST = 2000
PATIENCE = 10.0
"""[s] for one file on a busy machine."""
UNCLEAN = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]|Traceback|0x[0-9a-f]{6}"
)


@dataclass(frozen=True, slots=True)
class Told:
    """How many files were taken and refused, and what was wrong with each that was neither."""

    taken: int
    refused: int
    wrong: tuple[str, ...]
    slowest: float


def tried(target: Target, count: int, seed: int, folder: Path) -> Told:
    """Give a reader so many harmed files."""
    draw, seen, wrong, slowest = Random(seed), Counter[str](), [], 0.0
    for number in range(count):
        content = harmed(draw, target.seeds)
        began = time.perf_counter()
        how, told = once(target, content, folder)
        slowest = max(slowest, time.perf_counter() - began)
        seen[how] += 1
        if told:
            wrong.append(f"file {number} of seed {seed}: {told}; it was {content[:300]!r}")
    if slowest > PATIENCE:
        wrong.append(f"a file took {slowest:.1f} s")
    return Told(seen["taken"], seen["refused"], tuple(wrong), slowest)


def once(target: Target, content: bytes, folder: Path) -> tuple[str, str]:
    """Return whether a file was taken or refused, and what was wrong with how."""
    try:
        target.take(content, folder)
    except JobFileError as fault:
        return "refused", next(filter(None, map(unfit, (str(fault), *fault.faults))), "")
    except ShoedownError as fault:
        return "refused", unfit(str(fault))
    except Exception as fault:
        return "broken", f"{type(fault).__name__}: {fault}"
    return "taken", ""


def unfit(sentence: str) -> str:
    """Return why a refusal is no sentence to show to a person, or nothing."""
    if not sentence.strip().endswith((".", "?", ":")):
        return f"no sentence: {sentence[-200:]!r}"
    if len(sentence) > LONGEST:
        return f"a refusal of {len(sentence)} characters: {sentence[:200]!r}"
    if found := UNCLEAN.search(sentence):
        return f"{found[0]!r} in a refusal: {sentence[:200]!r}"
    return ""

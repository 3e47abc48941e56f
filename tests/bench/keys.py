"""Keys of a recorded script here and in a spreadsheet, and the time that a model gives them.

The script is a tally as it is typed on the floor: 100 joints, each length typed on both sides
(nothing is strapped before), 40 of them with a centralizer, 30 of those as planned and 10 not, 5
lengths put right (two of them ten rows back), one joint laid down after make-up.

The spreadsheet is a well-made one, worked in the best way there is: its sums are there already,
columns are length, pieces installed, and a mark for a joint laid down that the sums leave out; the
cursor stands in the first empty row, and after Tab, Enter leads back to the column where the row
was begun. By the rules

- D0: a length and Enter; 6 keys.
- D1: a length, Tab, the count of pieces, Enter; 8 keys.
- H: a length that lies n rows up is put right by n times up, the length, Enter, and n - 1 times
  down; the old value is lost there.
- laid down: up, Tab, Tab, 1, Enter.

Ours are the keys that tests/bench/test_keys.py feeds to the app, not one left out: a length and
Enter (what the programme wants comes by itself), a + after the length for one centralizer more; c,
j and the number, Enter, the length, Enter, the reason, Enter for what is put right; l, the number,
Enter, the reason, Enter for what is laid down.

The time is that of the keystroke-level model (Card, Moran, Newell, Communications of the ACM
23(7), 1980): 1.35 s for each decision, 0.28 s (not a secretary) or 0.50 s (letters at random) for
each key. It knows neither gloves nor rain, and no waiting for the program.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

DECISION = 1.35
"""[s], the operator M of the model."""
KEY_TIMES = (0.28, 0.50)
"""[s], the operator K at its two values."""
JOINTS = 100
PLANNED = frozenset(range(3, 91, 3))
"""Places counted from the shoe, on which the programme wants a centralizer: 30 of them."""
NOT_PLANNED = frozenset({2, 11, 20, 29, 38, 47, 56, 65, 74, 85})
"""Joints that carry a centralizer of which the programme knows nothing."""
CORRECTED_AFTER = {20: 10, 35: 1, 52: 2, 83: 10, 97: 3}
"""After which joint a length is put right, and how many rows up it lies."""
LAID_DOWN = 91
"""The joint that is laid down after its make-up; the programme has nothing from there on."""


@dataclass(frozen=True, slots=True)
class Act:
    """One thing that somebody does: its keys here and there, and the decisions it takes."""

    ours: tuple[str, ...]
    decisions: int
    sheet: int
    """Keys in the spreadsheet."""
    sheet_decisions: int


def length(number: int) -> str:
    """Return the length of a joint in feet, as it is right."""
    return f"{40 + number * 37 % 250 / 100:.2f}"


def wrong(number: int) -> str:
    """Return the length as it is typed at first: its last two figures the other way round."""
    right = length(number)
    return f"{right[:-2]}{right[-1]}{right[-2]}"


def put_right() -> dict[int, int]:
    """Return the joints put right: after which one, and which."""
    return {after: after - rows + 1 for after, rows in CORRECTED_AFTER.items()}


def script() -> Iterator[Act]:
    """Yield the acts in their order."""
    corrected = set(put_right().values())
    for number in range(1, JOINTS + 1):
        yield _joint(number, wrong(number) if number in corrected else length(number))
        if number == LAID_DOWN:
            keys = ("l", *str(number), "enter", "1", "enter")
            yield Act(keys, 2, len(("up", "tab", "tab", "1", "enter")), 2)
        if number in CORRECTED_AFTER:
            yield _correction(put_right()[number], CORRECTED_AFTER[number])


def _joint(number: int, typed: str) -> Act:
    d0, d1 = len(typed) + 1, len(typed) + 3
    if number in NOT_PLANNED:
        return Act((*typed, "+", "enter"), 2, d1, 2)
    if number in PLANNED:
        return Act((*typed, "enter"), 1, d1, 2)
    return Act((*typed, "enter"), 1, d0, 1)


def _correction(number: int, rows: int) -> Act:
    right = length(number)
    ours = ("c", "j", *str(number), "enter", *right, "enter", "1", "enter")
    return Act(ours, 2, rows + len(right) + 1 + rows - 1, 2)


@dataclass(frozen=True, slots=True)
class Effort:
    """Keys and decisions of a whole script."""

    keys: int
    decisions: int

    def seconds(self, key: float) -> float:
        """Return the time of it, where a key takes so long [s]."""
        return self.keys * key + self.decisions * DECISION


def ours() -> Effort:
    """Return what the script takes here."""
    acts = tuple(script())
    return Effort(sum(len(act.ours) for act in acts), sum(act.decisions for act in acts))


def spreadsheet() -> Effort:
    """Return what the script takes in the spreadsheet."""
    acts = tuple(script())
    return Effort(sum(act.sheet for act in acts), sum(act.sheet_decisions for act in acts))


def planned_spreadsheet() -> Effort:
    """Return the same where the spreadsheet has the planned pieces in their cells already."""
    there, saved = spreadsheet(), len(PLANNED)
    return Effort(there.keys - 2 * saved, there.decisions - saved)


def sentence() -> str:
    """Return the figures as the README tells them."""
    here, there = ours(), spreadsheet()
    times = " and ".join(f"{here.seconds(key) / there.seconds(key):.2f}" for key in KEY_TIMES)
    filled = here.keys / planned_spreadsheet().keys
    return (
        f"Keys, counted and not timed: a script of {JOINTS} joints typed, {len(PLANNED)} "
        f"centralizers as planned, {len(NOT_PLANNED)} that were not, {len(CORRECTED_AFTER)} "
        f"lengths put right and a joint laid down takes {here.keys} keys here and {there.keys} in "
        f"a well-made spreadsheet, a ratio of {here.keys / there.keys:.2f}; in time by the "
        f"keystroke-level model {times} (0.28 s and 0.50 s a key). Against a spreadsheet that has "
        f"the planned centralizers in their cells already it is {filled:.2f} in keys. A length "
        "alone is a draw: its figures and Enter, on both sides. The script and the rules of the "
        "count are in `tests/bench/keys.py`."
    )

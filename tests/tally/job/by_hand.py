"""A job kept by hand: an independent reckoning of the same acts, in plain integers and fractions.

It knows nothing of the entries and their fold. An act is a dictionary; a list of acts is gone
through from the start every time, and what cannot be is left out and remembered.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from tests.tally.job.second_opinion import BORE, CLOSED, bbl

Act = Mapping[str, Any]
PIECES = {"S1": ("shoe", 195), "C1": ("collar", 152)}


@dataclass
class Sheet:
    """The sheet of paper: where each item stands, and what was read."""

    kind: dict[str, str] = field(default_factory=lambda: {n: k for n, (k, _) in PIECES.items()})
    length: dict[str, int] = field(default_factory=lambda: {n: s for n, (_, s) in PIECES.items()})
    stands: dict[str, str] = field(default_factory=lambda: dict.fromkeys(PIECES, "on rack"))
    string: list[str] = field(default_factory=list)
    fittings: dict[str, int] = field(default_factory=dict)
    fluid: Fraction = Fraction(0)
    drawn: Fraction = Fraction(0)
    tank: list[tuple[Fraction, bool, int, Fraction]] = field(default_factory=list)
    landed: tuple[int, int] | None = None
    hung: bool = False
    notes: int = 0
    left_out: list[int] = field(default_factory=list)

    @property
    def run(self) -> int:
        """Length of the string."""
        return sum(self.length[number] for number in self.string)

    @property
    def room(self) -> Fraction:
        """What the string holds, in barrels."""
        return bbl(BORE * self.run)

    def joints(self, *states: str) -> tuple[int, int]:
        """Return how many joints stand so, and their length."""
        found = [
            self.length[number]
            for number, state in self.stands.items()
            if self.kind[number] == "joint" and (state in states or not states)
        ]
        return len(found), sum(found)

    def expected_in_tank(self) -> Fraction | None:
        """Return what the last reading should have gained, in barrels."""
        if len(self.tank) < 2 or self.tank[-1][1]:
            return None
        (_, _, before, drawn), (_, _, after, drawn_now) = self.tank[-2:]
        return bbl(CLOSED * (after - before)) - (drawn_now - drawn)


def reckon(acts: Sequence[tuple[int, Act]]) -> Sheet:
    """Go through the acts from the start; what cannot be is left out."""
    sheet = Sheet()
    for seq, act in acts:
        if allowed(sheet, act):
            _DO[act["what"]](sheet, act)
        else:
            sheet.left_out.append(seq)
    return sheet


def allowed(sheet: Sheet, act: Act) -> bool:
    """Whether an act can be at this point."""
    return bool(_MAY[act["what"]](sheet, act))


def _on_rack(sheet: Sheet, act: Act) -> bool:
    return sheet.stands.get(act["number"]) == "on rack"


def _top(sheet: Sheet, act: Act) -> bool:
    return bool(sheet.string) and sheet.string[-1] == act["number"]


def _receive(sheet: Sheet, act: Act) -> None:
    for number, length in act["items"]:
        sheet.kind[number] = "pup" if number.startswith("P") else "joint"
        sheet.length[number] = length
        sheet.stands[number] = "on rack"


def _run(sheet: Sheet, act: Act) -> None:
    number = act["number"]
    if act["length"] is not None:
        sheet.length[number] = act["length"]
    sheet.stands[number] = "run"
    sheet.string.append(number)
    sheet.fittings[number] = act["pieces"]


def _take_off(sheet: Sheet, number: str, state: str) -> None:
    if _top(sheet, {"number": number}):
        sheet.string.pop()
        sheet.fluid = min(sheet.fluid, sheet.room)
    sheet.stands[number] = state


def _fill(sheet: Sheet, act: Act) -> None:
    poured = sheet.room - sheet.fluid if act["bbl"] is None else act["bbl"]
    sheet.fluid = min(sheet.room, sheet.fluid + poured)
    sheet.drawn += poured if act["source"] == "trip tank" else 0


def _read_tank(sheet: Sheet, act: Act) -> None:
    mark = act["mark"] or not sheet.tank
    sheet.tank.append((act["bbl"], mark, sheet.run, sheet.drawn))


def _land(sheet: Sheet, act: Act) -> None:
    sheet.landed = (act["stick_up"], act["counted"])


_MAY: dict[str, Any] = {
    "receive": lambda sheet, act: (
        len({n for n, _ in act["items"]}) == len(act["items"]) > 0
        and not any(n in sheet.stands for n, _ in act["items"])
    ),
    "send": lambda sheet, act: sheet.stands.get(act["number"]) not in (None, "run", "sent away"),
    "run": lambda sheet, act: not sheet.landed and _on_rack(sheet, act),
    "reject": _on_rack,
    "lay down": lambda sheet, act: not sheet.landed and (_on_rack(sheet, act) or _top(sheet, act)),
    "pull": lambda sheet, act: not sheet.landed and _top(sheet, act),
    "fit": lambda sheet, act: sheet.stands.get(act["number"]) == "run",
    "tank": lambda sheet, act: True,
    "fill": lambda sheet, act: bool(sheet.string),
    "land": lambda sheet, act: not sheet.landed and act["stick_up"] < sheet.run,
    "hang": lambda sheet, act: bool(sheet.landed) and not sheet.hung,
    "note": lambda sheet, act: True,
}
_DO: dict[str, Any] = {
    "receive": _receive,
    "send": lambda sheet, act: sheet.stands.__setitem__(act["number"], "sent away"),
    "run": _run,
    "reject": lambda sheet, act: sheet.stands.__setitem__(act["number"], "rejected"),
    "lay down": lambda sheet, act: _take_off(sheet, act["number"], "laid down"),
    "pull": lambda sheet, act: _take_off(sheet, act["number"], "on rack"),
    "fit": lambda sheet, act: sheet.fittings.__setitem__(act["number"], act["pieces"]),
    "tank": _read_tank,
    "fill": _fill,
    "land": _land,
    "hang": lambda sheet, act: setattr(sheet, "hung", True),
    "note": lambda sheet, act: setattr(sheet, "notes", sheet.notes + 1),
}

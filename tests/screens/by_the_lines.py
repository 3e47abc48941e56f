"""A book added up a second way: from the text of its lines, with nothing of the program.

The file is read with SQLite alone, the chain is worked out anew, and the lines are gone through
from the first to the last by the plain rules of a tally. What a line names that cannot be is left
out: after a correction a later line may no longer fit.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from fractions import Fraction
from hashlib import sha256
from pathlib import Path
from typing import Any

from tests.tally.job.second_opinion import disc, metal

Line = Mapping[str, Any]
ON_RACK, IN_STRING = "on rack", "run"
STEP = {"ft": Fraction("0.3048") / 100, "m": Fraction("0.01"), "mm": Fraction("0.001")}
"""One step of the tally, in metres."""
METRES = {"ft": Fraction("0.3048"), "m": Fraction(1)}
INCH = Fraction("0.0254")


def texts_of(path: Path) -> list[str]:
    """Return the lines of a book as they are stored; each must follow on the one before."""
    with closing(sqlite3.connect(path.as_uri() + "?mode=ro", uri=True)) as connection:
        (book,) = connection.execute("SELECT book FROM books").fetchone()
        stored = connection.execute("SELECT seq, prev, hash, line FROM journal ORDER BY seq")
        head = sha256(f"shoedown book {book}".encode()).hexdigest()
        texts: list[str] = []
        for seq, prev, own, text in stored:
            assert seq == len(texts) + 1, f"line {len(texts) + 1} is missing"
            assert prev == head, f"line {seq} does not follow on the one before"
            head = sha256(f"{prev}\n{text}".encode()).hexdigest()
            assert own == head, f"line {seq} was changed"
            texts.append(text)
    return texts


@dataclass
class Paper:
    """What the lines add up to, lengths in whole steps."""

    kind: dict[str, str] = field(default_factory=dict)
    length: dict[str, int] = field(default_factory=dict)
    pipe: dict[str, str] = field(default_factory=dict)
    stands: dict[str, str] = field(default_factory=dict)
    came: set[str] = field(default_factory=set)
    """The numbers that came with a delivery, not with the set-up."""
    string: list[str] = field(default_factory=list)
    setup: Line | None = None
    stick_up: int | None = None
    """As landed."""
    left_out: list[int] = field(default_factory=list)

    @property
    def run(self) -> int:
        """Length of the string."""
        return sum(self.length[number] for number in self.string)

    @property
    def shoe(self) -> int:
        """Depth of the shoe."""
        usual = (self.setup or {"lengths": {}})["lengths"].get("stick_up", 0)
        return self.run - int(usual if self.stick_up is None else self.stick_up)

    def joints(self, *states: str) -> tuple[int, int]:
        """Return how many joints stand so, and their length; without a state, all here."""
        found = [
            self.length[number]
            for number, state in self.stands.items()
            if self.kind[number] == "joint"
            and (state in states if states else state != "sent away")
        ]
        return len(found), sum(found)

    def displaced(self) -> float:
        """Return what the closed string pushes aside, in cubic metres."""
        pipes = self.setup["pipes"] if self.setup else []
        step = STEP[(self.setup or {"lengths": {}})["lengths"].get("unit", "ft")]
        whole = Fraction(0)
        for number in self.string:
            of = next((each for each in pipes if each["name"] == self.pipe[number]), pipes[0])
            inside, weight = of["inner_diameter"].split(), of["weight"].split()
            assert (inside[-1], weight[-1]) == ("in", "lb/ft"), of
            area = disc(inside[0]) + metal(weight[0])
            whole += area * INCH**2 * self.length[number] * step
        return float(whole)


def as_they_stand(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with the last correction of each in its place; struck ones are gone."""
    instead: dict[int, Line | None] = {}
    for line in lines:
        if line["kind"] == "correction":
            told = line.get("instead")
            instead[line["of"]] = None if told is None else {"despite": line["reason"], **told}
    standing = []
    for line in lines:
        if line["seq"] not in instead:
            standing.append(line)
        elif (told := instead[line["seq"]]) is not None:
            standing.append({**told, **{key: line[key] for key in ("kind", "seq", "by", "at")}})
    return standing


def added_up(texts: list[str]) -> Paper:
    """Go through the lines from the start."""
    paper = Paper()
    for line in as_they_stand([json.loads(text) for text in texts]):
        does = _DO.get(line["kind"])
        if does and not does(paper, line):
            paper.left_out.append(line["seq"])
    return paper


def _open(paper: Paper) -> bool:
    return paper.setup is not None and paper.stick_up is None


def _on_rack(paper: Paper, line: Line) -> bool:
    return paper.stands.get(line["number"]) == ON_RACK


def _at_hand(paper: Paper, line: Line) -> bool:
    return _on_rack(paper, line) or paper.string[-1:] == [line["number"]]


def _list(paper: Paper, item: Line) -> None:
    number = item["number"]
    paper.kind[number] = item.get("kind", "joint")
    paper.length[number] = item["length"]
    paper.pipe[number] = item.get("pipe", "")
    paper.stands[number] = ON_RACK


def _set_up(paper: Paper, line: Line) -> bool:
    """Take the items over that nothing has happened to yet; the others keep their place."""
    for number, state in list(paper.stands.items()):
        if state == ON_RACK and number not in paper.came:
            del paper.stands[number]
    paper.setup = line["setup"]
    for item in line["setup"].get("items", ()):
        if item["number"] not in paper.stands:
            _list(paper, item)
    return True


def _receive(paper: Paper, line: Line) -> bool:
    numbers = [item["number"] for item in line["items"]]
    if paper.setup is None or set(numbers) & set(paper.stands):
        return False
    for item in line["items"]:
        _list(paper, item)
    paper.came.update(numbers)
    return True


def _send_away(paper: Paper, line: Line) -> bool:
    if paper.stands.get(line["number"]) in (None, IN_STRING, "sent away"):
        return False
    paper.stands[line["number"]] = "sent away"
    return True


def _run(paper: Paper, line: Line) -> bool:
    if not _open(paper) or not _on_rack(paper, line):
        return False
    number, length = line["number"], line.get("length")
    paper.length[number] = paper.length[number] if length is None else length
    paper.stands[number] = IN_STRING
    paper.string.append(number)
    return True


def _reject(paper: Paper, line: Line) -> bool:
    if not _on_rack(paper, line):
        return False
    paper.stands[line["number"]] = "rejected"
    return True


def _lay_down(paper: Paper, line: Line) -> bool:
    return _take_off(paper, line, "laid down")


def _pull(paper: Paper, line: Line) -> bool:
    return not _on_rack(paper, line) and _take_off(paper, line, ON_RACK)


def _take_off(paper: Paper, line: Line, state: str) -> bool:
    number = line["number"]
    if not _open(paper) or not _at_hand(paper, line):
        return False
    if paper.string[-1:] == [number]:
        paper.string.pop()
    paper.stands[number] = state
    return True


def _land(paper: Paper, line: Line) -> bool:
    if not _open(paper) or not 0 <= line["stick_up"] < paper.run or _too_deep(paper, line):
        return False
    paper.stick_up = line["stick_up"]
    return True


def _too_deep(paper: Paper, line: Line) -> bool:
    """Whether the shoe would be below the hole, as the set-up has it in feet or metres."""
    depth, unit = (paper.setup or {})["hole"]["depth"].split()
    shoe = (paper.run - line["stick_up"]) * STEP[(paper.setup or {})["lengths"].get("unit", "ft")]
    return bool(shoe > Fraction(depth.replace(",", "")) * METRES[unit])


_DO: Mapping[str, Any] = {
    "set up": _set_up,
    "received": _receive,
    "sent away": _send_away,
    "item run": _run,
    "rejected": _reject,
    "laid down": _lay_down,
    "pulled out": _pull,
    "on depth": _land,
}

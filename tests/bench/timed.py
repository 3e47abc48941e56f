"""Sides of a measure that run a program in a terminal: key to paint, start to first key.

The time ends when the bytes that complete the wanted screen have been read, not when they have
been looked at, so that the emulator's work is outside it.
"""

from __future__ import annotations

import itertools
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.bench.ratio import Sample
from tests.drive.terminal import Terminal

SIZE = (120, 40)

Wanted = Callable[[int], str]
"""The text that the screen must show after the n-th press, counted from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """How a program is started for a measure."""

    command: Sequence[str | Path]
    size: tuple[int, int] = SIZE
    env: Mapping[str, str] | None = None

    def started(self) -> Terminal:
        """Start it in a terminal of its own."""
        return Terminal(self.command, size=self.size, env=self.env)


@contextmanager
def key_to_paint(program: Program, *, first: str, key: str, wanted: Wanted) -> Iterator[Sample]:
    """Yield a sample: from a key pressed to its effect painted, in one long-running program [s].

    `first` is waited for before the first press; `wanted` names the effect of each press.
    """
    with program.started() as terminal:
        terminal.wait_for(first)
        presses = itertools.count(1)

        def sample() -> float:
            terminal.wait_still(0.05)
            effect = wanted(next(presses))
            if effect in terminal.text():
                raise terminal.failure(f"{effect!r} stood there before the key was pressed")
            return terminal.time_to(effect, key)

        yield sample


@contextmanager
def start_to_key(program: Callable[[], Program], *, key: str, wanted: str) -> Iterator[Sample]:
    """Yield a sample: from starting a program to the effect of the first key it takes [s].

    `program` is asked anew for each start, so that a fresh copy of a book can be given. The key
    is pressed as soon as the program takes single keys.
    """

    def sample() -> float:
        begin = program()
        began = time.perf_counter()
        with begin.started() as terminal:
            terminal.wait_ready()
            pressed = time.perf_counter()
            return pressed - began + terminal.time_to(wanted, key)

    yield sample


def minimal(*arguments: str) -> Program:
    """Return one of the reference programs of minimal.py."""
    return Program(command=[sys.executable, "-m", "tests.bench.minimal", *arguments])


def minimal_table(rows: int) -> AbstractContextManager[Sample]:
    """Enter pressed to row painted, in a Textual app with one table of so many rows."""
    return key_to_paint(
        minimal("table", str(rows)),
        first=f"row {rows}" if rows else "length",
        key="enter",
        wanted=lambda press: f"row {rows + press} ",
    )


def minimal_start() -> AbstractContextManager[Sample]:
    """Start to first key taken, of a Textual app with one line of text."""
    return start_to_key(lambda: minimal("start"), key="x", wanted="took x")


def echo() -> AbstractContextManager[Sample]:
    """Key pressed to answer read, of a program without a toolkit: the cost of the harness."""
    program = minimal("echo")

    @contextmanager
    def side() -> Iterator[Sample]:
        with program.started() as terminal:
            terminal.wait_ready()
            presses = itertools.count(1)

            def sample() -> float:
                return terminal.time_to(f"key {next(presses)}.", "x", quiet=0.001)

            yield sample

    return side()

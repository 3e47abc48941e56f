"""The reference programs: the least that does the same kind of thing, and no more.

    python -m tests.bench.minimal start         a Textual app that shows the key pressed
    python -m tests.bench.minimal table [ROWS]  a Textual table to which Enter adds a row
    python -m tests.bench.minimal echo          no toolkit: answers each key, for the harness's cost

Imports stand inside the programs, so that each starts with what it needs and nothing else.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

PRAGMAS = ("journal_mode=DELETE", "synchronous=EXTRA")
LINE = "joint run; " * 18
"""About as much text as the record of one joint takes (200 bytes)."""


@contextmanager
def bare_insert(folder: Path) -> Iterator[Callable[[], float]]:
    """Yield a sample: one row inserted and committed by sqlite3 into a new file in `folder` [s]."""
    import sqlite3
    from time import perf_counter

    connection = sqlite3.connect(folder / "bare.db", isolation_level=None)
    for pragma in PRAGMAS:
        connection.execute(f"PRAGMA {pragma}")
    connection.execute("CREATE TABLE line (seq INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT")

    def sample() -> float:
        began = perf_counter()
        connection.execute("INSERT INTO line (text) VALUES (?)", (LINE,))
        return perf_counter() - began

    try:
        yield sample
    finally:
        connection.close()


def start() -> None:
    """Run the app that shows the key pressed."""
    from textual.app import App, ComposeResult
    from textual.events import Key
    from textual.widgets import Static

    class Start(App[None]):
        def compose(self) -> ComposeResult:
            yield Static("no key yet")

        def on_key(self, event: Key) -> None:
            self.query_one(Static).update(f"took {event.key}")

    Start().run()


def table(rows: int = 0) -> None:
    """Run the app whose one table gains a row with each Enter."""
    from textual.app import App, ComposeResult
    from textual.binding import Binding
    from textual.widgets import DataTable

    class Table(App[None]):
        BINDINGS = [Binding("enter", "add", "Add a row", priority=True)]

        def compose(self) -> ComposeResult:
            yield DataTable(cursor_type="row")

        def on_mount(self) -> None:
            self.query_one(DataTable).add_columns("row", "length")
            for _ in range(rows):
                self.action_add()

        def action_add(self) -> None:
            shown = self.query_one(DataTable)
            shown.add_row(f"row {shown.row_count + 1}", "41.35")
            shown.move_cursor(row=shown.row_count - 1)

    Table().run()


def line() -> None:
    """Run the app with one input that has a digit in it."""
    from textual.app import App, ComposeResult
    from textual.widgets import Input

    class Line(App[None]):
        def compose(self) -> ComposeResult:
            yield Input(value="4", select_on_focus=False)

    Line().run()


def echo() -> None:
    """Answer each key with a counted word, as fast as Python can."""
    import os
    import tty

    tty.setraw(0)
    count = 0
    while os.read(0, 1) != b"q":
        count += 1
        os.write(1, b"\rkey %d." % count)


if __name__ == "__main__":
    programs = {"start": start, "table": table, "line": line, "echo": echo}
    programs[sys.argv[1]](*map(int, sys.argv[2:]))

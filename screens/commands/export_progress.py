"""How far a long export is, shown on a terminal while it is written."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from tally.reports.progress import Progress, listening


@contextmanager
def progress_shown() -> Iterator[None]:
    """Show a bar and its words in one line of a terminal; elsewhere nothing."""
    if not sys.stderr.isatty():
        yield
        return
    from rich.console import Console
    from rich.progress import Progress as Lines
    from rich.progress import TextColumn

    columns = TextColumn("{task.description}", markup=False)
    with Lines(columns, console=Console(stderr=True), transient=True) as lines:
        task = lines.add_task("", total=None)

        def told(now: Progress) -> None:
            lines.update(task, description=f"{now.bar}  {now.words}")

        with listening(told):
            yield

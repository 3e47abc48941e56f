"""Write the nasty lists: python -m tests.tally.feeds.lists.make

Every list is invented. What must be found in it stands beside it in a TOML file, written by hand.
"""

from __future__ import annotations

from pathlib import Path

from tests.tally.feeds.lists import of_columns, of_encodings, of_lengths, of_rows, of_sheets
from tests.tally.feeds.lists.invented import LISTS

FILES = Path(__file__).parent / "files"
MADE_IN = (of_columns, of_encodings, of_lengths, of_rows, of_sheets)
"""Each enters its lists when it is imported."""


def write(folder: Path = FILES) -> None:
    """Write every list to a folder."""
    folder.mkdir(exist_ok=True)
    for name, make in LISTS.items():
        (folder / name).write_bytes(make())


if __name__ == "__main__":
    write()

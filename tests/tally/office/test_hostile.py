"""Texts that would do harm stand in the office as in the book, and the views still answer."""

import unicodedata
from dataclasses import replace

from tally.book.book import Book
from tests.tally.book.invented import beginning, note
from tests.tally.office.look import ask, everything
from tests.tally.office.test_gathering import bring, of_books
from tests.tally.reports.jobs import HOSTILE

TEXTS = [
    *(text for text in HOSTILE if not any(unicodedata.category(one)[0] == "C" for one in text)),
    "\\u0000 typed as six letters",
    '{"kind":"item run","number":"1"}',
]
"""Those that an entry may hold at all."""


def test_hostile_texts_are_kept(office_at, tmp_path):
    path = tmp_path / "hostile.book"
    set_up, *rest = beginning()
    plan = set_up.setup
    well = replace(plan.well, name="\\N \\.'; DROP TABLE books; --", rig="\u4e95")
    entries = [replace(set_up, setup=replace(plan, well=well)), *rest, *map(note, TEXTS)]
    Book.create(path, entries).close()
    assert bring(office_at, path) == ["added"]
    assert everything(office_at) == of_books(path)
    assert len(ask(office_at, "SELECT rig FROM rigs")) == 1
    assert len(ask(office_at, "SELECT kind FROM entries")) == len(entries)

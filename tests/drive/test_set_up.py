"""The whole set-up of the demonstration typed on the real screens makes the book of its file."""

from __future__ import annotations

import re
import tomllib

from demo_db.play import FOLDER
from tally.book.book import Book
from tally.feeds.job_draft import draft_of
from tally.feeds.job_file import job_entries
from tally.feeds.job_sheets import sheets
from tests.drive.escapes import foreign_sequences
from tests.drive.jobs import SHOEDOWN

BY = "Ama Osei"
SAVED = re.compile(r"saved \d\d:\d\d  the book larkspur.book is made")


class Typist:
    """Somebody who types a set-up, table after table in the order of the list."""

    def __init__(self, terminal, document):
        self.terminal = terminal
        self.draft = draft_of(document)

    def types(self, text):
        if text:
            self.terminal.paste(text)
        self.terminal.press("enter")

    def row(self, cells, texts):
        for cell in cells:
            text = texts.get(cell.key, "")
            choice = str(cell.choices.index(text) + 1) if text and cell.choices else text
            self.types(choice)

    def sheet(self, sheet):
        rows = self.draft.of(sheet.name)
        if not any(rows):
            self.terminal.press("down")
            return
        self.terminal.press("enter")
        if sheet.many or sheet.rows:
            self.terminal.press("enter")
            for place, texts in enumerate(rows):
                self.row(sheet.cells_of(place), texts)
            if len(rows) < len(sheet.rows) or sheet.many:
                self.terminal.press("escape")
            self.terminal.press("escape", "down")
        else:
            self.row(sheet.cells, rows[0])


def test_the_set_up_typed_is_the_set_up_of_the_file(start, tmp_path):
    document = tomllib.loads((FOLDER / "job.toml").read_text("utf-8"))
    document["pipe_list"] = str(FOLDER / document["pipe_list"])
    document["hole"] = {"diameter": "12-1/4", "depth": "8260", "casing_point": "8240"}
    book = tmp_path / "larkspur.book"
    terminal = start(*SHOEDOWN, "new", book, "--by", BY)
    terminal.wait_for(re.compile(r"SET-UP OF A NEW JOB   5 wanted, \d+ empty"))
    typist = Typist(terminal, document)
    for sheet in sheets().values():
        typist.sheet(sheet)
    terminal.wait_for(re.compile(r"limits +36 lines"), timeout=120)
    terminal.wait_for("nothing is wrong: s saves the set-up")
    assert (tmp_path / "larkspur.book.draft.toml").is_file()
    terminal.press("s")
    terminal.wait_for(SAVED)
    terminal.wait_for("NOTHING RUN YET   205 joints on location")
    terminal.press("f10")
    assert terminal.wait_exit() == 0
    assert foreign_sequences(terminal.raw) == {}
    assert not (tmp_path / "larkspur.book.draft.toml").exists()
    with Book.open(book) as made:
        typed, at = made.entries, made.entries[0].at
        wanted = job_entries(FOLDER / "job.toml", BY, at)
    assert typed[0].setup == wanted[0].setup
    assert [(one.KIND, one.by) for one in typed] == [(one.KIND, one.by) for one in wanted]
    assert typed[-1].items == wanted[-1].items

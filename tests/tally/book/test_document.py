"""A book as JSON: it comes back line for line, and whatever was done to the file is named."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.book.book import Book
from tally.book.document import document_text, read_document
from tally.book.journal import chained, genesis
from tally.book.rebuilding import rebuilt
from tally.book.reported import Reported
from tally.book.verify import verify
from tally.errors import BookDamaged, BookError, BookTooNew, ShoedownError
from tally.units.text import unprintable
from tests.tally.book.invented import note, run
from tests.tally.reports.jobs import HOSTILE, entries

Told = dict[str, Any]


@pytest.fixture(scope="module")
def text(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Return the JSON of a book of ten entries and more."""
    with Book.create(tmp_path_factory.mktemp("book") / "job.book", entries()) as book:
        return document_text(book.document())


def refusal(text: str) -> str:
    """Return why a file is refused."""
    with pytest.raises(BookError) as refused:
        read_document(text.encode(), "job.json")
    return str(refused.value)


def test_export_rebuild_export_gives_the_same_bytes(text: str, tmp_path: Path) -> None:
    file = tmp_path / "job.json"
    file.write_text(text)
    report = rebuilt(tmp_path / "again.book", file)
    assert (report.ok, report.count) == (True, len(entries()))
    with Book.open(tmp_path / "again.book") as again:
        assert document_text(again.document()) == text
        again.record(note("work goes on"))


def test_the_head_of_the_file_says_which_book_and_how_far(text: str) -> None:
    told = json.loads(text)
    assert list(told) == [
        *("format", "version", "release", "book", "created", "entries", "head", "journal")
    ]
    assert (told["format"], told["version"]) == ("shoedown book", 1)
    assert told["entries"] == len(told["journal"]) == len(entries())
    assert told["head"] == told["journal"][-1]["hash"]


def test_anybody_can_hash_the_lines(text: str) -> None:
    told = json.loads(text)
    head = genesis(told["book"])
    for line in told["journal"]:
        assert line["prev"] == head
        head = line["hash"]
        assert head == chained(line["prev"], line["line"])


@pytest.mark.parametrize("typed", [each for each in HOSTILE if not any(map(unprintable, each))])
def test_typed_text_comes_back_as_it_was(typed: str, tmp_path: Path) -> None:
    with Book.create(tmp_path / "job.book", entries(typed)) as book:
        document = book.document()
    content = document_text(document).encode("ascii")
    assert not [byte for byte in content if byte < 0x20 and byte != 0x0A]
    assert read_document(content, "job.json") == document


def test_an_entry_that_is_not_known_here_yet_stays_out(tmp_path: Path) -> None:
    with Book.create(tmp_path / "job.book", entries()) as one, Book.open(one.path) as other:
        other.record(note("by another program"))
        assert len(one.document().lines) == one.head[0]
        assert one.document().head == one.head[1]


def changed(place: int, old: str, new: str) -> Callable[[Told], None]:
    """Return what changes the text of a line."""

    def change(told: Told) -> None:
        line = told["journal"][place]
        assert old in line["line"]
        line["line"] = line["line"].replace(old, new)

    return change


def put(key: str, value: Any) -> Callable[[Told], None]:
    """Return what puts another value in the head."""
    return lambda told: told.__setitem__(key, value)


def put_line(key: str, value: Any) -> Callable[[Told], None]:
    """Return what puts another value in the fourth line."""
    return lambda told: told["journal"][3].__setitem__(key, value)


def added(told: Told) -> None:
    """Add an entry that fits the chain."""
    last = told["journal"][-1]
    text = last["line"].replace(f'"seq":{last["seq"]}', f'"seq":{last["seq"] + 1}')
    own = chained(last["hash"], text)
    line = {"seq": last["seq"] + 1, "prev": last["hash"], "hash": own, "line": text}
    told["journal"].append(line)


def rehashed(told: Told) -> None:
    """Change a line and give it the hash that fits."""
    line = told["journal"][3]
    line["line"] = line["line"].replace("thread", "bent")
    line["hash"] = chained(line["prev"], line["line"])


def swapped(told: Told) -> None:
    """Put two entries in each other's place."""
    told["journal"][4:6] = reversed(told["journal"][4:6])


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (changed(3, "thread", "bent"), "Entry 4 was changed after it was written"),
        (rehashed, "Entry 5 does not follow on what stands before it"),
        (lambda told: told["journal"].pop(3), "Entry 4 is missing: after entry 3 comes entry 5"),
        (lambda told: told["journal"].pop(0), "Entry 1 is missing: after entry 0 comes entry 2"),
        (lambda told: told["journal"].pop(), "is missing: its head says"),
        (lambda told: told["journal"].insert(7, told["journal"][5]), "Entry 6 stands there twice"),
        (added, "was added: its head says"),
        (swapped, "Entry 5 is not in its place: entry 6 stands there"),
        (put_line("seq", 5), "Entry 5 stands there twice"),
        (put_line("prev", "0" * 64), "Entry 4 was changed"),
        (put_line("hash", "x"), "line 4 of its journal"),
        (put_line("seq", True), "line 4 of its journal"),
        (put_line("line", None), "line 4 of its journal"),
        (put_line("line", "\ud800"), "entry 4 holds half of a character"),
        (put_line("more", 1), "line 4 of its journal"),
        (put("book", "another"), "Entry 1 does not follow"),
        (put("book", "\x1b[31m"), "its 'book' is missing or is not"),
        (put("head", "0" * 64), "another last hash than that of entry"),
        (put("entries", "12"), "its 'entries'"),
        (put("created", "yesterday"), "its 'created' is no time"),
        (put("version", 2), "this release reads version 1"),
        (put("format", "a poem"), "is JSON, but no book"),
        (put("journal", {}), "its 'journal' is missing or is no list"),
        (put("entries", 1.5), "cannot be read as JSON"),
    ],
)
def test_what_was_done_to_the_file_is_named(
    text: str, change: Callable[[Told], None], said: str
) -> None:
    told = json.loads(text)
    change(told)
    assert said.casefold() in refusal(json.dumps(told)).casefold()


@pytest.mark.parametrize(
    "content", ["", "{", "[]", "null", "{" * 100_000, "[" * 100_000, '{"a":1,"a":1}']
)
def test_what_is_no_document_is_told(content: str) -> None:
    assert "job.json" in refusal(content)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_one_letter_changed_anywhere_is_refused_or_means_the_same(text: str, data: Any) -> None:
    place = data.draw(st.integers(0, len(text) - 1))
    letter = data.draw(st.sampled_from('0a }",:'))
    other = text[:place] + letter + text[place + 1 :]
    try:
        again = read_document(other.encode(), "job.json")
    except BookError:
        return
    sound = read_document(text.encode(), "job.json")
    assert (again.book, again.lines) == (sound.book, sound.lines)


def test_no_file_is_written_over_and_none_is_left_of_a_refusal(text: str, tmp_path: Path) -> None:
    file, path = tmp_path / "job.json", tmp_path / "again.book"
    told = json.loads(text)
    changed(3, "thread", "bent")(told)
    file.write_text(json.dumps(told))
    with pytest.raises(BookDamaged, match="Entry 4 was changed"):
        rebuilt(path, file)
    assert not path.exists()
    file.write_text(text)
    path.write_text("mine")
    with pytest.raises(BookError, match="There is a file"):
        rebuilt(path, file)
    assert path.read_text() == "mine"
    with pytest.raises(ShoedownError, match="There is no file"):
        rebuilt(tmp_path / "x", tmp_path / "none.json")


def chain_of(book: str, *texts: str) -> str:
    """Return a document whose chain holds, whatever its lines say."""
    head, lines = genesis(book), []
    for seq, text in enumerate(texts, start=1):
        own = chained(head, text)
        lines.append({"seq": seq, "prev": head, "hash": own, "line": text})
        head = own
    of = {"format": "shoedown book", "version": 1, "release": "0.1", "book": book, "created": ""}
    return json.dumps({**of, "entries": len(lines), "head": head, "journal": lines})


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("no json", "The line of entry 1 cannot be read"),
        ('{"kind":"note","book":"other","seq":1,"by":"A","at":"x"}', "another place or book"),
        ('{"kind":"from the future","book":"b","seq":1,"by":"A","at":"x"}', "release"),
        (
            '{"kind": "note","book":"b","seq":1,"by":"A","at":"2026-03-01T00:00:00Z","text":"x"}',
            "was not written by this program",
        ),
    ],
)
def test_a_chain_that_holds_over_lines_that_mean_nothing_makes_no_book(
    line: str, said: str, tmp_path: Path
) -> None:
    file, path = tmp_path / "job.json", tmp_path / "again.book"
    file.write_text(chain_of("b", line))
    with pytest.raises(ShoedownError, match=said):
        rebuilt(path, file)
    assert not path.exists()


def test_a_book_made_again_verifies_against_what_the_first_printed(
    book: Book, tmp_path: Path
) -> None:
    book.record(run("SHOE"))
    head = book.head
    file = tmp_path / "job.json"
    file.write_text(document_text(book.document()))
    rebuilt(tmp_path / "again.book", file)
    assert verify(tmp_path / "again.book", Reported(*head)).ok


def test_a_later_version_is_not_guessed_at(text: str) -> None:
    with pytest.raises(BookTooNew):
        read_document(text.replace('"version": 1', '"version": 2').encode(), "job.json")

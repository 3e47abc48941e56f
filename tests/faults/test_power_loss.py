"""Power lost while entries are recorded: what was confirmed is on the disk."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from tests.faults.power_cut import power_cut
from tests.faults.power_loss import Disk
from tests.faults.traced import Cut, Gone, Made, Synced, Wrote

SEED = 20260318


@pytest.mark.parametrize(
    ("notes", "images"),
    [(12, 60), pytest.param(60, 1000, marks=pytest.mark.long)],
    ids=["60 images", "1,000 images"],
)
def test_a_confirmed_entry_is_never_missing(tmp_path, notes, images):
    outcome = power_cut(tmp_path, notes, images, SEED)
    assert (outcome.tries, outcome.wrong) == (images, ())


def test_without_syncs_it_would_be(tmp_path):
    """The same with the disk never asked to write through: the test can fail."""
    outcome = power_cut(tmp_path, 12, 30, SEED, without="synchronous=OFF")
    assert outcome.wrong


def disk(tmp_path: Path) -> tuple[Disk, str, str]:
    book = tmp_path / "a.book"
    book.write_bytes(b"a" * 1024)
    return Disk(tmp_path), str(book), str(tmp_path / "a.book-journal")


def test_what_was_synced_is_in_every_image(tmp_path):
    made, book, _ = disk(tmp_path)
    for call in (Wrote(book, 512, b"b" * 512), Synced(book), Wrote(book, 0, b"c" * 512)):
        made.asked(call)
    seen = {made.image(Random(seed))["a.book"] for seed in range(40)}
    assert all(image[512:] == b"b" * 512 for image in seen)
    assert {image[:1] for image in seen} == {b"a", b"c"}


def test_a_write_may_be_torn_by_sectors(tmp_path):
    made, book, _ = disk(tmp_path)
    made.asked(Wrote(book, 0, b"c" * 1024))
    seen = {made.image(Random(seed))["a.book"] for seed in range(60)}
    halves = {(image[0:1], image[512:513]) for image in seen}
    assert halves == {(b"a", b"a"), (b"a", b"c"), (b"c", b"a"), (b"c", b"c")}


def test_a_name_is_certain_once_its_folder_is_synced(tmp_path):
    made, _, journal = disk(tmp_path)
    made.asked(Made(journal))
    made.asked(Wrote(journal, 0, b"j" * 8))
    made.asked(Synced(journal))
    assert {len(made.image(Random(seed))) for seed in range(20)} == {1, 2}
    made.asked(Synced(str(tmp_path)))
    assert all(made.image(Random(seed))["a.book-journal"] == b"j" * 8 for seed in range(20))
    made.asked(Gone(journal))
    assert {len(made.image(Random(seed))) for seed in range(20)} == {1, 2}
    made.asked(Synced(str(tmp_path)))
    assert {len(made.image(Random(seed))) for seed in range(20)} == {1}


def test_a_cut_file_is_cut_or_not(tmp_path):
    made, book, _ = disk(tmp_path)
    made.asked(Cut(book, 16))
    assert {len(made.image(Random(seed))["a.book"]) for seed in range(20)} == {16, 1024}

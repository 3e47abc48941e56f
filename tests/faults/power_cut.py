"""A book written under strace, and the power cut at many moments of it."""

from __future__ import annotations

import shutil
from pathlib import Path
from random import Random

from tests.faults.outcome import Outcome
from tests.faults.power_loss import Disk, images
from tests.faults.survived import lost
from tests.faults.traced import traced
from tests.tally.book.invented import new_book, run

FAULT = "power lost, writes since the last sync kept or not"
BEFORE = ("SHOE", "1", "2")


def power_cut(folder: Path, notes: int, count: int, seed: int, *, without: str = "") -> Outcome:
    """Record so many notes and lose the power at so many moments; each image must hold its own."""
    place = folder / "disk"
    place.mkdir()
    book = place / "job.book"
    with new_book(book) as made:
        for number in BEFORE:
            made.record(run(number))
        before = len(made.entries)
    disk = Disk(place)
    calls = traced(
        ["tests.faults.writer", book, str(notes), *([without] if without else [])],
        folder / "calls",
    )
    wrong = []
    for said, files in images(disk, calls, count, Random(seed)):
        told = _after(folder / "image", files, before, said)
        if told:
            wrong.append(told)
    return Outcome(FAULT, count, tuple(wrong))


def _after(image: Path, files: dict[str, bytes], before: int, said: list[str]) -> str:
    shutil.rmtree(image, ignore_errors=True)
    image.mkdir()
    for name, content in files.items():
        (image / name).write_bytes(content)
    return lost(image / "job.book", before, said)

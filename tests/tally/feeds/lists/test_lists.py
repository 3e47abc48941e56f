"""The nasty lists: in each, what stands in the file beside it must be found, and nothing else."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from tally.errors import JobFileError
from tally.feeds.rig_list import Answers, Preview, open_list, preview_of, told
from tests.tally.feeds.lists.against import JOBS
from tests.tally.feeds.lists.make import FILES, LISTS

KNOWN = {
    *("says", "job", "answers", "rows", "taken", "total", "total_measured", "measured"),
    *("first", "last", "doubts", "questions", "notes", "read_as", "item", "refused", "blocked"),
}
NAMES = sorted(LISTS)


def expected(name: str) -> dict[str, Any]:
    """Return what must be found in a list."""
    wants = tomllib.loads((FILES / f"{name}.toml").read_text("utf-8"))
    assert wants.keys() <= KNOWN, "the file has a key that nothing looks at"
    return wants


def preview(path: Path, wants: dict[str, Any]) -> Preview:
    """Return the preview of a list against the job that is named."""
    answers = Answers(**wants.get("answers", {}))
    return preview_of(open_list(path), JOBS[wants.get("job", "feet")], answers)


def test_there_are_enough_and_none_is_forgotten() -> None:
    kept = {path.name for path in FILES.iterdir() if path.suffix != ".toml"}
    wanted = {path.stem for path in FILES.glob("*.toml")}
    assert kept == wanted == set(LISTS)
    assert len(kept) >= 40


@pytest.mark.parametrize("name", NAMES)
def test_the_list_is_as_its_script_writes_it(name: str) -> None:
    assert (FILES / name).read_bytes() == LISTS[name](), (
        "run python -m tests.tally.feeds.lists.make"
    )


@pytest.mark.parametrize("name", NAMES)
def test_what_must_be_found_is_found(name: str) -> None:
    wants = expected(name)
    if "refused" in wants:
        with pytest.raises(JobFileError) as caught:
            preview(FILES / name, wants)
        assert wants["refused"] in str(caught.value)
        assert str(caught.value).endswith(".")
        assert str(caught.value).isascii()
        return
    found = preview(FILES / name, wants)
    doubts = sorted([doubt.place, doubt.what] for doubt in found.doubts)
    assert doubts == sorted(wants.get("doubts", []))
    assert (len(found.items), found.count) == (wants["rows"], wants["taken"])
    step = found.rules.step
    assert step.with_unit(found.total) == wants["total"]
    measured = wants.get("total_measured", step.with_unit(found.total_measured))
    assert step.with_unit(found.total_measured) == measured
    assert [question.key for question in found.questions] == wants["questions"]
    assert found.measured == wants.get("measured", found.rules.measured_as)
    assert found.blocked == wants.get("blocked", "")
    assert wants.get("read_as", "") in found.file.read_as
    for note in wants.get("notes", []):
        assert any(note in each for each in found.notes), (note, found.notes)
    _items(found, wants)


def _items(found: Preview, wants: dict[str, Any]) -> None:
    taken = {item.number: item for item in found.taken}
    if found.taken:
        ends = wants.get("first", "1"), wants.get("last")
        assert found.taken[0].number == ends[0]
        assert ends[1] is None or found.taken[-1].number == ends[1]
    for number, fields in wants.get("item", {}).items():
        for field, value in fields.items():
            item = taken[number]
            got = {
                "length": found.rules.step.with_unit(item.length),
                "row": str(item.place),
            }.get(field) or getattr(item, field)
            assert got == value, (number, field)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_that_a_terminal_obeys_is_told(name: str) -> None:
    wants = expected(name)
    if "refused" not in wants:
        for one in told(preview(FILES / name, wants)):
            assert one.text.isprintable()


def test_the_same_file_gives_the_same_preview() -> None:
    name = "mean-against-the-sum.csv"
    first, second = (preview(FILES / name, expected(name)) for _ in range(2))
    assert first == second
    assert first.sample is not None
    assert len(set(first.sample.numbers)) == 20

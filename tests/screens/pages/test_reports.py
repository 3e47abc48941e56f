"""F7: the tally as it will be signed, its files, and the exceptions."""

import csv
from dataclasses import replace
from threading import Event

import pytest

from screens.dialogs.export import write_kinds
from screens.dialogs.writing import OFTEN
from screens.pages.reports import ReportsPage
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import Note
from tally.reports import tally_csv
from tally.units import read
from tests.screens.books import AMA, Story, app_on, setup
from tests.screens.driving import HOSTILE, faults, fill, form, offered, rows, shown


async def test_a_string_that_is_not_on_depth_makes_no_final_tally(running):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.pause()
        seen = shown(app)
        assert "NOT FINAL shoe at 3,473.76 ft 85 joints run left on rack 117" in seen
        assert "exceptions 0, open 0 corrections 1" in seen
        assert "CASING TALLY, NOT FINAL" in seen
        assert "NEXT the string is not on depth, 4,766.24 ft to go: F4 run on" in seen
        assert "then: bow centralizer missing on 82 and 1 more: F4, i install" in seen


async def test_on_depth_it_is_final_and_the_open_exception_is_what_is_next(on_depth):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "NOT SIGNED shoe at 365.80 ft 9 joints run left on rack 1" in shown(app)
        assert "exceptions 1, open 1" in shown(app)
        assert "NEXT 1 open exception: o read, k close" in shown(app)


async def test_with_nothing_open_it_is_to_be_signed(make_book):
    story = Story()
    hole = replace(setup().hole, casing_point=read("40 ft", "length"))
    story.starts(setup(hole=hole, order=("S1", "1"), programme=()), 1)
    story.runs(2)
    story.says(OnDepth, stick_up=322, typed="3.22", counted=0)
    app = app_on(make_book(story.entries), "reports")
    async with app.run_test() as pilot:
        await pilot.pause()
        said = "NEXT nothing is open, nobody has signed it: s sign, then e write the files"
        assert said in shown(app)


async def test_the_text_is_moved_through_to_its_end_and_its_right(running):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("end")
        assert f"96 entries, chain ends {running.head[1][:20]}" in shown(app)
        assert "CASING TALLY, NOT FINAL" not in shown(app)
        await pilot.press("right", "right")
        assert "columns 21-100 of 100" in shown(app)
        await pilot.press("left", "left", "home", "down")
        assert "lines 2-" in shown(app)


async def test_the_whole_width_is_seen_where_there_is_room(running):
    app = app_on(running, "reports")
    async with app.run_test(size=(160, 50)) as pilot:
        await pilot.pause()
        assert "page 1 of" in shown(app)
        assert "columns" not in rows(app)[3]


async def test_the_text_is_written_anew_after_an_entry(on_depth):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press("k")
        await fill(pilot, reason="1")
        await pilot.press("end")
        assert "15 entries, chain ends" in shown(app)


async def test_the_files_are_written_and_named(running, tmp_path):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("e")
        assert offered(app)["folder"] == str(tmp_path / "larkspur-14-reports")
        assert "The string is not on depth; the files will say so." in shown(app)
        await pilot.press("enter", "enter")
        await panel_named(pilot, "Written")
        written = sorted(path.name for path in (tmp_path / "larkspur-14-reports").iterdir())
        assert written
        assert all(name in shown(app) for name in written)
        assert all("not-final" in name for name in written if "-tally" in name)
        assert "larkspur-14-job.toml" in written
        await pilot.press("escape")
        assert f"{len(written)} files written to {tmp_path}" in shown(app).replace("- ", "-")
    assert len(running.entries) == 96


async def test_what_is_written_holds_the_string(on_depth, tmp_path):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await fill(pilot, folder="for signing")
    tally = next((tmp_path / "for signing").glob("*-tally.csv"))
    with tally.open(encoding="utf-8", newline="") as file:
        assert sum(1 for _ in csv.reader(file)) == 1 + len(on_depth.job.string)


async def test_some_kinds_only_and_a_kind_that_is_none(running, tmp_path):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await fill(pilot, folder="some", kinds="csv, parchment")
        assert 'no kind of report "parchment"' in faults(app)["kinds"]
        await fill(pilot, folder="some", kinds="csv, job")
    assert {path.suffix for path in (tmp_path / "some").iterdir()} == {".csv", ".toml"}


async def test_a_folder_that_cannot_be_is_told_beside_its_field(running, tmp_path):
    (tmp_path / "taken").write_text("a file")
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("e")
        for folder in ("taken", "taken/below", "~nobody-of-that-name/x"):
            await fill(pilot, folder=folder)
            assert folder[:5] in faults(app)["folder"], folder
        for folder in HOSTILE[1:2] + HOSTILE[3:4] + HOSTILE[5:6]:
            await fill(pilot, folder=folder)
            assert faults(app)["folder"]


async def test_a_folder_that_the_system_refuses_is_told_on_the_page(running):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await fill(pilot, folder="/proc/nowhere")
        while not isinstance(app.screen, ReportsPage):
            await pilot.pause(0.02)
        assert "cannot be written" in shown(app)
        assert form_is_gone(app)


async def panel_named(pilot, title):
    """Wait until a panel of that title is read."""
    while getattr(pilot.app.screen, "heading", "") != title:
        await pilot.pause(0.02)


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
async def test_how_far_the_writing_is_stands_on_the_screen(running, tmp_path, monkeypatch, size):
    seen, goes_on = Event(), Event()
    real = tally_csv.string_csv

    def held(tally):
        seen.set()
        assert goes_on.wait(20)
        return real(tally)

    monkeypatch.setattr(tally_csv, "string_csv", held)
    app = app_on(running, "reports")
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        app.screen.act(write_kinds(app.screen, "Write", "text", "csv"))
        await pilot.pause()
        await pilot.press("enter")
        while not seen.is_set():
            await pilot.pause(0.02)
        await pilot.pause(3 * OFTEN)
        try:
            assert "Writing the reports" in shown(app)
            assert "csv, 2 of 2" in shown(app)
            assert "50 %" in shown(app)
        finally:
            goes_on.set()
        await panel_named(pilot, "Written")
    assert len(list((tmp_path / "larkspur-14-reports").iterdir())) == 3


def form_is_gone(app):
    return not app.screen.query("#form")


async def test_the_exceptions_are_read_and_one_is_closed(on_depth):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press("o")
        await pilot.pause()
        assert "open: 1 entry 14, 20:20, Ama Osei: On depth: 0 joints counted" in shown(app)
        await pilot.press("k")
        await pilot.pause()
        assert "Accepted: one joint taken by the other rig" in shown(app)
        await fill(pilot, reason="")
        assert faults(app) == {"reason": "How it was settled is wanted."}
        await fill(pilot, reason="joint found at the other rig [/]")
        assert "exceptions 1, open 0" in shown(app)
        await pilot.press("o")
        await pilot.pause()
        assert "closed by Ama Osei: joint found at the other rig [/]" in shown(app)
    last = on_depth.entries[-1]
    assert isinstance(last, ExceptionClosed)
    assert (last.of, last.reason, last.by) == (14, "joint found at the other rig [/]", AMA)


async def test_where_several_are_open_one_is_named(make_book):
    story = Story()
    story.starts(setup(order=("S1", "1"), programme=()), 3)
    story.runs(2)
    story.says(OnDepth, stick_up=322, typed="3.22", counted=0, despite="not found")
    job = story.job.with_exception(2, "Entry 2 (3 items received) no longer fits", AMA, "")
    book = make_book(story.entries)
    app = app_on(book, "reports")
    async with app.run_test() as pilot:
        type(app).job, kept = property(lambda _: job), type(app).job
        await pilot.press("k")
        type(app).job = kept
        assert "2 Entry 2 (3 items received) no longer fits" in shown(app)
        await fill(pilot, of="3")
        assert faults(app) == {"of": "Entry 3 has no open exception; type a number of the list."}
        await pilot.press("escape")


async def test_with_no_exception_open_there_is_nothing_to_close(running):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("k")
        await pilot.pause()
        assert "No exception is open; there is nothing to close." in shown(app)
        await pilot.press("o")
        await pilot.pause()
        assert "open: 0" in shown(app)


@pytest.mark.parametrize("key", ["e", "k"])
async def test_what_is_asked_can_be_left(on_depth, key):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press(key)
        assert form(app)
        await pilot.press("escape")
        assert form_is_gone(app)
    assert len(on_depth.entries) == 14


async def test_a_book_without_a_set_up_has_no_tally(make_book):
    app = app_on(make_book([]), "reports")
    async with app.run_test() as pilot:
        await pilot.press("end", "right")
        assert "The job is not set up; there is no tally yet." in shown(app)
        await pilot.press("e")
        await pilot.pause()
        assert "The job is not set up yet; there is no tally to write." in shown(app)


async def test_a_report_is_signed_by_name_role_and_meaning_and_corrected_it_is_the_next_issue(
    on_depth,
):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press("s")
        count, head = on_depth.head
        assert f"What is signed stays as it is: {count} entries, the last hash {head[:12]}." in (
            shown(app)
        )
        await fill(pilot, reports="1", name=AMA, meaning="3")
        assert form(app).heading == f"{AMA} has no PIN"
        await fill(pilot)
        (one,) = app.job.signatures
        assert (one.name, one.role, one.meaning, one.pin) == (
            AMA,
            app.job.people[AMA].role,
            "approved",
            False,
        )
        assert (one.entries, one.head) == (count, head)
        assert "FINAL TALLY" in shown(app)
        app.record(Note(by=AMA, at=app.now(), text="late"))
        app.screen.draw()
        assert "issue 2, added to after signing" in shown(app)
        assert "NOT SIGNED" in shown(app)


async def test_with_a_pin_set_on_the_way_what_is_signed_has_that_entry_too(on_depth):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press("s")
        await fill(pilot, reports="1", name=AMA, meaning="1")
        await fill(pilot, how="2")
        await fill(pilot, pin="2468", again="2468")
        (one,) = app.job.signatures
        assert one.pin
        assert one.entries == one.seq - 1


async def test_an_entry_of_somebody_else_while_the_form_is_up_is_not_signed_unseen(on_depth):
    app = app_on(on_depth, "reports")
    async with app.run_test() as pilot:
        await pilot.press("s")
        app.record(Note(by=AMA, at=app.now(), text="late"))
        await fill(pilot, reports="1", name=AMA, meaning="3")
        await fill(pilot)
        assert app.job.signatures == ()
        assert "Look at the report again and sign that." in shown(app)


async def test_before_the_string_is_on_depth_nothing_can_be_signed(running):
    app = app_on(running, "reports")
    async with app.run_test() as pilot:
        await pilot.press("s")
        assert "Nothing can be signed yet: the string is not on depth." in shown(app)

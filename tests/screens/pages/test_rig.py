"""The rig on the pages: its line, the fields it fills in, the joint that it saw go down."""

from __future__ import annotations

import socket
from datetime import datetime, timedelta

import pytest

from screens.app import ShoedownApp
from screens.rig import Rig
from tally.feeds.rig_stream import CONNECTED, LOST, Heard, Line
from tally.feeds.wits_frames import Frame
from tally.feeds.wits_values import WitsReader
from tally.job.entries.readings import Readings
from tally.job.entries.running import ItemRun
from tally.job.entries.watching import TankRead
from tally.job.entries.weighing import WeightRead
from tally.job.entry import moment
from tally.job.origin import TYPED, Origin
from tests.screens.books import NOW, Story, app_on, setup
from tests.screens.driving import fill, offered, rows, shown
from tests.tally.feeds.test_rig_stream import until
from tests.tally.job.invented import GEAR

SMALL = (80, 24)
ADDRESS = "10.20.0.5:5005"


class Follower:
    """The stream of an app, fed by hand, with a clock that is set by hand."""

    def __init__(self, app: ShoedownApp, units: str = "field") -> None:
        self.app, self.seconds = app, 0.0
        self.rig = Rig(app, ADDRESS, units, steady=lambda: self.seconds)
        self.reader = WitsReader(units)
        app.rig = self.rig
        self.line(CONNECTED)

    def line(self, state: str, why: str = "") -> None:
        self.rig.watch.stream.line = Line(state, self.seconds, why)

    def says(self, later: float, **items: str) -> None:
        """So many seconds later a frame comes: h for hook load, b for block, t for trip tank."""
        self.seconds += later
        codes = {"h": "0114", "b": "0112", "t": "1129", "p": "0121", "q": "0130"}
        frame = Frame(tuple((codes[name], text) for name, text in items.items()))
        at = moment(NOW) + timedelta(seconds=self.seconds - 3)
        heard = Heard(self.reader.read(frame, self.seconds), self.seconds, at)
        self.rig.watch.take_one(heard, self.app.job)
        self.app._redraw()


def running(make_book):
    story = Story()
    story.starts(setup(weights=GEAR), 20)
    story.runs(8)
    return make_book(story.entries)


def rig_row(app: ShoedownApp) -> str:
    return next((row.strip() for row in rows(app) if row.startswith("RIG ")), "")


async def test_without_a_stream_there_is_no_line_of_it(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL):
        assert rig_row(app) == ""


@pytest.mark.parametrize("size", [SMALL, (160, 50)])
async def test_the_line_tells_the_values_and_their_age(make_book, size):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=size) as pilot:
        follower = Follower(app)
        follower.says(1, h="54.5", b="41.2", t="31.3")
        await pilot.pause()
        assert rig_row(app).split("   ") == [
            "RIG  hook load 54.5 klbf", "block 41.20 ft", "trip tank 31.3 bbl", "0 s ago",
        ]  # fmt: skip
        assert any("NEXT" in row for row in rows(app))


async def test_a_stale_value_is_never_shown_or_filled_in(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        follower = Follower(app)
        follower.says(1, h="54.5", b="41.2", t="31.3")
        for _ in range(12):
            follower.says(1, h="54.5", b="41.2")
        await pilot.pause()
        assert "trip tank: none now" in rig_row(app)
        assert "31.3" not in rig_row(app)
        await pilot.press("r")
        await pilot.pause()
        assert offered(app)["volume"] == ""
        assert "no reading from the rig since 03:11:58" in shown(app)


async def test_the_loss_of_the_line_is_told_with_the_age_of_the_last_reading(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        follower = Follower(app)
        follower.says(1, t="31.3")
        follower.seconds += 240
        follower.line(LOST, "The other end of it closed the line.")
        app._redraw()
        await pilot.pause()
        lost = "RIG  LINE LOST, last reading 4 min ago: The other end of it closed the line."
        assert rig_row(app) == lost
        assert "31.3" not in rig_row(app)
        follower.line(CONNECTED)
        app._redraw()
        await pilot.pause()
        assert rig_row(app).startswith("RIG  LINE SILENT")
        follower.says(1, t="31.4")
        await pilot.pause()
        assert "trip tank 31.4 bbl" in rig_row(app)


async def test_a_reading_fills_the_field_and_the_entry_keeps_where_it_is_from(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        follower = Follower(app)
        follower.says(1, t="31.3")
        follower.seconds += 3
        await pilot.press("r")
        await pilot.pause()
        assert offered(app)["volume"] == "31.3 bbl"
        assert "bbl; read from the rig, 3 s ago" in shown(app)
        await fill(pilot)
        entry = app.book.entries[-1]
        assert isinstance(entry, TankRead)
        assert entry.volume.text == "31.3 bbl"
        assert entry.origins == (
            Origin("volume", f"item 1129 of {ADDRESS}", "2026-03-14T03:11:58+01:00"),
        )
        assert "volume read from the rig at 03:11:58" in shown(app)
        await pilot.press("r")
        await fill(pilot, volume="31.4")
        entry = app.book.entries[-1]
        assert isinstance(entry, TankRead)
        assert (entry.volume.text, entry.origins) == ("31.4 bbl", (Origin("volume", TYPED),))


async def test_the_hook_load_fills_the_weight_that_the_block_tells(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        for name, step in (("slack_off", -0.5), ("pick_up", 0.5), ("hanging", 0.0)):
            follower = Follower(app)
            for second in range(4):
                follower.says(1, h="58.5", b=f"{60 + step * second:.2f}")
            await pilot.press("k")
            await pilot.pause()
            assert {key for key, text in offered(app).items() if text} == {name}
            await fill(pilot)
            entry = app.book.entries[-1]
            assert isinstance(entry, WeightRead)
            assert getattr(entry, name).text == "58.5 klbf"
        follower = Follower(app)  # in the slips: the blocks alone hang
        for _ in range(4):
            follower.says(1, h="45.1", b="60")
        await pilot.press("k")
        await pilot.pause()
        assert not any(offered(app).values())


async def test_a_joint_seen_down_is_proposed_and_enter_confirms_it(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        follower = Follower(app)
        due = app.job.known.step.si(3960 + 7 * 37 % 250) / 0.3048
        follower.says(1, h="45", b=f"{due + 6:.1f}")
        for second in range(22):
            follower.says(1, h="58.5", b=f"{due + 6 - due * second / 21:.2f}")
        follower.says(1, h="45", b="6.0")
        await pilot.pause()
        before = len(app.job.string)
        assert "seen down" in rig_row(app)
        assert "lowered in 22 s: Enter enters it" in rig_row(app)
        assert len(app.job.string) == before
        await pilot.press("enter")
        await pilot.pause()
        entry = app.book.entries[-1]
        assert isinstance(entry, ItemRun)
        assert entry.lowering is not None
        assert entry.lowering.text == "22 s"
        assert entry.origins[0].field == "lowering"
        assert "seen down" not in rig_row(app)


async def test_a_slip_of_the_units_is_told_and_nothing_is_offered(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        follower = Follower(app, "metric")
        for _ in range(12):
            follower.says(1, h="47", t="31.3")  # 47 klbf, taken for 470 kN
        await pilot.pause()
        assert "hook load 47 fits this job in klbf only" in rig_row(app)
        await pilot.press("r")
        await pilot.pause()
        assert offered(app)["volume"] == ""
        assert "the rig's units are in doubt" in shown(app)


async def test_the_stream_is_connected_kept_and_left_from_the_job_page(make_book):
    app = app_on(running(make_book), "job")
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(10)
        async with app.run_test(size=SMALL) as pilot:
            await pilot.press("g")
            await fill(pilot, address=f"127.0.0.1:{server.getsockname()[1]}")
            line, _ = server.accept()
            line.sendall(b"&&\r\n0114172.5\r\n112931.3\r\n!!\r\n" * 3)
            rig = app.rig
            assert rig is not None
            until(lambda: rig.watch.stream.frames == 3)
            rig.take()
            await pilot.pause()
            assert "trip tank 31.3 bbl" in rig_row(app)
            await pilot.press("g")
            await fill(pilot, what="leave the stream")
            await pilot.pause()
            assert app.rig is None
            assert rig_row(app) == ""
            line.close()
    kept = app.book.entries[-1]
    assert isinstance(kept, Readings)
    assert kept.rows == 3
    rows_kept = app.book.batches()[kept.seq].splitlines()
    assert rows_kept[0] == "time (s),0114 Hookload (avg) (klbf),1129 Trip Tank 1 Volume (bbl)"
    assert rows_kept[1] == "0,172.5,31.3"
    assert datetime.fromisoformat(kept.first) <= datetime.fromisoformat(kept.last)


async def test_a_reading_that_is_corrected_does_not_come_from_the_rig_any_more(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        Follower(app).says(1, t="31.3")
        await pilot.press("r")
        await fill(pilot)
        assert app.book.entries[-1].origins
        await pilot.press("c")
        await fill(pilot)
        await fill(pilot, volume="31.9 bbl", reason="read wrongly")
        instead = app.book.entries[-1].instead
        assert instead["volume"] == "31.9 bbl"
        assert "origins" not in instead


async def test_the_line_goes_on_behind_a_form_that_is_open(make_book):
    app = app_on(running(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        follower = Follower(app)
        await pilot.press("n")
        before = [row for row in rows(app) if "RIG" in row]
        follower.seconds += 240.0
        app._redraw()
        await pilot.pause()
        assert [row for row in rows(app) if "RIG" in row] != before

"""The demonstration that goes on by itself, in the real app with a real line."""

from __future__ import annotations

import asyncio

from demo_db.play import MOMENTS, play
from demo_db.sender import RigSender
from screens.app import ShoedownApp
from screens.live_demo import LiveDemo
from tally.book.book import Book
from tally.job.entries.running import ItemRun
from tally.job.entries.watching import TankRead
from tally.job.entry import moment
from tally.job.origin import TYPED
from tests.demo_db.test_rig_data import rig
from tests.screens.driving import rows


async def test_the_crew_acts_by_itself_on_what_the_rig_sends(tmp_path):
    path = play(tmp_path / "live.db", until="third")
    sender = RigSender(rig(), moment(MOMENTS["third"]), speed=60)
    try:
        with Book.open(path) as book:
            before = book.entries
            app = ShoedownApp(book, now=lambda: sender.now().isoformat(timespec="seconds"))
            async with app.run_test(size=(80, 24)):
                LiveDemo(app, sender).begin()
                for _ in range(600):
                    await asyncio.sleep(0.1)
                    if any(isinstance(each, TankRead) for each in book.entries[len(before) :]):
                        break
                assert any(row.startswith("RIG ") for row in rows(app))
            new = book.entries[len(before) :]
    finally:
        sender.end()
    assert [each.number for each in new if isinstance(each, ItemRun)] == ["89"]
    tank = [each for each in new if isinstance(each, TankRead)]
    assert tank
    assert any(one.source != TYPED for each in tank for one in each.origins)

"""F6: a second person's figure is not shown before it is entered, and no limit set is said."""

from __future__ import annotations

from dataclasses import replace

from demo_db.play import entries
from screens.app import ShoedownApp
from tally.book.book import Book
from tally.job.entries.people import SetUp
from tests.screens.driving import fill, form, offered, shown

NOW = "2026-03-12T12:40:00-06:00"


def on_depth_without_limits():
    """Return the demonstration up to the mud conditioned, its limits left out."""
    said = []
    for entry in entries("end"):
        if isinstance(entry, SetUp):
            entry = replace(entry, setup=replace(entry.setup, limits={}))
        said.append(entry)
        if getattr(entry, "step_id", "") == "conditioned":
            return said
    raise AssertionError("the demonstration conditions no mud")


async def test_the_second_persons_figure_is_blind_and_no_limit_is_said(tmp_path):
    book = Book.create(tmp_path / "blind.db", on_depth_without_limits())
    app = ShoedownApp(book, now=lambda: NOW, start="plugs")
    async with app.run_test(size=(150, 48)) as pilot:
        app.who = "N. Haddad"
        await pilot.pause()
        asked = ("plug-release", "volumes-agreed")
        while tuple(each.id for each in app.screen.here()) != asked:
            await pilot.press("down")
        await pilot.pause()
        assert "Second person: give the displacement" in shown(app)
        assert "the expected value is shown once it is entered" in shown(app)
        assert "expected 597.1 bbl" not in shown(app)
        assert "600 psi no limit" in shown(app)
        assert "HEAD TO COLLAR hidden until the second person gives theirs" in shown(app)
        assert "597" not in shown(app)
        await pilot.press("y")
        await pilot.pause()
        assert "597" not in shown(app)
    book.close()


async def test_no_page_and_no_panel_shows_it_before_it_is_given(tmp_path):
    book = Book.create(tmp_path / "hidden.db", on_depth_without_limits())
    app = ShoedownApp(book, now=lambda: NOW, start="run")
    async with app.run_test(size=(150, 60)) as pilot:
        await pilot.press("v")
        await pilot.pause()
        assert "head to collar hidden, the second person first" in shown(app)
        assert "597.1" not in shown(app)
        await pilot.press("escape", "f7")
        await pilot.pause()
        text = " ".join(" ".join(app.screen.text).split())
        assert "hidden until the second person gives theirs" in text
        assert "597.1" not in text
    book.close()


async def test_a_figure_that_differs_is_recorded_before_ours_is_told(tmp_path):
    book = Book.create(tmp_path / "differs.db", before_the_volumes())
    app = ShoedownApp(book, now=lambda: NOW, start="plugs")
    async with app.run_test(size=(120, 48)) as pilot:
        app.who = "Ivo Marek"
        await pilot.pause()
        while app.screen.here()[1].id != "volumes-agreed":
            await pilot.press("down")
        await pilot.press("y")
        await pilot.pause()
        assert offered(app)["given"] == "N. Haddad"
        given = {"given": "N. Haddad", "released": "N. Haddad", "witness": "Ivo Marek"}
        await fill(pilot, value="590 bbl", **given)
        while form(app).heading.endswith("has no PIN"):
            await fill(pilot)
        record = app.job.steps["plug-release", "volumes-agreed"]
        assert (record.value, record.given) == ("590 bbl", "N. Haddad")
        assert "Seen: 590 bbl; expected: 597.1 bbl" in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert "NEXT k say why it differs: Second person: give the displacement" in shown(app)
        await pilot.press("k")
        await fill(pilot, reason="theirs leaves the head out")
        assert app.job.steps["plug-release", "volumes-agreed"].differs == ""
    book.close()


def before_the_volumes():
    """Return the demonstration up to the fall of the line test."""
    said = []
    for entry in entries("end"):
        said.append(entry)
        if getattr(entry, "step_id", "") == "line-test-fall":
            return said
    raise AssertionError("the demonstration tests no lines")

"""F2, e: forms of the set-up: faults beside fields, drafts, changes in words, and what is saved."""

import tomllib

import pytest

from screens.dialogs.table_form import TableForm
from screens.pages.job import JobPage
from screens.pages.set_up import SetUpPage
from screens.set_up_work import SetUpWork
from tally.book.book import Book
from tally.book.new_book import NewBook
from tally.feeds.job_draft import draft_of
from tally.feeds.job_sheets import sheets
from tests.screens.books import AMA, NOW
from tests.screens.driving import HOSTILE, faults, fill, form, offered, shown
from tests.screens.pages.setting_up import app_at, at, draft_file, opened, page
from tests.tally.feeds.job_files import JOB, PIPE


@pytest.fixture
def path(tmp_path):
    """Return where a book is to be made, with a pipe list beside it."""
    (tmp_path / "pipe.csv").write_text(PIPE, encoding="utf-8")
    return tmp_path / "hollin.book"


@pytest.fixture
def new(path):
    """Return the app on a book that is not made yet."""
    return app_at(path)


async def test_a_new_book_opens_its_forms_by_itself(new):
    async with new.run_test() as pilot:
        await pilot.pause()
        assert "SET-UP OF A NEW JOB 5 wanted, 32 empty" in shown(new)
        assert "NEXT Enter: well nothing is typed yet" in shown(new)


async def test_all_faults_are_told_at_once_beside_their_fields_and_the_text_stays(new):
    async with new.run_test() as pilot:
        await opened(pilot, "hole")
        await fill(pilot, diameter="12-1/4", depth="82,600", casing_point="")
        assert list(faults(new)) == ["depth", "casing_point"]
        assert faults(new)["depth"].startswith('"82,600" is not read as a length')
        assert faults(new)["casing_point"] == "Is missing; type it like 8240 ft."
        assert offered(new) == {"diameter": "12-1/4 in", "depth": "82,600", "casing_point": ""}
        assert form(new).focused.id == "field-depth"
        await fill(pilot, depth="8260 ft", casing_point="8270 ft")
        assert list(faults(new)) == ["casing_point"]
        assert "8270 ft lies below the hole" in shown(new)
        await fill(pilot, casing_point="8240 ft")
        assert page(new).sheet.name == "hole_section", "the next table is at hand"


async def test_a_bare_number_takes_the_unit_beside_its_field_and_a_digit_its_choice(new):
    async with new.run_test() as pilot:
        await opened(pilot, "hole")
        assert "in, like 12-1/4 in" in shown(new)
        await pilot.press(*"12-1/4", "enter", *"8260", "enter", "escape")
        assert page(new).work.draft.row("hole", 0) == {
            "diameter": "12-1/4 in",
            "depth": "8260 ft",
        }
        await opened(pilot, "tally")
        assert "1 ft 2 m 3 mm" in shown(new)
        await pilot.press("2", "enter", "1", "enter")
        assert offered(new)["unit"] == "m"
        assert offered(new)["lengths"] == "running"
        await pilot.press("escape")
        await opened(pilot, "hole")
        assert "m, like 8260 ft" in shown(new)


async def test_what_is_half_typed_outlives_leaving_the_form_and_the_program(path):
    app = app_at(path)
    async with app.run_test() as pilot:
        await opened(pilot, "well")
        await pilot.press(*"Hollin", "enter", *"7 in", "escape")
        assert "Hollin" in shown(app)
        assert "kept as a draft in hollin.book.draft.toml" in shown(app)
        await opened(pilot, "well")
        assert offered(app)["name"] == "Hollin"
        await pilot.press("down", "down", *"Rig 9", "f10")
    assert not path.exists()
    again = app_at(path)
    async with again.run_test() as pilot:
        await pilot.pause()
        assert "what was typed before goes on: hollin.book.draft.toml" in shown(again)
        assert page(again).work.draft.row("well", 0) == {
            "name": "Hollin",
            "string": "7 in",
            "rig": "Rig 9",
        }
        assert "well 1 fault" not in shown(again)


async def test_a_half_typed_line_is_kept_where_it_is(path):
    app = app_at(path)
    async with app.run_test() as pilot:
        await opened(pilot, "survey")
        await pilot.press(*"0 ft", "enter", *"0x", "f10")
    again = app_at(path)
    async with again.run_test() as pilot:
        await at(pilot, "survey")
        assert "0 ft, 0x" in shown(again)
        assert "Inclination:" in shown(again)
        assert "Azimuth: is missing" in shown(again)


async def test_lines_are_added_one_after_the_other_changed_and_taken_out(new):
    async with new.run_test() as pilot:
        await opened(pilot, "people")
        await fill(pilot, name="Ama Osei", role="1")
        await fill(pilot, name="Ivo Marek", role="cementer")
        assert isinstance(new.screen, TableForm), "another line is asked at once"
        assert "people, line 3" in shown(new)
        await fill(pilot)
        assert page(new).row == 2, "an empty line ends it"
        await pilot.press("up", "enter")
        assert offered(new) == {"name": "Ivo Marek", "role": "cementer"}
        await fill(pilot, role="4")
        assert isinstance(new.screen, SetUpPage), "a line that was there is only changed"
        assert "2 Ivo Marek, driller" in shown(new)
        await pilot.press("home", "x")
        rows = page(new).work.draft.of("people")
        assert rows == ({"name": "Ivo Marek", "role": "driller"},)
        await pilot.press("escape")
        assert "people 1 line" in shown(new)


async def test_a_slurry_that_is_in_doubt_says_so_beside_its_field_and_is_taken(new):
    lead = {"name": "lead", "kind": "slurry", "density": "12.8 lb/gal", "length": "60 ft"}
    async with new.run_test(size=(120, 60)) as pilot:
        await opened(pilot, "fluid")
        await fill(pilot, **lead, cement="class G", slurry_yield="2.30")
        assert "fluids to pump, line 2" in shown(new), "nobody is kept from going on"
        await pilot.press("escape", "home")
        said = "Yield of lead is typed as 2.30 ft3/sk, but its recipe makes"
        assert said in shown(new)
        await pilot.press("enter")
        assert said in " ".join(
            str(each.render()) for each in new.screen.query("#fault-slurry_yield").results()
        )
        new.screen.query_one("#field-slurry_yield").value = ""
        new.screen.query_one("#field-slurry_yield").focus()
        await pilot.press("enter")
        assert not new.screen.query_one("#fault-slurry_yield").display
        await pilot.press("escape")
        assert "is typed as" not in shown(new)


async def test_a_line_emptied_in_the_middle_goes_and_no_other_is_overwritten(new):
    async with new.run_test() as pilot:
        await opened(pilot, "equipment")
        for name in ("elevator", "spider", "tong"):
            await fill(pilot, name=name)
        await pilot.press("escape", "home", "down", "enter")
        new.screen.query_one("#field-name").value = ""
        await pilot.pause()
        await pilot.press("escape")
        rows = page(new).work.draft.of("equipment")
        assert [row["name"] for row in rows] == ["elevator", "tong"]


async def test_the_limits_are_lines_that_are_always_there(new):
    async with new.run_test() as pilot:
        await at(pilot, "limits")
        await pilot.press("enter", "down", "down", "enter")
        assert "It limits: trip tank against expected, one reading" in shown(new)
        await fill(pilot, value="1 psi", owner="")
        assert list(faults(new)) == ["value", "owner"]
        await fill(pilot, value="1", owner="Tomas Quill")
        assert "limits: tank total" in shown(new), "the next one that is empty is asked"
        await pilot.press("enter", "enter", "enter")
        assert "limits: circulation target" in shown(new), "one that is left empty is passed"
        await pilot.press("escape")
        assert page(new).work.draft.row("limits", 2) == {"value": "1 bbl", "owner": "Tomas Quill"}
        await pilot.press("home", "down", "down", "x")
        assert page(new).work.state(sheets()["limits"]).word == "empty"


async def test_a_save_with_faults_makes_nothing_and_goes_to_the_first_of_them(new, path):
    async with new.run_test() as pilot:
        await at(pilot, "limits")
        await pilot.press("s")
        await pilot.pause()
        assert "Not saved: 5 faults in well, hole and casing point, tally and lengths, pipe," in (
            shown(new)
        )
        assert page(new).sheet.name == "well"
        assert not path.exists()


async def test_the_forms_make_the_book_that_the_job_file_makes(path):
    app = app_at(path)
    async with app.run_test() as pilot:
        await pilot.pause()
        page(app).work.draft = draft_of(tomllib.loads(JOB))
        await pilot.press("s")
        await pilot.pause()
        assert isinstance(app.screen, JobPage)
        assert "saved 03:12 the book hollin.book is made" in shown(app)
        assert app.job.received == 5
        assert not draft_file(path).exists()
        await pilot.press("f3")
        await pilot.pause()
        assert "5 = 0 + 5 + 0" in " ".join(shown(app).replace("joints", "").split())
    app.book.close()
    (path.parent / "job.toml").write_text(JOB, encoding="utf-8")
    from tally.feeds.job_file import job_entries

    with Book.open(path) as made:
        wanted = job_entries(path.parent / "job.toml", AMA, NOW)
        assert [one.KIND for one in made.entries] == [one.KIND for one in wanted]
        assert made.entries[0].setup == wanted[0].setup


async def test_a_file_that_came_meanwhile_is_left_alone_and_the_draft_stays(path):
    app = app_at(path)
    async with app.run_test() as pilot:
        await pilot.pause()
        page(app).work.draft = draft_of(tomllib.loads(JOB))
        page(app).work.keep()
        path.write_text("somebody else's", encoding="utf-8")
        await pilot.press("s")
        await pilot.pause()
        assert "Not saved. There is a file at" in shown(app)
    assert path.read_text(encoding="utf-8") == "somebody else's"
    assert draft_file(path).is_file()


SURVEY = "MD (ft),Inc,Azi\n0,0,0\n3300,0.8,117\n"


async def test_a_survey_is_read_from_a_file_beside_the_book(new, path):
    (path.parent / "survey.csv").write_text(SURVEY, encoding="utf-8")
    async with new.run_test() as pilot:
        await at(pilot, "survey")
        await pilot.press("f")
        await pilot.pause()
        await fill(pilot, file="nowhere.csv")
        assert "There is no file 'nowhere.csv'" in shown(new)
        await fill(pilot, file="survey.csv")
        assert "2 stations read; not saved in the book yet" in shown(new)
        assert page(new).work.draft.of("survey")[1] == {
            "measured_depth": "3300 ft",
            "inclination": "0.8 deg",
            "azimuth": "117 deg",
        }
        (path.parent / "survey.csv").write_text(SURVEY + "x,[/],2\n", encoding="utf-8")
        await pilot.press("f")
        await pilot.pause()
        assert "It takes the place of the 2 stations typed." in shown(new)
        await fill(pilot, file="survey.csv")
        assert "survey.csv. Row 4: measured depth:" in shown(new)
        assert "Row 4: inclination:" in shown(new)
        await pilot.press("escape")
        assert len(page(new).work.draft.of("survey")) == 2
        await at(pilot, "mud")
        await pilot.press("f")
        await pilot.pause()
        assert isinstance(new.screen, SetUpPage), "only the survey is read from a file"


async def test_any_text_in_any_field_is_kept_drawn_and_told_of(path):
    app = app_at(path)
    async with app.run_test() as pilot:
        await pilot.pause()
        for name in ("well", "pipe", "tally", "running_order"):
            cells = sheets()[name].cells
            texts = (HOSTILE[(place + len(name)) % len(HOSTILE)] for place in range(len(cells)))
            await opened(pilot, name)
            await fill(pilot, **{cell.key: text for cell, text in zip(cells, texts, strict=True)})
            assert faults(app), name
            page_of = app.screen_stack[-2]
            await pilot.press("escape")
            assert app.screen is page_of
        await pilot.press("s")
        await pilot.pause()
        assert "Not saved" in shown(app)
        for sentences in page(app).work.told.values():
            assert all(each.isprintable() and len(each) < 400 for each in sentences)
        draft = page(app).work.draft
        assert set(HOSTILE) <= {*draft.row("well", 0).values(), *draft.row("pipe", 0).values()}
    assert SetUpWork(NewBook(path)).draft == draft


@pytest.mark.parametrize("content", [b"\xff", b"x = ", b"well = 3", b"[[well]]\nname = 4"])
async def test_a_draft_that_cannot_be_read_is_put_aside_or_passed(path, content):
    draft_file(path).write_bytes(content)
    app = app_at(path)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert page(app).work.draft.empty
        if content in (b"\xff", b"x = "):
            assert "it was put aside as .unread" in shown(app)
            assert not draft_file(path).exists()
    kept = [each for each in path.parent.iterdir() if each.read_bytes() == content]
    assert kept or content[:1] in b"w["


async def test_a_draft_that_cannot_be_kept_is_told(path):
    draft_file(path).mkdir()
    app = app_at(path)
    async with app.run_test() as pilot:
        await opened(pilot, "well")
        await pilot.press("a", "enter", "escape")
        await pilot.pause()
        assert "What is typed is kept here only, not beside the book:" in shown(app)
        assert page(app).work.draft.row("well", 0) == {"name": "a"}

"""What the tests of the set-up's forms share: the app on a new book, and ways into a form."""

from pathlib import Path

from screens.app import ShoedownApp
from screens.dialogs.table_form import TableForm
from screens.pages.set_up import SetUpPage
from tally.book.new_book import NewBook
from tests.screens.books import AMA, NOW


def app_at(path):
    return ShoedownApp(NewBook(path), now=lambda: NOW, start="job", who=AMA)


def page(app) -> SetUpPage:
    assert isinstance(app.screen, SetUpPage), app.screen
    return app.screen


async def at(pilot, name):
    """Put the cursor on a table."""
    page(pilot.app).go_to(name)
    page(pilot.app).draw()
    await pilot.pause()


async def opened(pilot, name):
    """Open the form of a table of one row, or of the first line of a list."""
    await at(pilot, name)
    await pilot.press("enter")
    if not isinstance(pilot.app.screen, TableForm):
        await pilot.press("enter")
    await pilot.pause()


def draft_file(path: Path) -> Path:
    return path.with_name(f"{path.name}.draft.toml")

"""Following a pump file that another program writes: naming it, what is in doubt, leaving it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from pathlib import Path

from screens.acts import not_set_up, say
from screens.dialogs.form import Field, Form
from screens.dialogs.running import stamp
from screens.pages.page import Page
from tally.errors import InputError, ShoedownError
from tally.feeds.pump_columns import unit_for
from tally.feeds.pump_file import PumpFollower
from tally.job.entries.following import FileFollowed, FileLeft
from tally.units import clean, shown

FIRST_LINES = 200
"""Of a file that is named: enough for its titles, its units and its first rows."""


def file_path(text: str) -> str:
    """Return the path of a file that is there, as it was typed or dropped into the terminal."""
    path = Path(clean(text).strip("\"'")).expanduser()
    if not path.is_file():
        raise InputError(f"There is no file {shown(str(path), 80)}; check the name and the folder.")
    return str(path.absolute())


async def follow_or_leave(page: Page) -> None:
    """Name the file to follow; of one that is followed, answer its doubts or leave it."""
    if not_set_up(page):
        return
    if page.shoedown.book.look_only:
        page.refuse("The book is open to look only; a pump file is followed where it is written.")
        return
    watch = page.shoedown.file_watch
    if watch.file is None:
        await _follow(page)
    elif watch.doubts:
        await _followed(page, watch.file.path, dict(watch.file.asked))
    else:
        await _leave(page, watch.file.path)


async def _follow(page: Page) -> None:
    says = (
        "A file that another program writes line by line, with a line of titles: time, volume, "
        "pressure, and rate, density or strokes if it has them."
    )
    field = Field("path", "The pump file", file_path, longest=400)
    answer = await page.app.push_screen_wait(Form("Follow a pump file", [field], says=says))
    if answer:
        await _followed(page, answer["path"], {})


async def _followed(page: Page, path: str, asked: dict[str, str]) -> None:
    """Ask until nothing in the file is in doubt; then it is followed."""
    while True:
        try:
            doubts = await asyncio.to_thread(_doubts, path, asked)
        except ShoedownError as fault:
            page.refuse(str(fault))
            return
        if not doubts:
            break
        told = await _asked(page, doubts)
        if told is None:
            page.refuse("Not followed; nothing was changed.")
            return
        asked |= told
    await page.shoedown.file_watch.leave()
    if await say(page, FileFollowed(**stamp(page), path=path, asked=asked)):
        page.shoedown.file_watch.begin()


def _doubts(path: str, asked: Mapping[str, str]) -> Mapping[str, str]:
    return PumpFollower(Path(path), asked).look(FIRST_LINES).doubts


async def _asked(page: Page, doubts: Mapping[str, str]) -> dict[str, str] | None:
    """Ask what is in doubt, each in its own field under its question."""
    says = " ".join(doubts.values())
    fields = [
        Field(f"doubt-{n}", what.capitalize(), _answer(what, question))
        for n, (what, question) in enumerate(doubts.items())
    ]
    answer = await page.app.push_screen_wait(Form("The columns of the file", fields, says=says))
    if answer is None:
        return None
    return {what: str(answer[f"doubt-{n}"]) for n, what in enumerate(doubts)}


def _answer(what: str, question: str) -> Callable[[str], str]:
    """Return a reader of an answer; a unit is one of what its column means."""

    def read(text: str) -> str:
        kind, _, meaning = what.partition(" of ")
        if kind == "unit" and not unit_for(meaning, clean(text)):
            raise InputError(f"'{shown(text, 20)}' is no unit of {meaning}. {question}")
        return clean(text)

    return read


async def _leave(page: Page, path: str) -> None:
    field = Field("reason", "Why it is left", optional=True)
    says = f"{shown(Path(path).name, 60)} is followed; what was read of it is kept."
    answer = await page.app.push_screen_wait(Form("Leave the pump file", [field], says=says))
    if answer is not None:
        await page.shoedown.file_watch.leave()
        await say(page, FileLeft(**stamp(page), reason=answer["reason"] or ""))

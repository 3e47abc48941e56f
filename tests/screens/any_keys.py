"""A walk over the pages with random keys, looked at after every few of them.

    python -m tests.screens.any_keys BOOK SEED KEYS

walks one walk again, or many: a seed may be a range, `0-40`; `every` stands for all the books.
"""

from __future__ import annotations

import asyncio
import json
import os
import re
import shutil
import sys
import tempfile
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import timedelta
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

from textual.events import Key, Paste
from textual.keys import _character_to_key
from textual.screen import ModalScreen
from textual.widgets import Input

from screens.app import ShoedownApp
from screens.dialogs.calculation import CalculationForm
from screens.dialogs.form import Field, Form
from screens.dialogs.placing import TryChange
from screens.dialogs.table_form import TableForm
from screens.pages.page import Page
from screens.pages.running_list import ListPage
from screens.pages.set_up import SetUpPage
from screens.widgets.bars import Said
from tally.book.book import Book
from tally.book.verify import verify
from tally.job.counts import balance
from tally.job.depths import shoe_depth
from tally.job.entries.people import Note
from tally.job.entry import Entry, clock, moment
from tally.job.fold import fold
from tally.job.volumes import displaced_closed
from tests.screens.books import landed, third
from tests.screens.by_the_lines import added_up, as_they_stand, texts_of
from tests.screens.demo_books import at, set_up, up_to
from tests.screens.driving import rows
from tests.screens.key_pool import AMOUNTS, ANY_KEY, FILES, LEAVE, ODD, PIN, READS, TURNS, WORDS

INVENTED = Path(__file__).parent.parent.parent / "demo_db" / "larkspur"
WIDTH, HEIGHT = 80, 24
PATIENCE = 20.0
"""[s] until a key that has not had its effect is a fault."""
LOOK_EVERY = 6
VERIFY_EVERY = 90

BOOKS: dict[str, tuple[Callable[[], tuple[Entry, ...]], str]] = {
    "no set-up": (tuple, "job"),
    "just set up": (set_up, "rack"),
    "a third run": (lambda: tuple(third()), "run"),
    "just before on depth": (lambda: up_to(at("10:52:00")), "run"),
    "short string on depth": (lambda: tuple(landed()), "run"),
    "loading the plugs": (lambda: up_to(at("13:48:00")), "plugs"),
    "mixing": (lambda: up_to(at("15:40:00")), "plugs"),
    "displacing": (lambda: up_to(at("17:41:20")), "plugs"),
    "after the bump": (lambda: up_to(at("17:56:30")), "plugs"),
}
"""The entries of each book, and the page that the app opens on."""


@cache
def made(name: str, folder: Path) -> Path:
    """Return a book as it is before a walk, made once; it is copied for each."""
    path = folder / f"{name}.shoedown"
    Book.create(path, BOOKS[name][0]()).close()
    return path


class Walk:
    """One app, or several after each other, on one book; keys drawn by lot, and what must hold."""

    def __init__(self, name: str, seed: int, folder: Path) -> None:
        self.lot = Random(f"{name} {seed}")
        self.path = Path(tempfile.mkdtemp(dir=folder)) / "book.shoedown"
        shutil.copy(made(name, folder), self.path)
        for file in ("pipe_list.csv", "pumping.csv", "job.toml"):
            shutil.copy(INVENTED / file, self.path.parent / file)
        if name == "no set-up" and self.lot.random() < 0.7:
            shutil.copy(INVENTED / "job.toml", f"{self.path}.draft.toml")
        self.page = BOOKS[name][1]
        self.name, self.seed = name, seed
        self.told: list[str] = []
        """What was done, key by key."""
        self.lines = texts_of(self.path)
        self.verified = 0
        entries = BOOKS[name][0]()
        self.moment = moment(entries[-1].at if entries else "2026-03-14T03:12:00+01:00")
        self.savings = 0
        """How often something was shown as saved, and found."""
        self.taken: set[str] = set()
        """The kinds of entries that came of the keys."""
        self.seen: set[str] = set()
        """The screens that were seen."""

    def now(self) -> str:
        """Return the time by the clock of the walk."""
        return self.moment.isoformat(timespec="seconds")

    async def goes(self, keys: int) -> None:
        """Walk until so many keys were pressed; a fault names the seed and the keys."""
        try:
            while len(self.told) < keys:
                await self._sits(keys)
                self._verify()
        except BaseException as fault:
            again = f"python -m tests.screens.any_keys '{self.name}' {self.seed} {keys}"
            fault.add_note(f"to repeat: {again}\nthe last keys: {' | '.join(self.told[-40:])}")
            raise

    async def _sits(self, keys: int) -> None:
        """Open the book, and work until it is left or the keys are used up."""
        async with self.sitting() as app:
            looked = len(self.told)
            while len(self.told) < keys and not app._exit:
                await self._act()
                if len(self.told) - looked >= LOOK_EVERY and not app._exit:
                    looked = len(self.told)
                    await self.looks()
            if not app._exit:
                await self.looks()

    @asynccontextmanager
    async def sitting(self) -> AsyncIterator[ShoedownApp]:
        """Have the book open in an app."""
        with Book.open(self.path) as book:
            self.app = ShoedownApp(book, now=self.now, start=self.page, theme="night")
            async with self.app.run_test(size=(WIDTH, HEIGHT)) as self.pilot:
                await self._settles()
                yield self.app

    # What is done

    async def _act(self) -> None:
        """Do one thing; what it is hangs on what is on the screen."""
        lot, screen = self.lot, self.app.screen
        self.seen.add(type(screen).__name__)
        self.moment += timedelta(seconds=lot.choice((1, 5, 70, 200)))
        if lot.random() < 0.01:
            self.moment -= timedelta(seconds=lot.choice((10, 4000)))
        if lot.random() < 0.01:
            self._somebody_else_writes()
        if lot.random() < 0.01:
            await self._resizes()
        if lot.random() < 0.03:
            await self._sends(Paste(lot.choice(ODD + WORDS)))
        elif lot.random() < 0.08:
            await self.presses(*lot.choices(ANY_KEY, k=lot.randint(1, 4)))
        elif isinstance(screen, Form):
            await self._in_a_form(screen)
        elif isinstance(screen, ModalScreen):
            await self.presses(lot.choice(("escape", "enter", "down", "y", "r", "s", "v", "c")))
        elif isinstance(self.app.focused, Input):
            await self.presses(*lot.choice(WORDS), lot.choice(("enter", "enter", "escape")))
        else:
            await self._on_a_page()

    async def _on_a_page(self) -> None:
        lot = self.lot
        which = lot.random()
        if which < 0.10:
            await self.presses(lot.choice(TURNS))
        elif which < 0.25:
            await self.presses("enter")
        elif which < 0.33:
            text = lot.choice((f"{lot.randint(3800, 4300) / 100}", str(lot.randint(1, 210))))
            await self._bursts(*text, "enter")
        elif which < 0.345:
            await self.presses(lot.choice(LEAVE))
        else:
            bound = sorted(set(self.app.screen.active_bindings) - {*LEAVE, *TURNS, *READS})
            await self.presses(lot.choice(bound))

    async def _in_a_form(self, form: Form) -> None:
        """Answer the field at hand, or all that follow too; now and then leave."""
        lot = self.lot
        if lot.random() < 0.06:
            await self.presses("escape")
            return
        whole = lot.random() < 0.6
        for _ in range(len(form.fields) if whole else 1):
            field = self._at_hand(form)
            if field is None or self.app.screen is not form:
                return
            if field.value == "" or lot.random() < 0.3:
                await self._types(self._answer(field))
            await self.enters(form)

    def _at_hand(self, form: Form) -> Field | None:
        focused = self.app.focused
        key = ((focused.id if focused else "") or "").removeprefix("field-")
        return next((each for each in form.fields if each.key == key), None)

    def _answer(self, field: Field) -> str:
        """Return what somebody may type: mostly what the field asks for."""
        lot = self.lot
        if lot.random() < 0.08:
            return lot.choice(WORDS)
        if field.choices:
            return str(lot.randint(1, len(field.choices) + (lot.random() < 0.05)))
        if field.secret:
            return PIN if lot.random() < 0.9 else "1111"
        if field.key == "file":
            return lot.choice(FILES)
        if field.key == "which":
            return str(max(1, len(self.lines) - int(lot.expovariate(0.1))))
        for unit, amounts in AMOUNTS.items():
            if field.hint.startswith(unit):
                return lot.choice(amounts)
        return "" if field.optional and lot.random() < 0.5 else lot.choice(WORDS)

    async def _types(self, text: str) -> None:
        """Type over what the field holds, or paste it."""
        if self.lot.random() < 0.3:
            await self.presses("ctrl+u", "end", "ctrl+u", *text)
        else:
            await self.presses("end", "ctrl+u")
            await self._sends(Paste(text))

    async def enters(self, form: Form) -> None:
        """Press Enter; a form that is left by it has made an entry, or something is said."""
        count = len(self.app.book.entries)
        who = self.app.who
        await self.presses("enter")
        if self.app._exit or self.app.screen is form or self.app.screen not in self._pages():
            return
        answered = (TryChange, CalculationForm, TableForm)
        if isinstance(form, answered) or isinstance(self.app.screen, ListPage | SetUpPage):
            return
        said = self.app.screen.query_one("#said", Said)
        assert len(self.app.book.entries) > count or said._lines or self.app.who != who, (
            f"'{form.heading}' was entered, and nothing came of it"
        )

    def _pages(self) -> list[Any]:
        return [each for each in self.app.screen_stack if isinstance(each, Page)]

    def _somebody_else_writes(self) -> None:
        """Let another program add a note; the app sees it by itself."""
        with Book.open(self.path) as other:
            other.record(Note(by="Somebody Else", at=self.now(), text="from the other screen"))
        self.told.append("(another program's note)")

    async def _resizes(self) -> None:
        """Look at another size, and come back."""
        for size in (self.lot.choice(((160, 50), (80, 12), (40, 24), (200, 60))), (WIDTH, HEIGHT)):
            await self.pilot.resize_terminal(*size)
            await self._settles()
            assert len(rows(self.app)) == size[1]

    async def presses(self, *keys: str) -> None:
        for key in keys:
            if self.app._exit:
                return
            await self._sends(_key(key))

    async def _bursts(self, *keys: str) -> None:
        """Send keys without waiting for what each does, as a scanner does."""
        await self._sends(*map(_key, keys))

    async def _sends(self, *events: Key | Paste) -> None:
        for event in events:
            self.told.append(event.key if isinstance(event, Key) else f"paste {event.text[:20]!r}")
            self.app.post_message(event)
        await self._settles()

    async def _settles(self) -> None:
        """Wait until what was pressed has had its effect."""
        app, quiet, until = self.app, 0, asyncio.get_running_loop().time() + PATIENCE
        while quiet < 2 and not app._exit:
            await asyncio.sleep(0.001)
            _raise_fault(app)
            quiet = quiet + 1 if not app._ahead and app._is_quiet() else 0
            assert asyncio.get_running_loop().time() < until, f"{app.screen} hangs"

    # What must hold

    async def looks(self) -> None:
        """Look at the screen and at the book."""
        self.app._look()  # what the poll does by itself a moment later
        await self._settles()
        await self.pilot.pause()
        _raise_fault(self.app)
        seen = rows(self.app)
        self._painted(seen)
        self._book_only_grew()
        self._said_is_so(" ".join(seen))
        self._totals_are_explained()
        if len(self.told) - self.verified > VERIFY_EVERY:
            self._verify()

    def _painted(self, seen: list[str]) -> None:
        assert len(seen) == HEIGHT
        assert all(len(row) <= WIDTH for row in seen)
        assert seen[0].strip(), f"no headline: {seen}"
        assert any(row.strip() for row in seen[1:]), f"an empty screen: {seen}"
        wild = sorted({letter for row in seen for letter in row if ord(letter) < 32})
        assert not wild, f"control characters on the screen: {wild}"

    def _book_only_grew(self) -> None:
        texts = texts_of(self.path)
        assert texts[: len(self.lines)] == self.lines, "a line is gone or another one"
        grown = texts[len(self.lines) :]
        self.taken.update(entry.KIND for entry in self.app.book.entries[len(self.lines) :])
        self.lines = texts
        assert self.app.book.head[0] == len(texts), f"{len(grown)} new lines, the app lags behind"

    def _said_is_so(self, seen: str) -> None:
        """What is shown as saved is in the book; the eye goes by letters, not by line breaks."""
        if isinstance(self.app.screen, ModalScreen):
            return
        found = re.search(r"saved \d\d:\d\d", seen)
        if found is None:
            return
        told = "".join(seen[found.start() :].split())
        job, entries = self.app.job, self.app.book.entries
        known = ("".join(f"saved {clock(e.at)} {e.worded(job)}".split()) for e in entries)
        assert any(told.startswith(each[:120]) for each in known), f"not in the book: {told[:200]}"
        self.savings += 1

    def _totals_are_explained(self) -> None:
        """Every total is that of the lines, worked out a second way."""
        job, paper = self.app.job, added_up(self.lines)
        assert [made.number for made in job.string] == paper.string
        sums = balance(job)
        for share, states in (
            (sums.on_location, ()),
            (sums.run, ("run",)),
            (sums.left, ("on rack",)),
            (sums.rejected, ("rejected",)),
            (sums.laid_down, ("laid down",)),
        ):
            assert (share.count, share.length) == paper.joints(*states), states
        if job.setup is not None:
            assert shoe_depth(job) == paper.shoe
            assert abs(displaced_closed(job) - paper.displaced()) < 1e-6
        named = {each.seq for each in job.exceptions if "no longer fits" in each.what}
        assert set(paper.left_out) <= named
        lines = as_they_stand([json.loads(text) for text in self.lines])
        standing = [line for line in lines if line["kind"] == "pumped"]
        counts = {line["seq"]: (line.get("tank"), line.get("strokes")) for line in standing}
        kept = (*job.pumped, *job.in_doubt)
        shown = {one.seq: (one.tank.text if one.tank else None, one.strokes) for one in kept}
        zero = job.zeroed.seq if job.zeroed else 10**9
        since = {seq: one for seq, one in counts.items() if seq > zero and seq not in named}
        assert shown == since, "volume since the zero"

    def _verify(self) -> None:
        """Verify the file whole, and fold its entries anew."""
        self.verified = len(self.told)
        report = verify(self.path)
        assert report.ok, report.findings
        with Book.open(self.path, look_only=True) as again:
            assert again.job == fold(again.entries)
            assert again.head[0] == len(texts_of(self.path))


def _raise_fault(app: ShoedownApp) -> None:
    """Raise what the app would show on leaving, while the keys that led there are known."""
    if app._exception is not None:
        raise app._exception


def _key(name: str) -> Key:
    """Return the event of a key, or of a character."""
    if len(name) != 1:
        return Key(name, None)
    return Key(name if name.isalnum() else _character_to_key(name), name)


async def walk(name: str, seed: int, keys: int, folder: Path) -> Walk:
    """Walk one walk and return it."""
    one = Walk(name, seed, folder)
    await one.goes(keys)
    return one


def main(which: str, seeds: str, keys: str) -> None:
    """Walk walks by hand and say which kinds of entries came of them."""
    first, _, last = seeds.partition("-")
    taken: set[str] = set()
    seen: set[str] = set()
    folder = Path(tempfile.mkdtemp())
    os.chdir(folder)
    for name in BOOKS if which == "every" else (which,):
        for seed in range(int(first), int(last or first) + 1):
            one = asyncio.run(walk(name, seed, int(keys), folder))
            taken |= one.taken
            seen |= one.seen
            print(name, seed, "entries", len(one.lines), "saved", one.savings, flush=True)  # noqa: T201
    print("kinds:", ", ".join(sorted(taken)), "\nscreens:", ", ".join(sorted(seen)))  # noqa: T201


if __name__ == "__main__":
    main(*sys.argv[1:])

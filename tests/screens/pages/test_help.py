"""Help answers three questions on every page, and knows every mark, state word and letter."""

from __future__ import annotations

import re
from collections import defaultdict

import pytest

import screens.dialogs.help as help_
from screens.app import PAGES, ShoedownApp, page_kind
from screens.ink import STATES
from screens.pages.far import FarPage
from screens.pages.page import Page
from screens.widgets.steps import TO_CONFIRM
from tally.job.job import LAID_DOWN, ON_RACK, REJECTED, RUN, SENT_AWAY
from tests.docs.reference import pages
from tests.screens.books import app_on, third
from tests.screens.driving import shown

KINDS = (FarPage, *(kind for _title, kind in pages()))


def acts(kind: type[Page]) -> list[tuple[str, str]]:
    """Return each letter of a page with its act, as the page binds them."""
    found = []
    for each in kind.__mro__:
        for binding in vars(each).get("BINDINGS", ()):
            if getattr(binding, "show", False):
                found += [(key, binding.description) for key in binding.key.split(",")]
    return found


def test_every_page_of_the_app_is_looked_at():
    assert {page_kind(name) for name in PAGES} <= set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_every_page_answers_the_three_questions(kind):
    for question, answer in kind.HELP_TEXT.answers():
        assert question.endswith("?")
        assert len(answer.split()) >= 8, question
        assert answer.endswith("."), question
        assert answer.isascii()


def test_no_two_pages_say_the_same():
    assert len({kind.HELP_TEXT for kind in KINDS}) == len(KINDS)


async def test_every_answer_key_and_mark_is_drawn(make_book):
    app = app_on(make_book(third()), "run")
    async with app.run_test(size=(80, 24)) as pilot:
        kind = page_kind("run")
        await pilot.press("question_mark")
        assert "What do I do here?" in shown(app)
        drawn = " ".join(" ".join(each.plain.split()) for each in app.screen.lines)
        for question, answer in kind.HELP_TEXT.answers():
            assert f"{question} {answer}" in drawn
        for key, act in acts(kind):
            assert f"{help_.key_name(key)} {act}" in drawn
        for mark, meaning in (*help_.MARKS, *help_.ELSEWHERE):
            assert f"{mark} {meaning}" in drawn
        assert all(each.cell_length <= help_.WIDTH for each in app.screen.lines)


@pytest.mark.parametrize("word", [*filter(None, STATES), TO_CONFIRM])
def test_every_word_of_a_state_is_among_the_marks(word):
    assert any(word in mark for mark, _meaning in help_.MARKS), word


@pytest.mark.parametrize("word", [ON_RACK, RUN, REJECTED, LAID_DOWN, SENT_AWAY])
def test_every_state_of_an_item_is_among_the_marks(word):
    assert word in [mark for mark, _meaning in help_.MARKS]


def test_letters_that_do_something_else_elsewhere_are_all_named():
    does, where = defaultdict(set), defaultdict(set)
    for binding in ShoedownApp.BINDINGS:
        if not binding.action.startswith("go("):
            continue
        kind = page_kind(binding.action[4:-2])
        for key, act in acts(kind):
            if len(key) == 1:
                does[key].add(act.split(":")[0].split(",")[0])
                where[key].add(help_.key_name(binding.key))
    named = {letter: set(re.findall(r"F\d", told)) for letter, told in help_.ELSEWHERE}
    for letter, meant in does.items():
        if len(meant) > 1:
            assert named.get(letter) == where[letter], letter

"""The bars that every page has: headline, what was said last, NEXT, and the keys."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.content import Content
from textual.widgets import Static

from screens.ink import INK, QUIET, STOP, Line, line, page


class Bar(Static):
    """Some lines of text that a page draws."""

    WRAPS: ClassVar[bool] = False
    """Whether a line may take more than one row."""

    def __init__(self, name: str) -> None:
        super().__init__("", id=name)
        self._lines: tuple[Content, ...] = ()

    def draw(self, *lines: Content) -> None:
        """Show the lines; what stands there already is not drawn again."""
        if same(lines, self._lines):
            return
        grown = len(lines) != len(self._lines) or self.WRAPS
        self._lines = lines
        self.update(page(list(lines)), layout=grown)


def same(lines: Sequence[Content], others: Sequence[Content]) -> bool:
    """Tell whether lines agree in words and in looks; contents compare by their words alone."""
    return len(lines) == len(others) and all(
        one.plain == other.plain and one.spans == other.spans
        for one, other in zip(lines, others, strict=True)
    )


class Said(Bar):
    """What was saved last, or why something was refused; it stays until the next act."""

    WRAPS = True

    @property
    def said(self) -> str:
        """What is said now, "" when nothing is."""
        return "".join(each.plain for each in self._lines)

    def fall_silent(self) -> None:
        """Say nothing any more."""
        self.draw()

    def saved(self, text: str) -> None:
        """Say what was saved."""
        self.draw(line(text, QUIET))

    def refused(self, text: str) -> None:
        """Say what was refused."""
        self.draw(line(text, STOP))


def key_line(width: int, keys: list[tuple[str, str]]) -> Content:
    """Return the keys of a page as they fit on one line; the last one, help, always does."""
    shown = list(keys)
    while len(text := "  ".join(f"{key} {what}" for key, what in shown)) > width and shown[:-1]:
        del shown[-2]
    return Line(width).put(0, text, QUIET).content()


def title_line(width: int, left: str, right: str) -> Content:
    """Return the first line of every page: the job left, the person and the time right."""
    room = width - len(right) - 2
    return Line(width).put(0, left[:room], INK).end(width, right, INK).content()

"""Our side and the bare library's of a final tally as PDF."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from io import BytesIO
from typing import Any

from reportlab.pdfgen.canvas import Canvas

from tally.reports.pdf.document import draw
from tally.reports.pdf.letters import BOLD, REGULAR
from tally.reports.pdf.paper import A4
from tally.reports.pdf.pen import SIZE, Pen
from tally.reports.pdf.tally_pdf import tally_document, tally_pdf
from tests.bench.ratio import Sample
from tests.tally.reports.pdf.jobs import long_string

Act = Callable[[Any], None]
"""Something done to a canvas of the library."""


class Noted(Pen):
    """A pen that notes which cell it writes where, and where its pages end."""

    def __init__(self) -> None:
        super().__init__((A4.across, A4.down), "", "")
        self.acts: list[Act] = []

    def text(
        self, x: float, y: float, text: str, *, bold: bool = False, size: float = SIZE
    ) -> None:
        """Note a cell that begins at a place."""
        super().text(x, y, text, bold=bold, size=size)
        self.acts.append(_cell("drawString", x, y, text, BOLD if bold else REGULAR, size))

    def right(
        self, x: float, y: float, text: str, *, bold: bool = False, size: float = SIZE
    ) -> None:
        """Note a cell that ends at a place."""
        super().right(x, y, text, bold=bold, size=size)
        self.acts.append(_cell("drawRightString", x, y, text, BOLD if bold else REGULAR, size))

    def turn(self) -> None:
        """Note the end of a page."""
        super().turn()
        self.acts.append(lambda canvas: canvas.showPage())


def _cell(how: str, x: float, y: float, text: str, font: str, size: float) -> Act:
    def act(canvas: Any) -> None:
        if (font, size) != (canvas._fontname, canvas._fontsize):
            canvas.setFont(font, size)
        getattr(canvas, how)(x, y, text)

    return act


@cache
def _cells(joints: int) -> tuple[Act, ...]:
    pen = Noted()
    draw(tally_document(long_string(joints), A4), A4, pen)
    return tuple(pen.acts)


@contextmanager
def tally_printed(joints: int) -> Iterator[Sample]:
    """Yield a sample: the final tally laid out and written as PDF [s]."""
    made = long_string(joints)

    def sample() -> float:
        began = time.perf_counter()
        file = tally_pdf(made, A4)
        took = time.perf_counter() - began
        if not file.startswith(b"%PDF"):
            raise AssertionError("What was written is no PDF.")
        return took

    yield sample


@contextmanager
def bare_cells(joints: int) -> Iterator[Sample]:
    """Yield a sample: the same cells at the same places, drawn by the library alone [s]."""
    acts = _cells(joints)

    def sample() -> float:
        began = time.perf_counter()
        canvas = Canvas(BytesIO(), pagesize=(A4.across, A4.down), pageCompression=1, invariant=1)
        for act in acts:
            act(canvas)
        canvas.save()
        return time.perf_counter() - began

    yield sample

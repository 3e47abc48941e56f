"""What a page is drawn with: a thin face on the library's canvas, black and grey only."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from tally.reports.pdf.letters import BOLD, ESCAPE, REGULAR, drawable, widths

SIZE = 8.0
"""Points; the letters of a table and of plain text."""
THIN = 0.4
BLACK, GREY, PALE = 0.0, 0.45, 0.86
Dash = tuple[float, ...]
SOLID: Dash = ()

Point = tuple[float, float]


class Pen:
    """Draws on one document after another page; places are in points from the lower left."""

    def __init__(self, size: tuple[float, float], title: str, subject: str) -> None:
        from reportlab.pdfgen.canvas import Canvas

        for font in (REGULAR, BOLD):
            widths(font)
        self._file = BytesIO()
        # invariant: no clock and no chance in the file, so that the same book gives the same bytes
        self._canvas: Any = Canvas(
            self._file, pagesize=size, pageCompression=1, invariant=1, initialFontName=REGULAR
        )
        self._canvas.setTitle(drawable(title))
        self._canvas.setSubject(drawable(subject))
        self._canvas.setAuthor("Shoedown")
        self.escaped = False
        """Whether a letter of this page is written as its number."""
        self._font: tuple[str, float] | None = None
        self._lines: tuple[float, float, Dash] | None = None

    def text(
        self, x: float, y: float, text: str, *, bold: bool = False, size: float = SIZE
    ) -> None:
        """Write text to the right of a place."""
        self._set(text, bold, size)
        self._canvas.drawString(x, y, text)

    def right(
        self, x: float, y: float, text: str, *, bold: bool = False, size: float = SIZE
    ) -> None:
        """Write text that ends at a place."""
        self._set(text, bold, size)
        self._canvas.drawRightString(x, y, text)

    def centred(self, x: float, y: float, text: str, *, size: float = SIZE) -> None:
        """Write text with its middle at a place."""
        self._set(text, False, size)
        self._canvas.drawCentredString(x, y, text)

    def upright(self, x: float, y: float, text: str, *, size: float = SIZE) -> None:
        """Write text that runs up the page, its middle at a place."""
        self._canvas.saveState()
        self._canvas.translate(x, y)
        self._canvas.rotate(90)
        self._set(text, False, size)
        self._canvas.drawCentredString(0, 0, text)
        self._canvas.restoreState()
        self._forget()

    def _set(self, text: str, bold: bool, size: float) -> None:
        font = (BOLD if bold else REGULAR, size)
        if font != self._font:
            self._font = font
            self._canvas.setFont(*font)
        self.escaped = self.escaped or ESCAPE in text

    def line(
        self,
        points: Sequence[Point],
        *,
        wide: float = THIN,
        grey: float = BLACK,
        dash: Dash = SOLID,
    ) -> None:
        """Draw a line through points."""
        path = self._path(points)
        self._stroke(wide, grey, dash)
        self._canvas.drawPath(path, stroke=1, fill=0)

    def box(
        self, lower: Point, upper: Point, *, fill: float | None = None, wide: float = THIN
    ) -> None:
        """Draw a box, in grey if asked, with a rim unless it has no width."""
        self._stroke(wide, BLACK, SOLID)
        if fill is not None:
            self._canvas.setFillGray(fill)
        sides = (upper[0] - lower[0], upper[1] - lower[1])
        self._canvas.rect(*lower, *sides, stroke=int(wide > 0), fill=int(fill is not None))
        self._canvas.setFillGray(BLACK)

    def shape(self, points: Sequence[Point], *, fill: float | None = BLACK) -> None:
        """Draw a closed shape."""
        path = self._path(points)
        path.close()
        self._stroke(THIN, BLACK, SOLID)
        self._canvas.setFillGray(1.0 if fill is None else fill)
        self._canvas.drawPath(path, stroke=1, fill=1)
        self._canvas.setFillGray(BLACK)

    def ring(self, middle: Point, radius: float, *, fill: float = 1.0) -> None:
        """Draw a circle."""
        self._stroke(THIN, BLACK, SOLID)
        self._canvas.setFillGray(fill)
        self._canvas.circle(*middle, radius, stroke=1, fill=1)
        self._canvas.setFillGray(BLACK)

    def _path(self, points: Sequence[Point]) -> Any:
        path = self._canvas.beginPath()
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        return path

    def _stroke(self, wide: float, grey: float, dash: Dash) -> None:
        lines = (wide, grey, dash)
        if lines != self._lines:
            self._lines = lines
            self._canvas.setLineWidth(wide)
            self._canvas.setStrokeGray(grey)
            self._canvas.setDash(list(dash))

    def turn(self) -> None:
        """End the page."""
        self._canvas.showPage()
        self._forget()
        self.escaped = False

    def _forget(self) -> None:
        """Set font and lines anew before the next of them is drawn."""
        self._font = self._lines = None

    def done(self) -> bytes:
        """Return the file."""
        self._canvas.save()
        return self._file.getvalue()

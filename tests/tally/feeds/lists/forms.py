"""Invented joints written down in any of the forms that a list may have."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from hypothesis import strategies as st

from tally.errors import InputError
from tally.reports.guard import guarded
from tally.units import clean
from tests.tally.feeds.lists.sheets import numbered, sheet_xml, workbook

METRES = {
    "ft": Fraction("0.3048"),
    "in": Fraction("0.0254"),
    "m": Fraction(1),
    "mm": Fraction(1, 1000),
}
STEPS = {"ft": Fraction("0.003048"), "m": Fraction(1, 100), "mm": Fraction(1, 1000)}
DECIMALS = {"ft": (1, 2, 3), "m": (2, 3), "mm": (0,)}
WORDS = {
    "English": ("Joint No.", "Length", "Heat", "Serial", "Remarks", "Total", "Date"),
    "German": ("Rohr-Nr.", "Länge", "Schmelze", "Seriennummer", "Bemerkung", "Summe", "Datum"),
    "French": ("N° tube", "Longueur", "Coulée", "N° de série", "Remarques", "Somme", "Date"),
    "Spanish": ("Nº de junta", "Longitud", "Colada", "Serie", "Comentarios", "Suma", "Fecha"),
    "Portuguese": ("Nº", "Comprimento", "Corrida", "Nº de série", "Observações", "Soma", "Data"),
    "Norwegian": ("Rør nr.", "Lengde", "Smeltenr.", "Serienr.", "Merknader", "Sum", "Dato"),
    "Dutch": ("Buisnr.", "Lengte", "Smeltnummer", "Serienummer", "Opmerking", "Totaal", "Datum"),
    "Russian": ("№ трубы", "Длина", "Плавка", "Серийный №", "Примечание", "Итого", "Дата"),
}
PARTS = ("number", "length", "heat", "serial", "description")


@dataclass(frozen=True)
class Written:
    """A joint as it is written, and as it must be read."""

    number: str
    length: str
    """With a decimal point and without its unit; feet and inches as "41 4.5"."""
    heat: str
    serial: str
    description: str

    def metres(self, unit: str) -> Fraction:
        """Return the length, worked out without the program."""
        if unit == "ft in":
            feet, inches = self.length.split(" ")
            return int(feet) * METRES["ft"] + Fraction(inches) * METRES["in"]
        return Fraction(self.length) * METRES[unit]

    def steps(self, unit: str, tally: str) -> int:
        """Return the length in steps of a tally, half up."""
        return floor(self.metres(unit) / STEPS[tally] + Fraction(1, 2))


@dataclass(frozen=True)
class Form:
    """How a list is written."""

    words: tuple[str, ...]
    order: tuple[int, ...]
    """The columns: places in `PARTS`, and 5 for a column of no use."""
    unit: str
    by_cell: bool
    """Each cell names the unit; otherwise the heading does."""
    comma: bool
    mark: str
    encoding: str
    """Or "xlsx", with numbers as numbers, or "xlsx text"."""
    blank: int
    """A blank line after every so many joints; 0 for none."""
    repeated: int
    """The headings again after every so many joints; 0 for never."""
    total: bool
    joints: tuple[Written, ...]

    def rows(self) -> list[list[str | float]]:
        """Return the cells of every row."""
        made = [self._head()]
        for place, joint in enumerate(self.joints, start=1):
            made.append(self._row(joint))
            if self.blank and place % self.blank == 0:
                made.append([""] * len(self.order))
            if self.repeated and place % self.repeated == 0:
                made.append(self._head())
        if self.total and self.unit != "ft in":
            made.append(self._sum())
        return made

    def content(self) -> bytes:
        """Return the file."""
        if self.encoding.startswith("xlsx"):
            cells = [[cell if cell != "" else None for cell in row] for row in self.rows()]
            return workbook({"Tally": sheet_xml(numbered(cells))})
        out = io.StringIO(newline="")
        csv.writer(out, delimiter=self.mark).writerows(self.rows())
        mark = {"utf-16-le": "\ufeff", "utf-16-be": "\ufeff"}.get(self.encoding, "")
        return (mark + out.getvalue()).encode(self.encoding)

    def _head(self) -> list[str | float]:
        names = [*self.words[:5], self.words[6]]
        if not self.by_cell and self.unit != "ft in":
            names[1] = f"{names[1]} ({self.unit})"
        return [names[column] for column in self.order]

    def _row(self, joint: Written) -> list[str | float]:
        texts = [guarded(each) for each in (joint.heat, joint.serial, joint.description)]
        cells = [joint.number, self._length(joint.length), *texts, "2026-03-13"]
        return [cells[column] for column in self.order]

    def _sum(self) -> list[str | float]:
        exact = sum((joint.metres(self.unit) for joint in self.joints), Fraction(0))
        stated = str(float(exact / METRES[self.unit])) if self.unit != "mm" else ""
        stated = stated or str(int(exact * 1000))
        cells: list[str | float] = [self.words[5], self._length(stated), "", "", "", ""]
        return [cells[column] for column in self.order]

    def _length(self, number: str) -> str | float:
        if self.unit == "ft in":
            feet, inches = number.split(" ")
            return f"{feet}' {inches.replace('.', ',') if self.comma else inches}\""
        if self.encoding == "xlsx" and not self.by_cell:
            return float(number)
        typed = number.replace(".", ",") if self.comma else number
        return f"{typed} {self.unit}" if self.by_cell else typed


def _kept(text: str) -> bool:
    try:
        return clean(text) == text
    except InputError:
        return False


WIDE = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), max_size=20)
NARROW = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=20)
ENCODINGS = ("utf-8", "utf-8-sig", "utf-16-le", "utf-16-be", "xlsx", "xlsx text")
PAGES = {"Russian": ("cp1251", "cp866")}
BANDS = {"ft": (34, 48), "m": (11, 14), "mm": (11_000, 14_000)}


@st.composite
def _length(draw: st.DrawFn, unit: str) -> str:
    if unit == "ft in":
        feet, eighths = draw(st.integers(34, 47)), draw(st.integers(0, 95))
        return f"{feet} {eighths / 8:g}"
    low, high = BANDS[unit]
    decimals = draw(st.sampled_from(DECIMALS[unit]))
    steps = draw(st.integers(low * 10**decimals, high * 10**decimals - 1))
    whole, rest = divmod(steps, 10**decimals)
    return f"{whole}.{rest:0{decimals}}" if decimals else str(whole)


@st.composite
def forms(draw: st.DrawFn) -> Form:
    """Return a list in any of the forms."""
    language = draw(st.sampled_from(sorted(WORDS)))
    pages = PAGES.get(language, ("cp1252", "cp850") if language != "English" else ("ascii",))
    encoding = draw(st.sampled_from((*ENCODINGS, *pages)))
    words = WORDS[language]
    if encoding not in ENCODINGS:
        words = tuple(word.encode(encoding, "replace").decode(encoding) for word in words)
        words = tuple(word.replace("?", "") for word in words)
    unit = draw(st.sampled_from(("ft", "m", "mm", "ft in")))
    text = (WIDE if encoding in ENCODINGS else NARROW).filter(_kept)
    names = draw(
        st.lists(
            st.from_regex(r"[A-D]?[1-9][0-9]{0,3}", fullmatch=True),
            min_size=1,
            max_size=12,
            unique_by=str.casefold,
        )
    )
    joints = tuple(
        Written(name, draw(_length(unit)), draw(text), draw(text), draw(text)) for name in names
    )
    return Form(
        words=words,
        order=tuple(draw(st.permutations(range(6)))),
        unit=unit,
        by_cell=draw(st.booleans()),
        comma=draw(st.booleans()),
        mark=draw(st.sampled_from(",;\t|")),
        encoding=encoding,
        blank=draw(st.sampled_from((0, 3))),
        repeated=draw(st.sampled_from((0, 5))),
        total=draw(st.booleans()) and len(names) > 1,
        joints=joints,
    )

"""The factors that stand in a file are pint's own, and a book opens without pint."""

import subprocess
import sys

from demo_db.play import play
from tally.units import FIELD, METRIC
from tally.units.factors import at_hand, by_pint

SHOWN = {one.unit for units in (FIELD, METRIC) for one in units.shown.values()}
ALSO_TYPED = {"s", "h", "d", "lbf"}
AT_HAND = sorted(SHOWN | ALSO_TYPED)
LOOKS = """
import sys
from tally.book.book import Book
from tally.job.figures import all_figures
all_figures(Book.open({book!r}).job)
loaded = {{name.split(".")[0] for name in sys.modules}}
print(sorted(loaded & {{"pint", "pydantic", "sqlite_utils"}}))
"""


def test_the_file_holds_what_pint_says_of_the_usual_units():
    lines = [" ".join([unit, *map(str, by_pint(unit))]) for unit in AT_HAND]
    head = "# unit, its size in SI, its zero in SI; taken from pint, a test compares every line"
    assert at_hand() == {unit: by_pint(unit) for unit in AT_HAND}, "\n".join([head, *lines])


def test_a_book_opens_and_is_looked_at_without_the_heavy_packages(tmp_path):
    book = str(play(tmp_path / "third.book", until="third"))
    program = LOOKS.format(book=book)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.stdout == "[]\n", done.stdout + done.stderr

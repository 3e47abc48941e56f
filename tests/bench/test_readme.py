"""The README's table of measured ratios."""

from contextlib import nullcontext

from tests.bench.ratio import Measure, Ratio, Result, Samples
from tests.bench.readme import BEGIN, END, README, written

MADE = Result(
    Measure(
        name="a joint saved",
        ours=lambda: nullcontext(lambda: 0.003),
        reference=lambda: nullcontext(lambda: 0.002),
        against="a bare insert",
        limit=1.5,
    ),
    Samples((0.003,), (0.002,)),
    Ratio(1.24, 1.1, 1.333),
)


def test_the_table_is_written_between_its_marks_and_nothing_else_changes():
    text = f"# Before\n\n{BEGIN}\nold\n{END}\n\nafter\n"
    made = written(text, [MADE], ["commit abc", "machine X"])
    assert made.startswith(f"# Before\n\n{BEGIN}\n")
    assert made.endswith(f"{END}\n\nafter\n")
    assert "| a joint saved | a bare insert | median | 1.24 | 1.10 to 1.33 | 1.5 |" in made
    assert "Measured on: commit abc; machine X." in made
    assert "old" not in made
    assert written(made, [MADE], ["commit abc", "machine X"]) == made


def test_the_readme_has_the_marks():
    text = README.read_text("utf-8")
    assert text.count(BEGIN) == text.count(END) == 1

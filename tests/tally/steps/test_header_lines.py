"""Where the steps of a list begin in its file."""

from __future__ import annotations

import tomllib

import pytest

from tally.steps.header_lines import header_lines

INSIDE = 'id = """\n[[steps]]\n"""\n[[steps]]\nid = "a"\n'
LITERAL = "x = '''it's\n[[steps]]\n'''\n [[ steps ]] # one\n"
COMMENT = '# say """ here\n[[steps]]\nx = "\\"\\"\\""\n[[steps]]\n'
ESCAPED = 'x = """\\"""\n[[steps]]\n"""\n[[steps]]\r\n'


@pytest.mark.parametrize(
    ("text", "lines"),
    [(INSIDE, (4,)), (LITERAL, (4,)), (COMMENT, (2, 4)), (ESCAPED, (4,)), ("steps = []", ())],
)
def test_each_header_is_found_and_no_other(text: str, lines: tuple[int, ...]) -> None:
    assert header_lines(text) == lines
    assert len(tomllib.loads(text).get("steps", [])) == len(lines)

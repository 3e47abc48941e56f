"""Tables as TOML: whatever the text, it reads the same again, and no terminal obeys it."""

from __future__ import annotations

import tomllib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tally.feeds.job_text import job_text

VALUES = st.one_of(
    st.text(st.characters(exclude_categories=["Cs"])),
    st.integers(-(2**63), 2**63 - 1),
    st.booleans(),
    st.lists(st.text(st.characters(exclude_categories=["Cs"])), max_size=3),
)
TABLE = st.dictionaries(st.sampled_from(("name", "depth", "count")), VALUES)
DOCUMENTS = st.fixed_dictionaries(
    {
        "pipe_list": st.text(st.characters(exclude_categories=["Cs"])),
        "well": TABLE,
        "survey": st.lists(TABLE, min_size=1, max_size=3),
        "limits": st.dictionaries(st.sampled_from(("tank_total", "slow_rate")), TABLE),
    }
)


@given(document=DOCUMENTS)
def test_tables_written_are_the_tables_read(document: dict[str, Any]) -> None:
    text = job_text(document, "some title\nwith [two] lines")
    assert tomllib.loads(text) == document
    assert all(line.isprintable() for line in text.split("\n"))


def test_half_a_character_becomes_a_mark_that_can_be_written() -> None:
    text = job_text({"well": {"name": "a\ud800b"}})
    assert tomllib.loads(text)["well"]["name"] == "a\ufffdb"
    assert text.encode("utf-8")

"""Rows of readings as text: they come back as they were read, and their hash is anybody's."""

import hashlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.job.batch import BatchColumn, hash_of, number_of_rows, payload_of, rows_of

COLUMNS = (BatchColumn("volume", "bbl"), BatchColumn("pressure", "psi"))
GAUGE = st.none() | st.decimals(-99_999, 99_999, places=3).map(float)
ROWS = st.lists(st.tuples(st.integers(0, 10**9).map(lambda n: n / 1000), st.tuples(GAUGE, GAUGE)))


@given(ROWS)
def test_rows_come_back_as_they_were_read(rows):
    payload = payload_of(COLUMNS, rows)
    assert list(rows_of(payload)) == rows
    assert number_of_rows(payload) == len(rows)


def test_the_hash_is_that_of_the_text():
    payload = payload_of(COLUMNS, [(0.0, (10.4, 812.0))])
    assert hash_of(payload) == hashlib.sha256(b"time (s),volume (bbl),pressure (psi)\n0,10.4,812\n"
                                              ).hexdigest()  # fmt: skip


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_what_is_no_number_is_refused(value):
    with pytest.raises(InputError, match="leave it empty"):
        payload_of(COLUMNS, [(0.0, (value, 1.0))])

"""What every test of the record and the arithmetic starts from."""

import pytest

from tally.units import factor


@pytest.fixture(autouse=True, scope="session")
def _units_loaded() -> None:
    """Import pint before the first timed example, so that no deadline pays for it."""
    factor("ft")

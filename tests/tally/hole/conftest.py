"""Load what the second opinions need before the first timed example."""

import pytest

from tests.tally.second_opinion import si


@pytest.fixture(autouse=True, scope="session")
def _second_opinions_loaded() -> None:
    """Load pint's own units and scipy, so that no deadline pays for them."""
    import scipy.integrate
    import scipy.optimize  # noqa: F401

    si(1, "foot")

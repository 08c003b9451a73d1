"""What several files of unit tests begin with."""

import pytest

from tests.units.demo_log import DAYS, Played, log_of


@pytest.fixture(params=DAYS, ids=lambda day: day.isoformat())
def played(request: pytest.FixtureRequest) -> Played:
    """The log as of several days of loading."""
    return *log_of(request.param), request.param

"""The well to scale while the string has hardly begun."""

from screens.widgets.section_chart import section_lines
from tests.tally.job.invented import running


def test_a_shoe_that_is_still_above_the_datum_is_told_as_it_is():
    """The shoe is 1.95 ft long and the stick-up 3.22 ft, so that it stands 1.27 ft up."""
    told = [each.plain for each in section_lines(running("S1").job, 70, 12)]
    (shoe,) = [each.split() for each in told if each.endswith("the shoe")]
    assert shoe[:2] == ["-1.27", "-1.27"]

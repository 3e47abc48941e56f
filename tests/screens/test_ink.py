"""Lines put together from pieces at columns: what lines up on the right keeps its blank."""

from screens.ink import Line, rule


def test_a_figure_never_runs_into_the_words_before_it():
    drawn = Line(20).put(0, "landing joint").end(18, "16.00").content()
    assert drawn.plain == "landing joint16.00".replace("t1", "t 1")


def test_a_figure_with_room_ends_before_its_column():
    assert Line(20).put(0, "shoe").end(18, "16.00").content().plain == "shoe" + " " * 9 + "16.00"


def test_the_titles_of_a_rule_keep_their_columns():
    assert rule(12, (6, "no."), (12, "in")).plain == "- no. -- in "

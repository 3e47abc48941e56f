"""Pipe lists as rigs write them: opened, understood, doubted, and previewed before they count."""

from tally.feeds.rig_list.accepting import ReadBack, difference, left_out, open_questions, received
from tally.feeds.rig_list.asking import Answers, Question
from tally.feeds.rig_list.cells import ListFile
from tally.feeds.rig_list.doubts import Doubt
from tally.feeds.rig_list.opening import open_list
from tally.feeds.rig_list.preview import Preview, preview_of
from tally.feeds.rig_list.rules import Rules, rules_of
from tally.feeds.rig_list.telling import Told, row_line, told

__all__ = [
    "Answers",
    "Doubt",
    "ListFile",
    "Preview",
    "Question",
    "ReadBack",
    "Rules",
    "Told",
    "difference",
    "left_out",
    "open_list",
    "open_questions",
    "preview_of",
    "received",
    "row_line",
    "rules_of",
    "told",
]

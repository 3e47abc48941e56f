"""F6: plugs loaded and released, slurry pumped and displaced."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs import calling, charts, following, mixing, placing
from screens.dialogs import steps as ask
from screens.ink import ATTENTION, INK, cut, line, wrap
from screens.pages.checklist import ChecklistPage
from screens.pages.help_text import HelpText
from screens.widgets.displaced import beside_counts, bump_headline, float_check_line
from screens.widgets.followed import followed_lines
from screens.widgets.placed import placed_lines, under_way
from screens.widgets.pressure_chart import pressure_chart
from screens.widgets.steps import worked
from tally.job.job import Job
from tally.job.wet_shoe import shoe_words

ROOM_FOR_CHART = 34
"""Rows of the body from which on the chart stands on the page."""

CHART_ROWS, CHART_WIDEST = 16, 110


class PlugsPage(ChecklistPage):
    """F6: the plugs loaded and released, the slurry pumped and displaced."""

    LISTS = "plugs"
    HELP_TEXT = HelpText(
        do=(
            "Load and release the plugs in order: no bottom plug before it is loaded and "
            "witnessed, no slurry before the bottom plug, no top plug before the slurry is away. "
            "From the first slurry to the bump one letter stores the event with its time at "
            "once; the witness confirms afterwards with k. r reads both counts and the pressure, "
            "before the zero what is seen while mixing. t starts a list for trouble, and enters "
            "a test of the shoe; l is the mixing log; i tries a change and records nothing."
        ),
        mean=(
            "The volume counts from the release of the top plug. The top line is what is left to "
            "the calculated bump, by the count that comes there first; it is an ESTIMATE when "
            "the last reading is too old for its rate. Tank and strokes stand side by side; from "
            "the first slurry on, pressure, equivalent density, returns and plugs stand beside "
            "what the placement expects. What a second person works out stays hidden on every "
            "page, for everybody, until theirs is entered with their name; then both are told."
        ),
        source=(
            "The bump is calculated from the string as run; counts, pressures and returns are "
            "typed, or kept from a pump file that another program writes (e): its age is shown, "
            "and a reading of it goes into the job each minute. What is expected is the "
            "placement worked out from the programme, the hole and what was pumped."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "counts", "Read both counts and the pressure", id="plugs.counts"),
        Binding("e", "follow", "Follow a pump file, or leave it", id="plugs.follow"),
        Binding("t", "trouble", "Trouble: start a list, shoe tested", id="plugs.trouble"),
        Binding("l", "mixing", "Mixing log", id="plugs.mixing"),
        Binding("v", "chart", "Pressure against volume, expected and read", id="plugs.chart"),
        Binding("q", "well", "The well to scale, and its depths", id="plugs.well"),
        Binding("i", "change", "Try a change: rate, excess, density", id="plugs.change"),
        Binding("g", "waiting", "Waiting on cement", id="plugs.waiting"),
        Binding("x", "zones", "Zones: what was done, what is in doubt", id="plugs.zones"),
        Binding("m", "moved", "Pipe moved up and down: the stroke", id="plugs.moved"),
    ]

    @property
    def job(self) -> Job:
        """The job as it stands, with the readings of the file that is followed."""
        return self.shoedown.file_watch.with_readings(self.shoedown.job)

    def headline(self) -> list[Content]:
        """Return what is left to the calculated bump, or what the displacement will be."""
        if self.job.setup is None:
            return [self.first_line()]
        return [
            self.first_line(),
            *bump_headline(self.job, self.shoedown.now(), self.size.width),
            self._standing(),
        ]

    def above(self) -> list[Content]:
        """Return the two counts, once something is pumped, and what the float check means."""
        file = followed_lines(self.shoedown.file_watch, self.shoedown.now(), self.body_width)
        if not self.job.zeroed:
            return [*file, *self._placed()]
        counts = [*file, *beside_counts(self.job, self.body_width)]
        return [*counts, *self._placed(), *wrap(float_check_line(self.job), self.body_width)]

    def _placed(self) -> list[Content]:
        """Return expected beside seen from the slurry to the bump, with the chart where it fits."""
        if not under_way(self.job):
            return []
        rows = placed_lines(self.job, self.body_width)
        if self.body_height < ROOM_FOR_CHART:
            return rows
        wide = min(CHART_WIDEST, self.body_width)
        return [*pressure_chart(self.job, wide, CHART_ROWS), *rows]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the plug page."""
        return [
            ("Enter", "routine"),
            ("y", "critical"),
            ("k", "witness"),
            ("r", "read"),
            ("t", "trouble"),
            ("i", "try"),
            ("v", "chart"),
            ("z", "pass over"),
            ("c", "correct"),
            ("?", "help"),
        ]

    def _standing(self) -> Content:
        """Return how far the lists are, or why the shoe is suspect: that comes first."""
        shoe = shoe_words(self.job)
        if shoe:
            return line(cut(shoe, self.size.width), ATTENTION)
        return line(worked(self.job, self.lists(), self.size.width), INK)

    def action_follow(self) -> None:
        """Follow a pump file that another program writes, or leave it."""
        self.act(following.follow_or_leave(self))

    def action_trouble(self) -> None:
        """Start a list for trouble."""
        self.act(calling.call(self))

    def action_mixing(self) -> None:
        """Show the mixing log."""
        self.act(mixing.show_mixing(self))

    def action_counts(self) -> None:
        """Read both counts; before they are zeroed what is read while mixing."""
        mixing_now = self.job.zeroed is None and under_way(self.job)
        self.act(mixing.read_while_mixing(self) if mixing_now else ask.read_counts(self))

    def action_chart(self) -> None:
        """Show pressure against volume."""
        self.act(placing.show_chart(self))

    def action_well(self) -> None:
        """Show the well to scale."""
        self.act(charts.show_well(self))

    def action_change(self) -> None:
        """Try a change beside the live prediction; nothing is recorded."""
        self.act(placing.try_a_change(self))

    def action_waiting(self) -> None:
        """Turn to the waiting on cement."""
        self.shoedown.action_go("waiting")

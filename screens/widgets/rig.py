"""The line of the rig: its last values with their age, or what is wrong with the stream."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content

from screens.ink import ATTENTION, BOLD, QUIET, Line, cut
from screens.widgets.age import age
from screens.widgets.running import named
from tally.feeds.rig_watch import Offer

if TYPE_CHECKING:
    from screens.rig import Rig
    from tally.job.job import Job

RUNNING = (("hook load", "hook load"), ("block", "block position"), ("trip tank", "trip tank"))
MUD = (
    ("active tank", "active tank"),
    ("standpipe", "standpipe pressure"),
    ("out", "flow out"),
    ("strokes", "stroke rate"),
)
CEMENTING = (
    ("pressure", "cement pressure"),
    ("rate", "cement rate"),
    ("density", "cement density"),
    ("pumped", "volume pumped"),
)
USES = {"run": RUNNING, "far": RUNNING, "mud": MUD, "plugs": CEMENTING, "waiting": CEMENTING}
"""What the line tells on each page; the others tell what the running page does."""


def rig_line(rig: Rig, job: Job, page: str, width: int) -> Content:
    """Return the line: a joint seen down, else what is wrong, else the values with their age."""
    down = rig.lowered() if page == "run" else None
    if down is not None:
        shown = job.known.shown
        way = shown.show(down.lowered.way, "length")
        text = (
            f"RIG  {named(down.item)} seen down, {way} of block, lowered in "
            f"{down.lowered.seconds:.0f} s: Enter enters it"
        )
        return Line(width).put(0, cut(text, width), BOLD).content()
    told = rig.watch.told() or rig.told
    old = rig.watch.age
    if told:
        what, parted, why = told.partition(": ")
        last = "" if old is None else f", last reading {age(old)} ago"
        text = f"RIG  {what}{last}{parted}{why}"
        return Line(width).put(0, cut(text, width), ATTENTION).content()
    text = "   ".join(_values(rig, job, page)) or "nothing of what is shown here comes"
    ago = "" if old is None else f"   {age(old)} ago"
    return Line(width).put(0, cut(f"RIG  {text}", width - len(ago)) + ago, QUIET).content()


def _values(rig: Rig, job: Job, page: str) -> list[str]:
    """Return each value there is; one that is old is told as missing, never with its number."""
    found = []
    for label, role in USES.get(page, RUNNING):
        offer = rig.watch.current(role, job.known.shown)
        if isinstance(offer, Offer):
            found.append(f"{label} {offer.text}")
        elif offer.why:
            found.append(f"{label}: none now")
    return found

"""The equipment list: who brings what, whether it is here, whether it is checked."""

from __future__ import annotations

from textual.binding import Binding
from textual.content import Content

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.running import ask, stamp
from screens.ink import ATTENTION, INK, QUIET, Line, line, wrap
from screens.pages.page import Page
from tally.job.entries.rack import EquipmentNoted
from tally.job.entry import clock
from tally.job.equipment import Thing, equipment_list
from tally.job.job import Job

WIDTH = 70
SUPPLIER, HERE, CHECKED, NOTED = 30, 46, 52, 61
YES, NO = "yes", "no"


class EquipmentPanel(Panel):
    """The list; n leaves it to note one thing."""

    BINDINGS = [Binding("n", "note", "Note one thing", id="equipment.note")]

    def __init__(self, job: Job) -> None:
        super().__init__("Equipment", equipment_lines(job), "n note one    up, down")
        self.to_note = False

    def action_note(self) -> None:
        """Leave the panel for the form."""
        self.to_note = True
        self.dismiss(None)


def equipment_lines(job: Job) -> list[Content]:
    """Return each thing with its supplier, and whether it is here and checked."""
    things = equipment_list(job)
    if not things:
        return [line("nothing is in the list: n note one", ATTENTION)]
    ready = sum(thing.ready for thing in things)
    titles = Line(WIDTH).put(0, "what", QUIET).put(SUPPLIER, "who brings it", QUIET)
    titles.put(HERE, "here", QUIET).put(CHECKED, "checked", QUIET)
    lines = [line(f"{ready} of {len(things)} here and checked", INK), line(""), titles.content()]
    return [*lines, *(each for thing in things for each in _thing(thing))]


def _thing(thing: Thing) -> list[Content]:
    mark = thing.mark
    here = "-" if mark is None else YES if mark.here else NO
    checked = "-" if mark is None else YES if mark.checked else NO
    drawn = (
        Line(WIDTH)
        .put(0, thing.name[: SUPPLIER - 2], INK if thing.ready else ATTENTION)
        .put(SUPPLIER, thing.supplier[: HERE - SUPPLIER - 2], INK)
        .put(HERE, here, INK if here == YES else ATTENTION)
        .put(CHECKED, checked, INK if checked == YES else ATTENTION)
    )
    if mark is None:
        return [drawn.content()]
    drawn.put(NOTED, clock(mark.at), QUIET)
    said = f"{mark.by}: {mark.note}" if mark.note else mark.by
    return [
        drawn.content(),
        *(line(f"  {each.plain}", QUIET) for each in wrap(said, WIDTH - 2)),
    ]


async def show_equipment(page: Page) -> None:
    """Show the list, and note things in it until it is closed."""
    while True:
        panel = EquipmentPanel(page.job)
        await page.app.push_screen_wait(panel)
        if not panel.to_note or not await _note(page):
            return


async def _note(page: Page) -> bool:
    """Ask which thing and what is to be noted of it; whether it was entered."""
    things = equipment_list(page.job)
    first = next((thing.name for thing in things if not thing.ready), "")
    names = tuple(thing.name for thing in things)
    answer = await ask(
        page,
        "Note a thing of the equipment list",
        Field("name", "What", choices=names, open=True, value=first),
        Field("here", "Here", choices=(YES, NO), value=YES),
        Field("checked", "Checked", choices=(YES, NO), value=YES),
        Field("supplier", "Who brings it", optional=True, hint="empty: as in the list"),
        Field("note", "Note", optional=True),
    )
    if not answer:
        return False
    entry = EquipmentNoted(
        **stamp(page),
        name=answer["name"],
        here=answer["here"] == YES,
        checked=answer["checked"] == YES and answer["here"] == YES,
        supplier=answer["supplier"] or "",
        note=answer["note"] or "",
    )
    return await say(page, entry)

"""How the rack with its checks and the running list look: kept pictures, and contrast."""

import pytest

from tally.job.entries.rack import BundleCounted, Checked, EquipmentNoted, OrderSet
from tally.job.entries.running import Rejected
from tally.job.setup import Rule, Zone
from tally.units import read
from tests.screens.books import NADIA, Story, app_on, setup
from tests.screens.looks import LEAST, assert_looks

SIZES = ((80, 24), (160, 50))


def checked_job():
    """Return a job with the rack counted, checked and put in order, a few joints run."""
    zone = Zone(name="sand", top=read("7900 ft", "length"), bottom=read("8000 ft", "length"))
    by_zone = Rule(what="rigid centralizer", zone="sand", position="over the coupling")
    plan = setup(zones=(zone,), programme=(*setup().programme, by_zone))
    story = Story()
    story.starts(plan, 205)
    numbers = tuple(str(number) for number in range(1, 104))
    story.says(BundleCounted, bundle="T1", noted=103, counted=103, numbers=numbers)
    story.says(BundleCounted, by=NADIA, bundle="T2", noted=103, counted=102, despite="one short")
    story.says(
        Checked, what="drift", passed=True, numbers=numbers, mandrel=read("8.525 in", "diameter")
    )
    story.says(Checked, what="visual", passed=True, numbers=numbers[:8])
    story.says(Checked, what="thread", passed=False, numbers=("8", "10"), note="galled")
    story.says(Rejected, number="8", reason="failed thread: galled")
    story.says(EquipmentNoted, name="spider", here=True, checked=True, supplier="casing crew")
    order = tuple(one for one in plan.order if one not in ("203", "204", "205"))
    story.says(
        OrderSet,
        order=(*order[:6], "7", "5", "6", *order[9:]),
        locked=order[:4],
        aside=("203", "204", "205"),
        reason="7 lies on top",
        despite="two more joints come tonight",
    )
    story.runs(6)
    return story.entries


async def look(app, snapshot, name, size, *keys):
    async with app.run_test(size=size) as pilot:
        await pilot.press(*keys)
        await assert_looks(pilot, snapshot, name)


@pytest.mark.parametrize("size", SIZES)
async def test_the_rack_with_its_checks(make_book, snapshot, size):
    await look(app_on(make_book(checked_job()), "rack"), snapshot, "rack-checked", size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_running_list(make_book, snapshot, size):
    app = app_on(make_book(checked_job()), "rack")
    await look(app, snapshot, "running-list", size, "o", "down", "down", "l", "down")


@pytest.mark.parametrize("size", SIZES)
async def test_the_running_list_as_it_is_printed(make_book, snapshot, size):
    app = app_on(make_book(checked_job()), "rack")
    await look(app, snapshot, "running-list-printed", size, "o", "v")


@pytest.mark.parametrize(("key", "name"), [("t", "rack-totals"), ("d", "rack-check")])
async def test_what_the_keys_of_the_rack_open(make_book, snapshot, key, name):
    app = app_on(make_book(checked_job()), "rack")
    await snapshot(app, name, themes=LEAST, press=[key])

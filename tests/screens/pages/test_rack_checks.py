"""F3: checks of one joint or many, bundles, the equipment list, the totals."""

from screens.dialogs.form import Form
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.rack import BundleCounted, Checked, EquipmentNoted, OrderSet
from tally.job.entries.running import ItemRun, Rejected
from tally.job.setup import Equipment, RackRules
from tests.screens.books import AMA, NADIA, Story, app_on, setup
from tests.screens.driving import HOSTILE, faults, fill, form, offered, rows, shown
from tests.screens.pages.test_rack import at


async def test_a_drift_of_many_joints_is_one_entry_and_marks_each(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        assert offered(app)["numbers"] == "88"
        assert offered(app)["who"] == AMA
        await fill(pilot, numbers="88-120, 122", mandrel="8.525", who="Cleo Marsh")
        assert "saved 03:12 88-120, 122 passed drift with 8.525 in" in shown(app)
        assert "DVTI" in shown(app)
        assert "88 joint 39.66 on rack +... NEXT" in shown(app)
        assert "passed drift with 8.525 in, Cleo Marsh" in shown(app)
    last = running.entries[-1]
    assert isinstance(last, Checked)
    assert (len(last.numbers), last.who, last.mandrel.text) == (34, "Cleo Marsh", "8.525 in")


async def test_no_room_is_taken_where_no_check_is_kept(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "DVTI" not in shown(app)


async def test_the_last_mandrel_is_offered_and_goes_with_a_drift_only(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        await fill(pilot, mandrel="8.525 in")
        await pilot.press("d")
        assert offered(app)["mandrel"] == "8.525 in"
        await fill(pilot, what="visual")
    last = running.entries[-1]
    assert (last.what, last.mandrel) == ("visual", None)


async def test_what_failed_says_so_and_is_rejected_when_that_is_chosen(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        await fill(pilot, numbers="90, 92", what="thread", found="failed")
        assert form(app).heading == "90, 92 failed thread"
        assert offered(app)["reject"] == "yes, reject"
        await fill(pilot, note="galled")
        assert "204 = 85 + 115 + 3 + 1 agrees" in shown(app)
    *_, checked, first, second = running.entries
    assert isinstance(checked, Checked)
    assert not checked.passed
    assert [(one.number, one.reason) for one in (first, second)] == [
        ("90", "failed thread: galled"),
        ("92", "failed thread: galled"),
    ]


async def test_what_failed_and_is_kept_stays_on_the_rack_and_asks_at_its_turn(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        await fill(pilot, what="visual", found="failed")
        await fill(pilot, reject="2")
        assert "88 joint 39.66 on rack .F.. NEXT" in shown(app)
        assert "NEXT joint 88 failed visual at 03:12 (Ama Osei): d check it" in shown(app)
        await pilot.press("f4", "enter")
        assert "Joint 88 failed visual at 03:12 (Ama Osei)." in shown(app)
        await fill(pilot, reason="looked at again")
    assert isinstance(running.entries[-1], ItemRun)
    assert not [one for one in running.entries[-3:] if isinstance(one, Rejected)]


async def test_nothing_is_entered_where_a_failure_is_not_carried_through(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        await fill(pilot, found="failed")
        await pilot.press("escape")
        await pilot.pause()
    assert len(running.entries) == 96


async def test_a_joint_in_the_string_is_noted_with_a_reason(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        await fill(pilot, numbers="5")
        assert "5 is in the string already; say why the check is noted now." in shown(app)
        await fill(pilot, reason="1")
    assert running.entries[-1].despite == "checked before, not written down"


async def test_an_undrifted_joint_is_named_where_records_are_kept(make_book):
    story = Story()
    story.starts(setup(rack=RackRules(drift_records=True)), 205)
    story.runs(1)
    app = app_on(make_book(story.entries), "rack")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "NEXT joint 1 has no drift in the book: d check it" in shown(app)
        await pilot.press("f4", "enter")
        assert "Stop: this was not expected" in shown(app)
        assert "Joint 1 has no drift in the book." in shown(app)


async def test_joints_that_cannot_be_checked_are_told_beside_the_field(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        for typed in (*HOSTILE[:4], "1-99999999", "A1-B7", ""):
            await fill(pilot, numbers=typed)
            if not isinstance(app.screen, Form):
                assert "There is no item" in shown(app), typed
                await pilot.press("d")
            else:
                assert list(faults(app)) == ["numbers"], typed
    assert len(running.entries) == 96


async def test_a_bundle_is_counted_against_its_note_and_the_book(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("b")
        await fill(pilot, bundle="T1", noted="103", counted="102", numbers="1-102")
        assert "T1: 103 by the delivery note, 102 counted: -1." in shown(app)
        await fill(pilot, reason="2")
        assert "saved 03:12 T1: 102 joints counted, 103 by the note" in shown(app)
        await pilot.press("t")
        assert "T1 103 102 102" in shown(app)
        assert "all 103 102 205" in shown(app)
    assert isinstance(running.entries[-1], BundleCounted)
    assert running.job.open_exceptions()[-1].what.startswith("Received: T1: 103 by the delivery")


async def test_a_bundle_without_a_note_or_numbers_is_counted(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("b")
        assert offered(app)["bundle"] == "1"
        await fill(pilot, counted="4.1")
        assert "not a whole number" in faults(app)["counted"]
        await fill(pilot, counted="41")
    assert (running.job.bundles["1"].noted, running.job.bundles["1"].counted) == (None, 41)


async def test_the_equipment_list_is_shown_and_noted_in(make_book):
    story = Story()
    things = (Equipment(name="spider", supplier="casing crew"), Equipment(name="crossover"))
    story.starts(setup(equipment=things), 5)
    book = make_book(story.entries)
    app = app_on(book, "rack")
    async with app.run_test() as pilot:
        await pilot.press("q")
        assert "0 of 2 here and checked" in shown(app)
        assert "spider casing crew - -" in shown(app)
        await pilot.press("n")
        assert offered(app)["name"] == "spider"
        await fill(pilot, name="1", note="250 t")
        assert "1 of 2 here and checked" in shown(app)
        assert "spider casing crew yes yes 03:12" in shown(app)
        assert "Ama Osei: 250 t" in shown(app)
        await pilot.press("n")
        assert offered(app)["name"] == "crossover"
        await fill(pilot, here="no")
        assert "crossover no no" in shown(app)
        await pilot.press("escape", "t")
        assert "equipment here and checked 1 of 2" in shown(app)
    assert isinstance(book.entries[-1], EquipmentNoted)


async def test_the_totals_say_what_is_needed_and_what_is_spare(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("d")
        await fill(pilot, numbers="88-90")
        await pilot.press("t")
        text = shown(app)
    for told in (
        "to the casing point 4,766.24 ft",
        "length in the list 4,776.04 ft",
        "joints needed 117",
        "joints to spare 0",
        "drift 3 0 114",
        "bow centralizer 23 19 4",
    ):
        assert told in text, told


async def test_joints_set_aside_are_told_apart(running):
    order = tuple(one for one in running.job.order if one not in ("203", "204"))
    entry = OrderSet(
        by=NADIA,
        at=running.job.last,
        order=order,
        aside=("203", "204"),
        reason="for the slips",
        despite="so",
    )
    running.record(entry)
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("2", "0", "3", "enter")
        assert at(app) == "203"
        assert "203 joint 39.71 on rack set aside" in shown(app)
        await pilot.press("t")
        assert "joints set aside 2" in shown(app)


async def test_serial_and_heat_stand_beside_the_joint(make_book):
    story = Story()
    story.starts(setup(), 5)
    one = Arrival(number="6", length=4100, typed="41.00", serial="SN-7", heat="H44")
    story.says(Received, items=(one,))
    app = app_on(make_book(story.entries), "rack")
    async with app.run_test() as pilot:
        await pilot.press("6", "enter")
        assert any("serial SN-7  heat H44" in row for row in rows(app))


async def test_before_the_set_up_the_keys_say_why_nothing_happens(make_book):
    app = app_on(make_book([]), "rack")
    async with app.run_test() as pilot:
        for key in "dbto":
            await pilot.press(key)
            assert "not set up yet" in shown(app), key
        await pilot.press("q")
        assert "nothing is in the list" in shown(app)

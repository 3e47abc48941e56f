"""The set-up of the job, its checklists, its people, notes."""

from dataclasses import replace

import pytest

from tally.job.entries.people import ListTaken, Note, PersonAdded, SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import ItemRun, PulledOut
from tally.job.setup import Filling, Lengths, Limit, Person, Planned, Rule
from tally.steps.model import Checklist, Step, to_fields
from tally.steps.reading import shipped
from tally.units import read
from tests.tally.job.invented import (
    CEMENTING,
    LEAD,
    REP,
    Telling,
    conditioned,
    landed,
    limits,
    pipe,
    pumping,
    running,
    setup,
)


def planned(**changed):
    """Return a collar of the set-up."""
    return replace(Planned(number="C1", kind="collar", length=152, typed="1.52"), **changed)


# Set-up


def test_the_set_up_puts_its_pieces_on_the_rack_and_knows_its_people():
    job = Telling().says(SetUp, setup=setup())
    assert list(job.items) == ["S1", "C1"]
    assert {item.state for item in job.items.values()} == {"on rack"}
    assert job.people[REP].role == "company representative"
    assert job.order[:4] == ("S1", "1", "2", "C1")
    assert job.received == 0


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"pipes": ()}, "The set-up names no pipe; volumes need at least one."),
        (
            {"pipes": (pipe(), pipe(inner="8.535 in"))},
            "The pipe 9-5/8 47 stands twice in the set-up; give each a name of its own.",
        ),
        (
            {"items": (planned(), planned(kind="pup"))},
            "Number C1 stands twice in the set-up; a number is used only once.",
        ),
        (
            {"items": (planned(length=0),)},
            "Number C1 has no length; measure it before it is counted in.",
        ),
        (
            {"items": (planned(kind="joint"),)},
            "Number C1 is a joint; joints are counted on location, so put it in the pipe list.",
        ),
        (
            {"items": (planned(pipe="7 29"),)},
            "Number C1 is of the pipe '7 29'; the job has 9-5/8 47.",
        ),
        ({"order": ("S1", "1", "1")}, "The running order names 1 twice; each item goes in once."),
        (
            {"programme": (Rule(what=" ", joints=(1,)),)},
            "A line of the centralizer programme does not say what is installed.",
        ),
        (
            {"programme": (Rule(what="bow", joints=(0, 1)),)},
            "The programme's line for bow counts below 1; joints and pieces are counted from 1.",
        ),
        (
            {"programme": (Rule(what="bow", joints=(1,), count=0),)},
            "The programme's line for bow counts below 1; joints and pieces are counted from 1.",
        ),
        (
            {"people": (Person(name=LEAD, role="driller"), Person(name="ODA linde", role="x"))},
            "ODA linde stands twice among the people; give each person one line and role.",
        ),
        (
            {"people": (Person(name="", role="driller"),)},
            "Somebody in the set-up has no name; type it.",
        ),
        (
            {"filling": Filling(source="the sea")},
            "'the sea' is no source of fill; say active pit or trip tank.",
        ),
        (
            {"pumping": pumping(bottom_plugs=3)},
            "3 bottom plugs is not 0 to 2; say how many the programme has.",
        ),
        (
            {"pumping": pumping(bottom_plugs=-1)},
            "-1 bottom plugs is not 0 to 2; say how many the programme has.",
        ),
        (
            {"lengths": Lengths(stick_up=-1)},
            "The usual stick-up is below nothing; it is measured up from the datum.",
        ),
        (
            {"lengths": Lengths(measured_as="roughly")},
            "Joints are measured as running or overall length, not 'roughly'.",
        ),
    ],
)
def test_a_set_up_that_no_job_can_be_worked_with_is_refused(changed, said):
    assert Telling().refuses(SetUp, setup=setup(**changed)) == said


@pytest.mark.parametrize(
    ("changed", "part"),
    [
        ({"lengths": Lengths(unit="yd")}, "The tally unit: "),
        ({"lengths": Lengths(measured_as="overall")}, "The make-up loss: "),
        ({"pipes": (pipe(inner="9.7 in"),)}, "Pipe 9-5/8 47: "),
        ({"pipes": (pipe(weight="4700 lb/ft"),)}, "Pipe 9-5/8 47: "),
        ({"limits": limits(bump_margin="500")}, "The limit bump_margin: "),
        ({"limits": {"luck": Limit(text="5 psi", owner=REP)}}, "'luck' is no limit of a job;"),
        ({"units": "nautical"}, "The units in which figures are shown: "),
        ({"shown_in": {"volume": "psi"}}, "The units in which figures are shown: "),
    ],
)
def test_what_cannot_be_read_is_named(changed, part):
    assert Telling().refuses(SetUp, setup=setup(**changed)).startswith(part)


def test_a_later_set_up_changes_limits_mud_and_what_is_still_on_the_rack():
    told = running("S1", "1")
    later = setup(
        pumping=pumping(mud_weight=read("10.6 lb/gal", "density")),
        limits=limits(bump_margin="700 psi"),
        items=(setup().items[0], planned(length=160, typed="1.60")),
        people=(Person(name="Nia Roe", role="driller"),),
    )
    job = told.says(SetUp, setup=later)
    assert job.known.pumping.mud_weight.text == "10.6 lb/gal"
    assert job.items["C1"].length == 160
    assert job.items["S1"].state == "run"
    assert {"Nia Roe", REP} <= set(job.people)


def test_a_piece_left_out_later_is_gone_unless_it_was_run():
    told = running("S1")
    job = told.says(SetUp, setup=setup(items=()))
    assert "C1" not in job.items
    assert job.items["S1"].state == "run"


def test_a_piece_pulled_out_again_is_planned_again():
    told = running("S1")
    told.says(PulledOut, number="S1")
    job = told.says(SetUp, setup=setup(items=(replace(setup().items[0], length=210),)))
    assert job.items["S1"].length == 210


def test_a_piece_run_with_another_length_does_not_stop_a_later_set_up():
    told = running()
    told.says(ItemRun, number="S1", length=199, typed="1.99", despite="taped")
    assert told.says(SetUp, setup=setup()).items["S1"].length == 199


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            {"lengths": Lengths(unit="m", stick_up=100)},
            "The tally unit and how joints are measured stay as they were set up.",
        ),
        (
            {"pipes": (pipe(inner="8.535 in"),)},
            "The pipe sizes and whether the pipe runs in closed stay as they were set up; "
            "correct that entry, so that every volume is worked out anew.",
        ),
        (
            {"filling": Filling(closed_end=False)},
            "The pipe sizes and whether the pipe runs in closed stay as they were set up; "
            "correct that entry, so that every volume is worked out anew.",
        ),
        (
            {"items": (replace(setup().items[0], length=210),)},
            "Item S1 is in the book already and is run; correct the entry that it came with.",
        ),
        (
            {"items": (planned(number="7", kind="pup"),)},
            "Item 7 is in the book already and is on rack; correct the entry that it came with.",
        ),
    ],
)
def test_a_later_set_up_changes_nothing_behind_the_back_of_the_book(changed, said):
    assert running("S1").refuses(SetUp, setup=setup(**changed)) == said


def test_the_usual_stick_up_may_change_later():
    changed = Lengths(unit="ft", stick_up=410, stick_up_typed="4.10")
    assert running("S1").says(SetUp, setup=setup(lengths=changed)).known.lengths.stick_up == 410


# Checklists


def a_list(*steps, named="own", **told):
    """Return a short list."""
    made = {"title": "Own list", "page": "plugs", "purpose": "", "caution": "", "source": ""}
    return Checklist(id=named, steps=steps, **{**made, **told})


def step(named="look", **told):
    """Return a step."""
    return Step(id=named, text="Look", who="cementer", **told)


def test_the_shipped_lists_are_taken_as_they_stand():
    job = Telling().starts().takes(*shipped()).job
    assert tuple(job.lists.values()) == shipped()


@pytest.mark.parametrize(
    ("plan", "said"),
    [
        (a_list(named=""), "The checklist has no id; give it one."),
        (
            a_list(step(), step()),
            "Step 'look' of the list 'own': each step needs an id of its own.",
        ),
        (
            a_list(step(after=("later",)), step("later")),
            "Step 'look' of the list 'own': it waits for 'later', which is no step above it.",
        ),
        (
            a_list(step(want="luck")),
            "Step 'look' of the list 'own': it wants 'luck'; it may want none, state, value.",
        ),
        (
            a_list(step(want="state")),
            "Step 'look' of the list 'own': it wants a state and offers none.",
        ),
        (
            a_list(step(want="value", quantity="luck")),
            "Step 'look' of the list 'own': There is no quantity named \"luck\".",
        ),
        (
            a_list(step(want="value", quantity="text")),
            "Step 'look' of the list 'own': its value has no unit.",
        ),
        (
            a_list(step(want="value", quantity="volume", compare="about")),
            "Step 'look' of the list 'own': it compares by 'about'; "
            "it may compare by agrees, at least, at most.",
        ),
    ],
)
def test_a_list_that_cannot_be_worked_is_refused(plan, said):
    assert Telling().starts().refuses(ListTaken, checklist=to_fields(plan)) == said


@pytest.mark.parametrize(
    "fields",
    [{}, {"steps": "none"}, {"steps": [5]}, {**to_fields(a_list()), "colour": "red"}],
)
def test_a_list_that_cannot_be_read_is_refused(fields):
    said = Telling().starts().refuses(ListTaken, checklist=fields)
    assert said.startswith("The checklist cannot be taken: ")


def test_a_list_may_be_taken_anew_until_a_step_of_it_is_entered():
    told = landed()
    told.says(ListTaken, checklist=to_fields(CEMENTING[0]))
    conditioned(told)
    assert told.refuses(ListTaken, checklist=to_fields(CEMENTING[0])) == (
        "Steps of the list 'mud-conditioning' are entered already; it stays as it was taken."
    )


def test_a_gate_is_opened_by_one_list_only():
    plan = a_list(step("bumped", want="state", states=("up", "down"), good=("up",)))
    assert landed().refuses(ListTaken, checklist=to_fields(plan)) == (
        "The list 'plug-release' of this book has the step 'bumped' that opens a gate; "
        "a gate is opened by one list only."
    )


# People and notes


def test_somebody_joins():
    job = running().says(PersonAdded, name="Nia Roe", role="driller")
    assert job.people["Nia Roe"] == Person(name="Nia Roe", role="driller")


@pytest.mark.parametrize(
    ("name", "role", "said"),
    [
        ("", "driller", "Type the person's name."),
        ("   ", "driller", "Type the person's name."),
        ("Nia Roe", "", "Say what Nia Roe does on the job."),
        (REP, "driller", f"{REP} is on the job already, as company representative."),
        ("per  FALK", "driller", f"{REP} is on the job already, as company representative."),
    ],
)
def test_nobody_joins_twice_or_without_a_name(name, role, said):
    assert running().refuses(PersonAdded, name=name, role=role) == said


def test_a_note_is_kept_with_its_number():
    told = running()
    assert told.says(Note, text="tight at 300 ft").notes == ((3, "tight at 300 ft"),)
    assert told.refuses(Note, text="") == "The note is empty; type what happened."
    assert told.refuses(Note, text=" ") == "The note is empty; type what happened."


def test_they_say_what_happened():
    told = Telling()
    assert told.makes(SetUp, setup=setup()).said() == "set up: Heron 3, 9-5/8 in casing"
    assert told.makes(ListTaken, checklist=to_fields(CEMENTING[2])).said() == (
        "checklist taken: Plug loading"
    )
    assert told.makes(ListTaken, checklist={}).said() == "checklist taken: "
    assert told.makes(PersonAdded, name="Nia Roe", role="driller").said() == (
        "Nia Roe joined as driller"
    )
    assert told.makes(Note, text="tight").said() == "note: tight"


def test_items_of_a_known_pipe_are_taken_and_keep_it():
    heavy = pipe("9-5/8 53.5", "8.535 in", "53.5 lb/ft")
    told = Telling().starts(setup(pipes=(pipe(), heavy)), joints=1)
    job = told.says(
        Received, items=(Arrival(number="9", length=4000, typed="40.00", pipe=heavy.name),)
    )
    assert job.items["9"].pipe == "9-5/8 53.5"

"""Somebody new on the job: the roles that can be chosen."""

from dataclasses import replace

from screens.dialogs.people import roles
from tally.job.job import EMPTY
from tally.job.setup import ROLES
from tally.steps.reading import shipped


def test_a_role_that_a_list_of_ones_own_names_can_be_chosen():
    rig_up = next(plan for plan in shipped() if plan.id == "rig-up")
    steps = (replace(rig_up.steps[0], who="night supervisor"), *rig_up.steps[1:])
    own = replace(rig_up, steps=steps)
    assert roles(replace(EMPTY, lists={own.id: own})) == (*ROLES, "night supervisor")
    assert roles(replace(EMPTY, lists={rig_up.id: rig_up})) == ROLES

"""Typed text comes back as that text: no markup, no entity, and nothing that XML cannot hold."""

from __future__ import annotations

from dataclasses import replace
from xml.etree.ElementTree import Element

import pytest
from hypothesis import given as every
from hypothesis import strategies as st

from tally.job.job import Job
from tally.reports.witsml.markup import document, kept
from tests.tally.reports.jobs import HOSTILE
from tests.tally.reports.witsml.documents import (
    Given,
    but,
    cemented,
    cementing,
    found,
    name,
    older_cementing,
    parsed,
    roots,
    run,
    said,
    written,
)
from tests.tally.reports.witsml.order import faults

XML = (
    "<Od>1</Od>",
    "</Tubular><x/>",
    "&amp;&lt;&#60;",
    "&pump;",
    "<![CDATA[x]]>",
    "]]>",
    "<!-- x -->",
    "<?php x ?>",
    '"\'/><x y="',
    "<!DOCTYPE a [<!ENTITY b SYSTEM 'file:///etc/passwd'>]>&b;",
    "\ud800\ufffe",
    "\U0001f6e2\u0301",
)
# XML 1.0 (fifth edition), production 2: what a document may hold; a carriage return is read as
# a line feed (2.11), so it does not stay what it was.
ALLOWED = {0x9, 0xA, *range(0x20, 0xD800), *range(0xE000, 0xFFFE), *range(0x10000, 0x110000)}


def as_read(text: str) -> str:
    """Return how a text is to be found again."""
    return "".join(one if ord(one) in ALLOWED else f"\\u{ord(one):04x}" for one in text)


def stretched(job: Job, text: str) -> Job:
    """Return a cemented job with the text before every name, state and note of it."""
    setup = job.known
    renamed = {one.name: f"{text}{one.name}" for one in setup.fluids}
    setup = replace(
        setup,
        fluids=tuple(replace(one, name=renamed[one.name]) for one in setup.fluids),
        additives=tuple(replace(one, fluid=renamed[one.fluid]) for one in setup.additives),
        well=replace(setup.well, name=f"{text}well", string=f"{text}string"),
    )
    return replace(
        job,
        setup=setup,
        steps={
            key: replace(one, state=one.state and f"{text}{one.state}")
            for key, one in job.steps.items()
        },
        mixing=tuple(replace(one, fluid=renamed.get(one.fluid, "")) for one in job.mixing),
        at_surface=tuple(replace(one, what=f"{text}{one.what}") for one in job.at_surface),
    )


def cemented_with(text: str) -> Given:
    """Return the demonstration with the text in every field of the cementing."""
    made = cemented()
    people = tuple(replace(one, name=f"{text}{one.name}") for one in made.tally.people)
    named = replace(made, tally=replace(made.tally, people=people))
    return but(named, stretched(made.tally.job, text))


@pytest.mark.parametrize("text", [*HOSTILE, *XML])
def test_text_in_every_field_of_the_string_comes_back(text: str) -> None:
    made = run(text)
    for root in roots(made).values():
        assert faults(root) == []
        assert [one for one in root.iter() if not isinstance(one.tag, str)] == []
        texts = list(said(root))
        for typed in ("Well", "string", "bow centralizer", "float shoe"):
            whole = as_read(f"{text}{typed}")
            assert any(whole[:29] in one for one in texts), typed
    root = roots(made)["tubular"]
    numbers = [one[1].text for one in found(root, "TubularComponent", "ExtensionNameValue")]
    for row in made.tally.rows:
        assert as_read(row.number) in numbers
    grades = {one.text for one in found(root, "TubularComponent", "Grade")}
    whole = as_read(f"{text}grade")
    assert grades == {whole if len(whole) <= 64 else f"{whole[:61]}..."}


@pytest.mark.parametrize("text", ["<b>&amp;]]></b>", "\x1b[31m\u202e", "w" * 90])
def test_text_in_every_field_of_the_cementing_comes_back(text: str) -> None:
    made = {
        "cement-job": cementing(cemented_with(text)),
        "cement-jobs": older_cementing(cemented_with(text)),
    }
    for end, longest, path in (
        ("cement-job", 64, ("CementingFluid", "DescFluid")),
        ("cement-jobs", 64, ("cementingFluid", "descFluid")),
        ("cement-job", 64, ("JobReport", "CementEngr")),
        ("cement-jobs", 32, ("cementJob", "cementEngr")),
    ):
        assert faults(made[end]) == []
        wanted = "lead" if path[-1].casefold() == "descfluid" else "Ivo Marek"
        whole = as_read(f"{text}{wanted}")
        cut = whole if len(whole) <= longest else f"{whole[: longest - 3]}..."
        assert cut in [one.text for one in found(made[end], *path)], path
    states = list(said(made["cement-job"]))
    assert as_read(f"{text}rose sharply and stands") in states
    assert not found(made["cement-job"], "PlugBumped")


@every(st.text())
def test_any_text_is_read_back_as_it_is_kept(text: str) -> None:
    root = Element("a")
    root.text = kept(text, 1000)
    assert (parsed(document(root, ["b"])).text or "") == as_read(text)[:1000]


def test_a_comment_takes_no_two_hyphens() -> None:
    with pytest.raises(ValueError, match="two hyphens"):
        document(Element("a"), ["b -- c"])


def test_no_comment_holds_anything_typed() -> None:
    text = written(run("typed by somebody "))
    for content in text.values():
        comment = content.decode().partition("-->")[0]
        assert "typed" not in comment
        assert name(parsed(content)) in content.decode()

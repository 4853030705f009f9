"""Every step with whatever can be sent to it: no 500, nothing lost, nothing kept half."""

import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from intake import models
from intake.sharing_form import SharingForm
from intake.steps import BY_SLUG
from tests.asked import EACH, ask, box
from tests.intake.test_steps import ODD, ODDER, SLUGS, address, everything
from tests.page import fields

WORDS = {  # the text of a row by which it is found again
    "partners": "name", "days": "title", "moments": "title", "places": "note", "helpers": "name",
    "contacts": "role", "suppliers": "name", "groups": "title", "musthaves": "text",
    "carenotes": "note",
}  # fmt: skip
SINGLE = {  # boxes that stand once on a page
    "sharing": [f"sharing-{name}" for name in SharingForm.base_fields],
    "two-of-you": ["wedding-matters", "wedding-was"],
    "care": ["wedding-anything_else", "own-was"],
}
CONTROL = st.text(st.characters(categories=["Cc", "Cf", "Co", "Cn", "Zl", "Zp"]), max_size=6)
LONG = st.sampled_from(["x" * 100_000, "ż\r\n" * 30_000, "🙂" * 50_000])
TEXT = st.one_of(st.text(max_size=20), st.sampled_from(ODD + ODDER), CONTROL)
COUNTS = st.sampled_from(["", "0", "-1", "1", "3", "999", "9" * 40, "x", "\0", "٣"])
DO = ["save", "draft", "save", "draft", "add-", "", "nothing"]


@st.composite
def posts(draw, slug, own=()):
    """What is posted to a step: some rows, perhaps one key twice, odd values and wrong counts.

    `own` are the boxes of the studio's own questions, the last one for a long text.
    """
    step, post, marks = BY_SLUG[slug], {}, []
    for name in draw(st.lists(st.sampled_from([*SINGLE.get(slug, []), *own, ""]), max_size=3)):
        post[name] = draw(TEXT)
    if own and draw(st.booleans()):
        marks.append((own[-1], "mark0q"))
        post[own[-1]] = "mark0q" + draw(TEXT)
    for part in (part for part in step.parts if part.rows):
        for number in draw(st.lists(st.integers(0, 12), max_size=3)):
            row, key = (
                f"{part.prefix}-{number}-",
                draw(st.sampled_from(["a", "b", "", "../", "\0"])),
            )
            names = [n for n in part.form.base_fields if n not in ("key", "was")]
            post |= {
                row + n: draw(TEXT) for n in draw(st.lists(st.sampled_from(names), max_size=3))
            }
            mark = f"mark{len(marks)}q"
            post |= {row + "key": key, row + WORDS[part.prefix]: mark + draw(TEXT)}
            marks.append((row + WORDS[part.prefix], mark))
        counts = ("TOTAL_FORMS", "INITIAL_FORMS", "MAX_NUM_FORMS")
        post |= {f"{part.prefix}-{c}": draw(COUNTS) for c in draw(st.sets(st.sampled_from(counts)))}
    part = draw(st.sampled_from([part for part in step.parts if part.add] or step.parts))
    do = draw(st.sampled_from([do for do in DO if part.add or do != "add-"]))
    post["do"] = do + (part.prefix if do == "add-" else "")
    marks = [mark for name, mark in marks if str(post.get(name, "")).startswith(mark)]
    return post | {n: draw(TEXT) for n in draw(st.sets(st.sampled_from(["sheet", "turn"])))}, marks


def sent_whole_or_not_at_all(couple, slug, post, marks):
    before = everything()
    response = couple.post(address(slug), post)
    assert response.status_code in (200, 302)
    is_save = post["do"] not in ("draft",) and not post["do"].startswith("add-")
    if response.status_code == 200 or not is_save:
        assert everything() == before
    there = everything(models.StepState)
    for mark in marks:
        assert mark in there
    for again in (address(slug), "/q/thora-lukasz/", "/q/thora-lukasz/read-through"):
        assert couple.get(again).status_code == 200


def tried(couple, wedding, slug, data):
    with transaction.atomic():
        own = [box(ask(kind=kind, step=slug)) for kind in sorted(EACH, key=lambda k: k == "long")]
        first = fields(couple, address(slug)) if data.draw(st.booleans()) else {}
        post, marks = data.draw(posts(slug, own))
        sent_whole_or_not_at_all(couple, slug, first | post, marks)
        put_away = data.draw(st.sampled_from(["hidden", "removed", "needed"]))
        models.Question.objects.update(**{put_away: True})  # while the page is open
        post, marks = data.draw(posts(slug, own))  # and once more, onto what that left
        sent_whole_or_not_at_all(couple, slug, post, marks)
        assert wedding.partners.count() == 2
        transaction.set_rollback(True)


QUICK = settings(
    max_examples=8,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
each_step = pytest.mark.parametrize("slug", [*SLUGS, "more"])


@each_step
@QUICK
@given(data=st.data())
def test_whatever_is_sent_is_kept_whole_or_not_at_all(wedding, couple, slug, data):
    tried(couple, wedding, slug, data)


@pytest.mark.large
@each_step
@settings(QUICK, max_examples=400)
@given(data=st.data())
def test_whatever_is_sent_is_kept_whole_or_not_at_all_at_length(wedding, couple, slug, data):
    tried(couple, wedding, slug, data)


@each_step
@settings(QUICK, max_examples=3)
@given(long=LONG)
def test_a_hundred_thousand_characters_in_every_box_are_kept_as_a_draft(
    wedding, couple, slug, long
):
    with transaction.atomic():
        before = everything()
        own = box(ask(kind="long", step=slug))
        page = fields(couple, address(slug))
        prefix = next((part.prefix for part in BY_SLUG[slug].parts if part.rows), None)
        name = f"{prefix}-0-{WORDS[prefix]}" if prefix else own
        response = couple.post(address(slug), page | {name: long})
        assert response.status_code == 200
        assert everything() == before
        kept = fields(couple, address(slug))[name][0]
        assert kept.replace("\r\n", "\n") == long.replace("\r\n", "\n")
        transaction.set_rollback(True)

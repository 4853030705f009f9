"""Boxes for the studio's own questions, without a database."""

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from hypothesis import given
from hypothesis import strategies as st

from intake.models import Question
from intake.own_fields import (
    FEW,
    MAKERS,
    NumberField,
    field_for,
    from_stored,
    offered,
    plain_number,
    to_stored,
)

READ = {"12": "12", "12.5": "12.5", "12,50": "12.5", " 1 200 ": "1200", "-3": "-3", "0": "0"}


def question(kind, *choices):
    return Question(text="100 % sure?", kind=kind, choices="\n".join(choices))


@pytest.mark.parametrize(("typed", "figures"), READ.items())
def test_numbers_are_read_as_people_write_them(typed, figures):
    assert to_stored(NumberField(required=False).clean(typed)) == figures


@pytest.mark.parametrize("typed", ["1,000", "twelve", "1.2.3", "nan", "inf", "1e400", "9" * 400])
def test_what_may_be_two_numbers_or_none_is_refused(typed):
    with pytest.raises(ValidationError):
        NumberField(required=False).clean(typed)


@given(st.decimals(allow_nan=False, allow_infinity=False, places=3, min_value=-999, max_value=999))
def test_a_number_is_the_same_after_a_trip_through_the_database(number):
    assert from_stored("number", to_stored(number)) == number
    assert plain_number(Decimal(plain_number(number))) == plain_number(number)


def test_every_kind_but_a_file_has_a_box():
    assert set(MAKERS) == set(Question.Kind) - {Question.Kind.FILE}
    for kind in MAKERS:
        field = field_for(question(kind, "a", "b"), from_stored(kind, ""))
        assert field.label == "100 % sure?"
        assert not field.required


def test_many_choices_fold_up():
    few = field_for(question("one", *"abcdefg"), "")
    many = field_for(question("one", *"abcdefgh"), "")
    assert (len("abcdefg"), len(few.choices)) == (FEW, FEW + 1)
    assert (few.widget.input_type, many.widget.input_type) == ("radio", "select")


def test_a_choice_that_left_the_list_stays_for_whoever_chose_it():
    assert offered(question("one", "Fish", "Beans"), ["Lamb"]) == ["Fish", "Beans", "Lamb"]
    assert field_for(question("one", "Fish", "Beans"), "Lamb").clean("Lamb") == "Lamb"
    with pytest.raises(ValidationError):
        field_for(question("one", "Fish", "Beans"), "").clean("Lamb")

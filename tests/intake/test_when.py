"""Dates and times as people write them, and what they are told when none can be read."""

from datetime import date, time

import pytest
from django import forms

from intake.when import DateField, TimeField


@pytest.mark.parametrize(
    "text",
    ["4th March 2027", "Thu 4 Mar 2027", "Thursday, 4 March 2027", "March 4, 2027", "4.3.2027",
     "4.3.27", "04-03-2027", "2027-03-04", "4/3/2027", "the 4th of March 2027"],
)  # fmt: skip
def test_a_date_is_read_however_it_is_written(text):
    assert DateField().clean(text) == date(2027, 3, 4)


def test_sept_is_september():
    assert DateField().clean("4 Sept 2027") == date(2027, 9, 4)


@pytest.mark.parametrize("text", ["30 February 2027", "31.6.2027", "2027-06-31", "soon", "12"])
def test_a_date_that_does_not_exist_is_told_and_what_was_typed_stays(text):
    with pytest.raises(forms.ValidationError, match="Enter a date that exists"):
        DateField().clean(text)


def test_a_kept_date_comes_back_with_its_weekday():
    assert 'value="Saturday 12 June 2027"' in DateField().widget.render("date", date(2027, 6, 12))


@pytest.mark.parametrize(
    "text", ["14:30", "14.30", "2:30 pm", "2:30 p.m.", "2.30PM", "1430", " 14:30 "]
)
def test_a_time_is_read_however_it_is_written(text):
    assert TimeField().clean(text) == time(14, 30)


@pytest.mark.parametrize(("text", "hour"), [("noon", 12), ("midnight", 0), ("14", 14), ("2pm", 14)])
def test_a_whole_hour_may_be_a_word_or_a_figure(text, hour):
    assert TimeField().clean(text) == time(hour)


@pytest.mark.parametrize("text", ["25:00", "later", "14:6x"])
def test_a_time_that_cannot_be_read_is_told(text):
    with pytest.raises(forms.ValidationError, match="Enter a time like"):
        TimeField().clean(text)

"""How many groups and how long, in words of every language; the live count has the same words."""

import json

import pytest
from django.conf import settings
from django.template import Context, Template
from django.utils.translation import override

from intake.templatetags.group_count import CROWDED, group_words, said, too_many
from studio.models import Studio
from studio.words import how_long

LANGUAGES = [code for code, _name in settings.LANGUAGES]


def shown(sizes):
    text = "{% load group_count %}{% group_count sizes crowded=True %}"
    return Template(text).render(Context({"sizes": sizes, "studio": Studio(name="S")}))


def test_one_group_is_one_and_two_are_two():
    assert shown([1]) == "1 group, about 3 minutes"
    assert shown([1, 1]) == "2 groups, about 6 minutes in all, and the walking in between"


def test_a_word_is_said_when_there_are_more_than_a_day_holds():
    assert "more than most days" not in shown([1] * CROWDED)
    assert "more than most days" in shown([1] * (CROWDED + 1))


@pytest.mark.parametrize(
    ("count", "words"),
    [(1, "1 grupa, mniej więcej 1 minuta"), (22, "22 grupy, razem mniej więcej 22 minuty, "),
     (12, "12 grup, razem mniej więcej 12 minut, "), (5, "5 grup, razem mniej więcej 5 minut, ")],
)  # fmt: skip
def test_polish_counts_in_its_three_ways(count, words):
    with override("pl"):
        assert said(count, how_long(count)).startswith(words)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_live_count_is_given_the_servers_own_words(language):
    with override(language):
        html = Template("<p{{ a }}>").render(Context({"a": group_words()}))
        for number in (1, 2, 5):
            assert said(number, "{time}", shown="{n}").replace("'", "&#x27;") in html
        assert too_many("{told}") in html
    assert html.count("data-") == 4


def test_the_words_are_json_that_a_browser_can_read():
    html = str(group_words())
    minutes = html.split('data-minutes="')[1].split('"')[0].replace("&quot;", '"')
    assert json.loads(minutes) == {"1": "{n} minute", "2": "{n} minutes", "5": "{n} minutes"}

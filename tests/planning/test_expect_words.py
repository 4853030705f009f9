"""What nobody can promise, in our words or the studio's."""

import pytest

from planning.expect_words import CANNOT, cannot_promise, spoken_by, sure_words
from studio.models import Studio
from tests.page import fields

from .agreed import said_now


def test_our_words_stand_until_the_studio_writes_its_own():
    assert cannot_promise(Studio(name="S")) == CANNOT
    assert not spoken_by(Studio(name="S")).own
    own = spoken_by(Studio(name="S", cannot_promise="No drones with us."))
    assert (own.text, own.own) == ("No drones with us.", True)


def test_the_usual_cautions_defer_to_local_rules():
    cautions = " ".join(spoken_by(Studio(name="S")).cautions)
    for danger in ("heat", "Sparklers", "smoke", "road", "water", "drone", "Local rules"):
        assert danger in cautions


def test_the_studio_page_offers_our_words_and_keeps_only_others(photographer, timed):
    sent = fields(photographer, "/studio") | {"name": "Marigold Lane"}
    assert sent["cannot_promise"] == [str(CANNOT)]
    photographer.post("/studio", sent)
    assert Studio.get().cannot_promise == ""
    photographer.post("/studio", sent | {"cannot_promise": "No drones\r\nwith us."})
    assert said_now(timed).spoken.text == "No drones\nwith us."
    photographer.post("/studio", sent | {"cannot_promise": ""})
    assert not said_now(timed).spoken.own


@pytest.mark.parametrize(
    ("step", "words"),
    [
        (99, "as good as always"),
        (95, "on at least 95 days of 100"),
        (50, "on at least 50 days of 100"),
        (25, "less often than not"),
        (0, "hardly ever"),
    ],
)
def test_a_chance_is_said_in_words_and_never_as_certain(step, words):
    assert sure_words(step) == words

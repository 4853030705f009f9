"""Answers as plain lines: every one is there, in words, and nothing that was not said."""

from datetime import date, time

from intake.models import CareNote, Contact, Day, Group, Moment, MustHave, Place, Wedding
from intake.read_through import read_steps


def rows(wedding, slug):
    """The rows of one step: (heading, {label: words})."""
    parts = next(parts for step, parts in read_steps(wedding) if step.slug == slug)
    return [(row.heading, dict(row.lines)) for part in parts for row in part.rows]


def test_an_empty_wedding_reads_as_nothing(db):
    assert all(not part.rows for _, parts in read_steps(Wedding.objects.create()) for part in parts)


def test_names_are_a_heading_and_are_not_said_twice(wedding):
    assert rows(wedding, "two-of-you")[0] == ("Þóra Sigurðardóttir", {})
    wedding.partners.update(called="Þóra", word="bride", phone="07700 900111")
    assert rows(wedding, "two-of-you")[0][1] == {
        "What you are called": "Þóra",
        "What we should call you": "bride",
        "Mobile phone": "07700 900111 (+44 7700 900111)",
    }


def test_times_are_said_with_where_and_with_which_day_only_if_there_are_two(wedding):
    place = Place.objects.create(wedding=wedding, name="Mill", key="m")
    day = wedding.days.get()
    Moment.objects.create(
        wedding=wedding, kind="ceremony", at=time(14, 5), day=day, place=place, key="a"
    )
    Moment.objects.create(
        wedding=wedding, kind="other", title="Balloons", unknown=True, day=day, key="b"
    )
    _date, ceremony, balloons = rows(wedding, "day")
    assert ceremony == ("Ceremony", {"Time": "14:05", "Where": "Mill"})
    assert balloons == ("Balloons", {"What": "Something else", "We do not know yet": "yes"})
    Day.objects.create(wedding=wedding, date=date(2027, 6, 13), key="d2")
    assert dict(rows(wedding, "day"))["Ceremony"]["Which day"] == "Saturday 12 June 2027"


def test_midnight_is_a_time(wedding):
    Moment.objects.create(wedding=wedding, kind="end", at=time(0, 0))
    assert rows(wedding, "day")[-1] == ("The end", {"Time": "00:00"})


def test_places_say_what_happens_there_in_words(wedding):
    Place.objects.create(wedding=wedding, name="Mill", uses=["ceremony", "meal"], key="m")
    ((heading, lines),) = rows(wedding, "places")
    assert (heading, lines) == ("Mill", {"What happens there": "Ceremony, Drinks and meal"})


def test_people_stand_in_their_own_lists(wedding):
    Contact.objects.create(wedding=wedding, listed_as="helper", name="Šimon", side="first", key="h")
    Contact.objects.create(
        wedding=wedding, listed_as="supplier", name="Ada", role="Flowers", key="s"
    )
    helper, supplier = rows(wedding, "people")
    assert helper == ("Šimon", {"Whose faces they know": "Þóra’s side"})
    assert supplier == ("Ada", {"What they do": "Flowers"})


def test_a_group_says_who_how_many_more_and_how_much_it_matters(wedding):
    Group.objects.create(
        wedding=wedding, title="All", people="Ödön\nنعمة", extra=80, wish="nice", key="g"
    )
    assert rows(wedding, "groups") == [
        (
            "All",
            {
                "People, one name a line": "Ödön, نعمة",
                "And how many more nobody needs to name": "80",
                "How much it matters": "nice to have",
            },
        )
    ]


def test_photographs_and_care_are_said_in_words(wedding):
    MustHave.objects.create(wedding=wedding, text="The watch", kind="getting_ready", key="m")
    CareNote.objects.create(wedding=wedding, person="Ada", kind="apart", other="Bo", key="c")
    wedding.anything_else = "The goat bites."
    wedding.save()
    assert rows(wedding, "photographs") == [("The watch", {"When": "Getting ready"})]
    assert rows(wedding, "care") == [
        ("Ada", {"What we should know": "must not share a frame with", "With whom": "Bo"}),
        ("", {"Anything else we should know": "The goat bites."}),
    ]

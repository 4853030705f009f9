"""Leaving a step without keeping it: the typing is there on return, and is never sent unseen."""

from intake.links import link_path

STEP = "/q/thora-lukasz/step/photographs"
SEND = "/q/thora-lukasz/read-through"
TYPED = {"musthaves-TOTAL_FORMS": "1", "musthaves-INITIAL_FORMS": "0", "musthaves-0-text": "Watch"}


def leave(couple):
    return couple.post(STEP, TYPED | {"do": "draft"})


def test_what_the_page_sends_when_it_is_left_is_there_on_return(couple):
    assert leave(couple).json() == {"draft": True}
    page = couple.get(STEP).content.decode()
    assert "Watch" in page
    assert "not kept yet" in page


def test_typing_can_be_thrown_away(couple, wedding):
    leave(couple)
    assert couple.post(STEP, TYPED | {"do": "forget"}).status_code == 302
    assert "Watch" not in couple.get(STEP).content.decode()
    assert not wedding.musthaves.exists()


def test_nothing_is_sent_while_a_step_holds_typing_that_is_not_kept(couple, wedding):
    leave(couple)
    page = couple.post(SEND).content.decode()
    wedding.refresh_from_db()
    assert wedding.sent_at is None
    assert "Nothing was sent" in page
    assert "<title>Error: " in page
    assert f"{STEP}?from=read-through" in page
    couple.post(STEP, TYPED | {"do": "save"})
    couple.post(SEND)
    wedding.refresh_from_db()
    assert wedding.sent_at is not None


def test_a_cut_off_link_opens_the_list_for_who_is_in_already(couple, client, wedding):
    cut = link_path(wedding)[:-5]
    assert couple.get(cut).url == "/q/thora-lukasz/"
    assert client.get(cut).status_code == 404


def test_the_full_stop_that_a_mail_puts_behind_a_link_is_no_part_of_it(client, wedding):
    assert client.get(link_path(wedding) + ".").status_code == 302


def test_a_time_without_its_day_and_a_day_twice_are_missing(couple, wedding):
    from intake.models import Day, Moment, StepState
    from intake.progress import progress

    day = wedding.days.get()
    Day.objects.create(wedding=wedding, date=day.date)
    Moment.objects.create(wedding=wedding, kind="meal", unknown=True)
    StepState.objects.create(wedding=wedding, slug="day", saved_at=wedding.created_at)
    says = next(each.missing for each in progress(wedding) if each.step.slug == "day")
    assert "Which day: Meal" in says
    assert "Two days have the same date" in says


def test_a_forged_row_number_costs_one_row(couple):
    page = couple.post("/q/thora-lukasz/step/groups", {"groups-9999-title": "1"})
    assert page.status_code == 200
    assert page.content.count(b'class="row"') == 2  # the row, and the template of the next


def test_a_form_in_an_encoding_that_nobody_uses_is_refused_calmly(couple):
    kind = "application/x-www-form-urlencoded; charset=utf-7"
    answer = couple.generic("POST", STEP, "musthaves-0-text=Watch", content_type=kind)
    assert answer.status_code == 400
    assert b"could not be read" in answer.content

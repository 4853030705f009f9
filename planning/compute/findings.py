"""What the photographer should know: one function per check, each silent when all is well."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from . import check_answers as answers
from . import check_bag as bag
from . import check_care as care
from . import check_groups as groups
from . import check_light as light
from . import check_sharing as sharing
from . import check_times as times
from .planned import Finding, Plan

CHECKS: tuple[Callable[[Plan], Iterator[Finding]], ...] = (
    answers.taken_out,
    times.nothing_holds_the_day,
    answers.ceremony_time,
    answers.ceremony_place,
    times.outside_its_day,
    times.beyond_booked_hours,
    answers.day_of_moment,
    times.clock_change,
    times.does_not_fit,
    times.groups_longer_than_gap,
    care.changed_since_settled,
    care.couple_at_once,
    care.second_does_not_fit,
    groups.apart_in_one_frame,
    groups.not_to_be_photographed,
    groups.apart_with_everybody,
    groups.shy_with_everybody,
    answers.way_to_reach,
    answers.helper_for_groups,
    answers.wet_plan,
    answers.place_on_map,
    answers.own_question,
    sharing.online_sharing,
    sharing.children_shown,
    answers.unread_phone,
    times.where_it_starts,
    times.unknown_drives,
    times.not_in_the_timeline,
    times.no_time_left,
    times.in_the_dark,
    care.risky,
    care.long_day,
    care.no_break,
    care.tired_drive,
    care.short_night,
    light.sunset_before_portraits,
    light.harsh_portraits,
    light.groups_face_the_sun,
    light.ceremony_back_lit,
    light.golden_behind_skyline,
    light.no_night,
    groups.many_groups,
    groups.twice_in_one_group,
    groups.two_spellings,
    groups.spellings_counted_as_one,
    bag.bag_lacks,
    bag.bag_fails,
    bag.bag_unknown,
    bag.copying_is_long,
)


def find_all(plan: Plan) -> Iterator[Finding]:
    for check in CHECKS:
        yield from check(plan)

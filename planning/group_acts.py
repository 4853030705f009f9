"""What the photographer can do to the order of the groups: each act one function, one sentence."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext as _

from intake.models import Group, Wedding
from intake.names import split_names
from studio.in_turn import in_turn

from .brief import load_brief
from .compute.people import person_key
from .compute.sequence import choose_order
from .models import Decisions, GroupDecision, GroupRule, OrderBy, Presence, SamePerson


class ActError(Exception):
    """What was asked cannot be done; the message says why."""


@in_turn()
def act(wedding: Wedding, data: QueryDict) -> str:
    """Do what the pressed button says ("up:KEY") and tell it in one sentence."""
    verb, _colon, rest = data.get("do", "").partition(":")
    if verb not in ACTS:
        raise ActError(_("Nothing was changed."))
    if verb != "minutes":  # typed in the same form, whatever button was pressed
        keep_minutes(wedding, "", data)
    return ACTS[verb](wedding, rest, data)


def _group(wedding: Wedding, key: str) -> Group:
    group = wedding.groups.filter(key=key).first()
    if group is None:
        raise ActError(_("That group is no longer in the list."))
    return group


def _decide(wedding: Wedding, **values: object) -> None:
    Decisions.objects.update_or_create(wedding=wedding, defaults=values)


def _move(wedding: Wedding, key: str, to: Callable[[int], int]) -> str:
    group = _group(wedding, key)
    keys = list(choose_order(load_brief(wedding)).keys)
    if key not in keys:
        raise ActError(_("“%(group)s” is left out: put it back first.") % {"group": group})
    place = max(0, min(to(keys.index(key)), len(keys) - 1))
    if place == keys.index(key):
        values = {"group": group, "place": place + 1, "all": len(keys)}
        return _("“%(group)s” stays number %(place)s of %(all)s.") % values
    keys.remove(key)
    keys.insert(place, key)
    wedding.group_rules.filter(kind__in=["first", "last"], one=group).delete()  # now by hand
    _decide(wedding, hand_order=keys, order_by=OrderBy.HAND)
    place = choose_order(load_brief(wedding)).keys.index(key)  # others may be pinned
    values = {"group": group, "place": place + 1, "all": len(keys)}
    return _("“%(group)s” is now number %(place)s of %(all)s.") % values


def move_up(wedding: Wedding, key: str, data: QueryDict) -> str:
    return _move(wedding, key, lambda place: place - 1)


def move_down(wedding: Wedding, key: str, data: QueryDict) -> str:
    return _move(wedding, key, lambda place: place + 1)


def move_to(wedding: Wedding, rest: str, data: QueryDict) -> str:
    key, _colon, place = rest.rpartition(":")
    if not (place.isascii() and place.isdigit() and len(place) < 6):
        raise ActError(_("Nothing was changed."))
    return _move(wedding, key, lambda _now: int(place) - 1)


def _leave(wedding: Wedding, key: str, left_out: bool) -> Group:
    group = _group(wedding, key)
    GroupDecision.objects.update_or_create(group=group, defaults={"left_out": left_out})
    return group


def leave_out(wedding: Wedding, key: str, data: QueryDict) -> str:
    return _("“%(group)s” is left out.") % {"group": _leave(wedding, key, True)}


def put_back(wedding: Wedding, key: str, data: QueryDict) -> str:
    return _("“%(group)s” is back in the list.") % {"group": _leave(wedding, key, False)}


def order_by(wedding: Wedding, by: str, data: QueryDict) -> str:
    if by not in OrderBy.values:
        raise ActError(_("Nothing was changed."))
    _decide(wedding, order_by=by)
    return _("The order is now: %(order)s.") % {"order": OrderBy(by).label}


def set_presence(wedding: Wedding, presence: str, data: QueryDict) -> str:
    if presence not in Presence.values:
        raise ActError(_("Nothing was changed."))
    _decide(wedding, presence=presence)
    return _("Guests: %(presence)s.") % {"presence": Presence(presence).label}


def nice_last(wedding: Wedding, answer: str, data: QueryDict) -> str:
    _decide(wedding, nice_last=answer == "yes")
    if answer == "yes":
        return _("Rule set: groups “if there is time” come last.")
    return _("The rule is gone.")


def pin(wedding: Wedding, rest: str, data: QueryDict) -> str:
    """First or last: a rule, so that the best order keeps it too."""
    kind, _colon, key = rest.partition(":")
    group = _group(wedding, key)
    if kind not in {"first", "last"}:
        raise ActError(_("Nothing was changed."))
    wedding.group_rules.filter(kind__in=["first", "last"], one=group).delete()
    others = wedding.group_rules.filter(kind=kind)
    instead = [_("“%(group)s” no longer does.") % {"group": rule.one} for rule in others]
    others.delete()
    rule = GroupRule.objects.create(wedding=wedding, kind=kind, one=group)
    return " ".join([_("Rule set: %(rule)s.") % {"rule": rule}, *instead])


def add_rule(wedding: Wedding, rest: str, data: QueryDict) -> str:
    form = RuleForm(data, wedding=wedding)
    if not form.is_valid():
        raise ActError(" ".join(m for found in form.errors.values() for m in found))
    rule, _made = GroupRule.objects.get_or_create(wedding=wedding, **form.cleaned_data)
    words = _("Rule set: %(rule)s.") % {"rule": rule}
    if choose_order(load_brief(wedding)).by == OrderBy.BEST:
        return words
    return words + " " + _("It holds in the best order, not in the one you look at.")


def drop_rule(wedding: Wedding, number: str, data: QueryDict) -> str:
    if number.isascii() and number.isdigit() and len(number) < 18:
        wedding.group_rules.filter(pk=int(number)).delete()
    return _("The rule is gone.")


def keep_minutes(wedding: Wedding, rest: str, data: QueryDict) -> str:
    """The photographer's own minutes; an empty field is the studio's figure again."""
    field = forms.DecimalField(
        required=False, min_value=Decimal("0.5"), max_value=120, max_digits=4, decimal_places=1
    )
    typed, told = typed_minutes(data), []
    for group in wedding.groups.filter(key__in=typed).select_related("decision"):
        try:
            minutes = field.clean(typed[group.key].replace(",", "."))
        except forms.ValidationError:
            words = _("“%(group)s”: minutes from 0.5 to 120, like 3.5. Nothing was changed.")
            raise ActError(words % {"group": group}) from None
        decision = getattr(group, "decision", None) or GroupDecision(group=group)
        if decision.minutes != minutes:
            decision.minutes = minutes
            decision.save()
            told.append(_took(group, minutes))
    return " ".join(told) or _("The minutes are as they were.")


def _took(group: Group, minutes: Decimal | None) -> str:
    if minutes is None:
        return _("“%(group)s” takes the studio’s minutes again.") % {"group": group}
    values = {"group": group, "minutes": f"{minutes:f}"}
    return _("“%(group)s” takes %(minutes)s minutes.") % values


def typed_minutes(data: Mapping[str, str]) -> dict[str, str]:
    """What stands in the boxes for minutes, by group; an older page may not have all of them."""
    start = "minutes-"
    return {name.removeprefix(start): data[name] for name in data if name.startswith(start)}


def _pair(wedding: Wedding, data: QueryDict, is_same: bool) -> dict[str, str]:
    names = {"name": data.get("name", "")[:120], "other": data.get("other", "")[:120]}
    wedding.same_people.filter(**names).delete()
    SamePerson.objects.create(wedding=wedding, is_same=is_same, **names)
    return names


def join(wedding: Wedding, rest: str, data: QueryDict) -> str:
    names = _pair(wedding, data, is_same=True)
    return _("“%(name)s” and “%(other)s” count as one person.") % names


def two_people(wedding: Wedding, rest: str, data: QueryDict) -> str:
    names = _pair(wedding, data, is_same=False)
    return _("“%(name)s” and “%(other)s” are two people.") % names


def forget_pair(wedding: Wedding, rest: str, data: QueryDict) -> str:
    """Neither one nor two: the question is open again."""
    names = {"name": data.get("name", "")[:120], "other": data.get("other", "")[:120]}
    wedding.same_people.filter(**names).delete()
    return _("“%(name)s” and “%(other)s”: the question is open again.") % names


ACTS: dict[str, Callable[[Wedding, str, QueryDict], str]] = {
    "up": move_up,
    "down": move_down,
    "to": move_to,
    "out": leave_out,
    "back": put_back,
    "by": order_by,
    "presence": set_presence,
    "pin": pin,
    "nice": nice_last,
    "rule": add_rule,
    "unrule": drop_rule,
    "minutes": keep_minutes,
    "join": join,
    "two": two_people,
    "ask-again": forget_pair,
}


class RuleForm(forms.ModelForm):
    """This before that, or a person free by a photograph."""

    class Meta:
        model = GroupRule
        fields = ("kind", "one", "other", "person", "position")

    def __init__(self, *args: object, wedding: Wedding, **kwargs: object) -> None:
        super().__init__(*args, instance=GroupRule(wedding=wedding), **kwargs)
        self.fields["position"].validators = []
        self.fields["position"].error_messages["invalid"] = _("Enter the number in figures.")
        self.fields["kind"].choices = [
            (kind, label) for kind, label in GroupRule.Kind.choices if kind in {"before", "free"}
        ]
        for name in ("one", "other"):
            self.fields[name].queryset = wedding.groups.all()
        self.people = {
            person_key(name) for group in wedding.groups.all() for name in split_names(group.people)
        }
        for name in ("one", "other"):
            self.fields[name].error_messages["invalid_choice"] = _("Choose a group of the list.")

    def clean(self) -> dict:
        data = super().clean()
        if data.get("kind") == "before":
            if not data.get("one") or not data.get("other") or data["one"] == data["other"]:
                raise forms.ValidationError(_("Choose two different groups."))
            data |= {"person": "", "position": None}
        elif data.get("kind") == "free":
            taken = self.instance.wedding.groups.exclude(decision__left_out=True).count()
            if not data.get("person") or not 0 < (data.get("position") or 0) <= taken:
                words = _("Enter the person and a photograph’s number from 1 to %(count)s.")
                self.add_error("position", words % {"count": taken})
            elif person_key(data["person"]) not in self.people:
                raise forms.ValidationError(_("Nobody of that name is in a group."))
            data |= {"one": None, "other": None}
        return data

"""What a studio's own question is answered with: its box, its value in the database, its words."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from .own_models import Question
from .when import DateField

Kind = Question.Kind
YES_NO = (("yes", _("Yes")), ("no", _("No")), ("unknown", _("We do not know yet")))
FEW = 7  # choices that stand below each other; more fold up


class NumberField(forms.DecimalField):
    """A number, its fraction after a stop or a comma; "1,000" may be either, and is refused."""

    default_error_messages = {"invalid": _("Enter a number, like 12 or 12.5.")}

    def __init__(self, **kwargs: Any) -> None:
        box = forms.TextInput({"inputmode": "decimal", "autocomplete": "off"})
        super().__init__(max_digits=12, decimal_places=3, widget=box, **kwargs)

    def to_python(self, value: Any) -> Decimal | None:
        number = super().to_python(with_stop(value))
        return number if number is None else Decimal(plain_number(number))


def with_stop(value: Any) -> Any:
    """What is typed, its fraction after a stop where that was after a comma."""
    text = re.sub(r"\s", "", value) if isinstance(value, str) else value
    if isinstance(text, str) and re.fullmatch(r"-?\d+,\d{1,2}", text):
        return text.replace(",", ".")
    return text


def plain_number(number: Decimal) -> str:
    """The same figures however they were typed: "12.50" is "12.5", and "1E+2" is "100"."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def field_for(question: Question, stored: Any) -> forms.Field:
    """The question as a form's field; what is stored stays choosable when it left the list."""
    make: Callable[..., forms.Field] = MAKERS[question.kind]
    field = make(question, stored, label=question.text, required=False, help_text=question.hint)
    if question.kind in (Kind.ONE, Kind.SEVERAL, Kind.YES_NO):
        gone = _("“%(value)s” is not among the choices any more: choose again.")
        field.gone = {"invalid_choice": gone}
    return field


def _short(_question: Question, _stored: Any, **more: Any) -> forms.Field:
    return forms.CharField(max_length=300, widget=forms.TextInput({"autocomplete": "off"}), **more)


def _long(_question: Question, _stored: Any, **more: Any) -> forms.Field:
    return forms.CharField(max_length=5000, widget=forms.Textarea({"rows": 4}), **more)


def _yes_no(_question: Question, _stored: Any, **more: Any) -> forms.Field:
    return forms.ChoiceField(choices=YES_NO, widget=forms.RadioSelect, **more)


def _one(question: Question, stored: Any, **more: Any) -> forms.Field:
    texts = offered(question, [stored] if stored else [])
    choices = [(text, text) for text in texts]
    if len(texts) > FEW:
        return forms.ChoiceField(choices=[("", _("Choose one")), *choices], **more)
    choices.append(("", _("No answer")))
    return forms.ChoiceField(choices=choices, widget=forms.RadioSelect, **more)


def _several(question: Question, stored: Any, **more: Any) -> forms.Field:
    choices = [(text, text) for text in offered(question, stored or [])]
    return forms.MultipleChoiceField(choices=choices, widget=forms.CheckboxSelectMultiple, **more)


def offered(question: Question, stored: list[str]) -> list[str]:
    return list(dict.fromkeys([*question.choices.splitlines(), *stored]))


MAKERS: dict[str, Callable[..., forms.Field]] = {
    Kind.SHORT: _short,
    Kind.LONG: _long,
    Kind.YES_NO: _yes_no,
    Kind.ONE: _one,
    Kind.SEVERAL: _several,
    Kind.DATE: lambda _question, _stored, **more: DateField(**more),
    Kind.NUMBER: lambda _question, _stored, **more: NumberField(**more),
}


def to_stored(value: Any) -> str | list[str]:
    if isinstance(value, Decimal):
        return plain_number(value)
    return value if isinstance(value, list) else "\n".join(str(value).splitlines())


def from_stored(kind: str, value: Any) -> Any:
    if kind == Kind.DATE and value:
        return date.fromisoformat(value)
    if kind == Kind.NUMBER and value:
        return Decimal(value)
    return list(value) if kind == Kind.SEVERAL else value

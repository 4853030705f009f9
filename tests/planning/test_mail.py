"""The mail with the link is in the couple's language, whatever the photographer reads."""

from datetime import date
from urllib.parse import parse_qs, urlsplit

import pytest
from django.test import RequestFactory

from intake.models import Wedding
from planning.mail import mail_draft
from studio.models import Studio

SAYS = {
    "en-gb": ("Your wedding day: a few questions from S", "Dear Þóra & Łukasz,",
              "Please send it by Saturday 1 May 2027."),
    "de": ("Eure Hochzeit: ein paar Fragen von S", "Liebe Þóra & Łukasz,",
           "Bitte sendet alles bis Samstag, 1. Mai 2027."),
    "fr": ("Votre mariage\u00a0: quelques questions de S", "Bonjour Þóra & Łukasz,",
           "Merci d’envoyer vos réponses au plus tard le samedi 1er mai 2027."),
    "es": ("Su boda: unas preguntas de S", "Hola, Þóra & Łukasz:",
           "Por favor, envíenlo a más tardar el sábado, 1 de mayo de 2027."),
    "pl": ("Wasz ślub: kilka pytań od S", "Dzień dobry, Þóra & Łukasz,",
           "Prosimy o odpowiedzi. Termin: sobota, 1 maja 2027."),
}  # fmt: skip


@pytest.mark.parametrize("language", SAYS)
def test_the_mail_is_in_the_language_of_the_wedding(wedding, language):
    Studio.objects.create(name="S", phone="07700 900140")
    Wedding.objects.update(language=language, answers_due=date(2027, 5, 1))
    wedding.refresh_from_db()
    request = RequestFactory().get("/", headers={"accept-language": "fi"})
    draft = mail_draft(wedding, "http://x.example/q/1", request)
    mail = parse_qs(urlsplit(draft).query)
    subject, greeting, due = SAYS[language]
    lines = mail["body"][0].split("\r\n")
    assert mail["subject"] == [subject]
    assert lines[0] == greeting
    assert due in lines
    assert lines.count("http://x.example/q/1") == 1
    assert lines[-2:] == ["S", "07700 900140"]

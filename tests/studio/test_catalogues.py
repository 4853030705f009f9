"""Everything that couples read is translated, whole, in every language they are offered."""

import ast
import re
import subprocess
import sys
from html.parser import HTMLParser

import pytest
from babel import Locale
from django.conf import settings

from intake.templatetags.group_count import SAMPLES
from studio import catalogues

LANGUAGES = sorted(code for code, _name in settings.LANGUAGES if not code.startswith("en"))
each_language = pytest.mark.parametrize("language", LANGUAGES)
PLACEHOLDERS = re.compile(r"%\(\w+\)[sd]|\{\w+\}")
TOP_UP = "uv run python -m studio.catalogues"
# Quotation marks of each language (CLDR, but Spanish as its academy prints it: from memory).
QUOTES = {"de": "„“", "fr": "«»", "es": "«»", "pl": "„”"}


def pairs(language):
    """Each message as (what is written in the sources, each of its translations)."""
    for message in catalogues.read(language):
        if message.id:
            ids = message.id if message.pluralizable else (message.id,)
            for string in message.string if message.pluralizable else (message.string,):
                yield ids, string


def tags(text):
    found = []
    parser = HTMLParser()
    parser.handle_starttag = lambda tag, attrs: found.append((tag, attrs))
    parser.feed(text)
    return found


def test_there_is_a_catalogue_for_every_language_and_no_other():
    assert sorted(path.name for path in catalogues.LOCALE.iterdir()) == LANGUAGES


@each_language
def test_every_message_is_in_the_catalogue_and_none_that_is_gone(language):
    wanted = {(m.id, m.context) for m in catalogues.collect() if m.id}
    there = {(m.id, m.context) for m in catalogues.read(language) if m.id}
    assert wanted - there == set(), f"to be translated: {TOP_UP}"
    assert there - wanted == set(), f"no longer used: {TOP_UP}"


@each_language
def test_every_message_is_translated_in_all_its_plurals(language):
    catalog = catalogues.read(language)
    assert [m.id for m in catalog if m.id and not catalogues.is_whole(m)] == []
    assert not any(m.fuzzy for m in catalog if m.id)
    for message in catalog:
        if message.pluralizable and message.id:
            assert len(message.string) == catalog.num_plurals, message.id


@each_language
def test_what_stands_for_a_value_is_the_same_in_every_translation(language):
    for ids, string in pairs(language):
        assert sorted(PLACEHOLDERS.findall(string)) == sorted(PLACEHOLDERS.findall(ids[-1])), string
        assert string.count("%") == ids[-1].count("%"), string


@each_language
def test_tags_and_blank_lines_are_the_same_in_every_translation(language):
    for ids, string in pairs(language):
        assert tags(string) == tags(ids[-1]), string
        assert re.findall(r"\n+", string) == re.findall(r"\n+", ids[-1]), string
        assert (string.strip(" ") == string) == (ids[-1].strip(" ") == ids[-1]), string


@each_language
def test_words_are_quoted_as_the_language_does_and_as_often(language):
    left, right = QUOTES[language]
    for ids, string in pairs(language):
        assert not set(string) & (set("“”„«»\"'") - {left, right, '"'}), string
        assert string.count(left) == string.count(right), string
        if ids[-1].count("“"):
            assert string.count(left) == ids[-1].count("“"), string


def test_french_has_its_unbroken_spaces():
    for _ids, string in pairs("fr"):
        assert not re.search(r"(?<!\u00a0)[:;?!»](?=\s|$)", string), string
        assert "« " not in string
        assert "'" not in string


@each_language
def test_babel_finds_nothing_to_complain_of(language):
    for message in catalogues.read(language):
        assert list(message.check()) == [], message.id


@each_language
def test_what_is_compiled_is_what_is_written(language):
    """A clean clone has no step to compile: both files are kept, and agree."""
    written = catalogues.as_mo(catalogues.read(language))
    assert catalogues.path_of(language).with_suffix(".mo").read_bytes() == written, TOP_UP


@each_language
def test_topping_up_what_is_whole_changes_nothing(language):
    now = catalogues.as_po(catalogues.topped_up(language))
    assert catalogues.path_of(language).read_bytes() == now, TOP_UP


@pytest.mark.parametrize("language", ["en", *LANGUAGES])
def test_the_numbers_given_to_the_live_count_show_every_kind_of_plural(language):
    plural = Locale.parse(language).plural_form
    assert {plural(n) for n in SAMPLES} == {plural(n) for n in range(1, 1000)}


def marked(path):
    """What is marked for translation, found without Babel: by Python's own reader, by a search."""
    if path.suffix != ".py":
        for _quote, text in re.findall(r"""% translate (["'])(.+?)\1""", path.read_text()):
            yield text
        return
    for node in ast.walk(ast.parse(path.read_text())):
        name = isinstance(node, ast.Call) and getattr(node.func, "id", "")
        if name == "_" or (name and "gettext" in name):
            yield from (arg.value for arg in node.args if isinstance(arg, ast.Constant))


def test_every_call_that_marks_words_is_collected():
    messages = [(m.context, *m.id) if m.pluralizable else (m.context, m.id) for m in whole()]
    collected = {text for texts in messages for text in texts}
    found = {text for path in catalogues.sources() for text in marked(path)}
    assert len(found) > 200
    assert found - collected == set()


def whole():
    return [message for message in catalogues.collect() if message.id]


def test_nothing_is_made_up_of_pieces_in_the_couples_templates():
    """A sentence is one message: no two translated texts stand side by side in one element."""
    side_by_side = re.compile(r"translate %\}[^<>]*\{% (?:blocktranslate|translate) ")
    for path in catalogues.sources():
        for line in path.read_text().splitlines() if path.suffix == ".html" else ():
            for element in re.split(r"<[^>]*>|\{% (?:else|elif [^%]*|if [^%]*|endif) %\}", line):
                assert not side_by_side.search(element), (path, element)


def test_the_catalogues_need_no_gettext_on_the_machine(tmp_path):
    """Topped up where no program of the system is found; standard output says how it stands."""
    run = subprocess.run(
        [sys.executable, "-c", "from studio import catalogues as c; print(len(c.topped_up('pl')))"],
        cwd=catalogues.ROOT, env={"PATH": str(tmp_path)}, capture_output=True, text=True,
    )  # fmt: skip
    assert int(run.stdout) == len(catalogues.read("pl")), run.stderr


# How each language speaks to two people whose genders nobody has said; see DEVELOPERS.md.
NEVER = {
    "de": r"\b(Ihnen|Ihre[mnrs]?|Fotograf(in)?|eurem? Fotografen)\b",
    "fr": r"\b([Tt]u|[Tt]on|[Tt]es|mariés|photographe qu’il)\b",
    "es": r"\b([Vv]osotr[oa]s|vuestr[oa]s?|fotógraf[oa]s?|[Uu]sted)\b",
    "pl": r"\w(liście|łyście)\b|\b(Państw\w*|wasz\w*|wam|was|fotograf(ka)?)\b",
}
THE_COUPLE = {
    "en": r"\b(brides?|grooms?|husband|wife)\b",
    "de": r"\b(Braut|Bräutigam)",
    "fr": r"\b[Mm]ariée?s?\b",
    "es": r"\b[Nn]ovi[oa]s?\b",
    "pl": r"\b[Pp]ann?[aąęy]? młod",
}
THEIR_WORD = "Bride, groom, partner, or a word of your own."


@each_language
def test_couples_are_spoken_to_in_one_way_and_no_gender_is_taken_for_granted(language):
    texts = [PLACEHOLDERS.sub("", text) for _ids, text in pairs(language)]
    assert [text for text in texts if re.search(NEVER[language], text)] == []


@each_language
def test_no_word_says_bride_or_groom_but_the_one_that_asks(language):
    for ids, text in pairs(language):
        assert bool(re.search(THE_COUPLE[language], text)) == (ids[0] == THEIR_WORD), text


def test_no_english_word_or_paper_says_bride_or_groom_but_the_one_that_asks():
    folders = ("intake", "planning", "studio", "templates")
    paths = [path for folder in folders for path in (catalogues.ROOT / folder).rglob("*")]
    reading = {"demo", "migrations", "locale"}
    for path in paths:
        if path.suffix not in {".py", ".html", ".txt"} or reading & set(path.parts):
            continue
        found = [text for text in marked(path) if re.search(THE_COUPLE["en"], text, re.IGNORECASE)]
        assert found in ([], [THEIR_WORD]), path

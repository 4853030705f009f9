"""Letters our fonts cannot draw are named before anybody prints."""

from planning.compute.values import Group
from planning.glyphs import undrawable, undrawable_texts


def test_latin_names_of_many_languages_are_drawable():
    assert undrawable("Łukasz Žáček Nguyễn Þóra O’Neill Ðorđe Ștefan ŠĆ ☐") == ""


def test_other_scripts_and_emoji_are_named_once():
    assert undrawable("日本 日 😀") == "日本😀"


def test_accents_typed_apart_are_no_trouble():
    assert undrawable("Z\u030ca\u0301c\u030cek") == ""


def test_an_accent_that_no_letter_has_with_it_and_no_font_of_ours_has_alone_is_named():
    assert undrawable("L\u1ab0") == "\u1ab0"


def test_how_a_sign_is_to_be_drawn_is_no_letter():
    assert undrawable("☐\ufe0e") == ""


def test_texts_are_found_wherever_they_stand():
    assert undrawable_texts((Group("g", "日本", ("Ana", "שרה")),)) == ["日本", "שרה"]

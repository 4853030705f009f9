"""Identity of typed names."""

import pytest

from planning.compute.people import counted_as_one, near_matches, person_key


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Zoë Obi", "zoe obi"),
        ("Łukasz Žáček", "LUKASZ ZACEK"),
        ("Þóra", "Thora"),
        ("Æsa Bjørk", "Aesa Bjork"),
        ("Nguyễn Ngọc", "Nguyen Ngoc"),
        ("Weiß", "WEISS"),
        ("Işıl", "ISIL"),
        ("O’Neill", "O'Neill"),
        ("Anne‑Marie", "Anne-Marie"),
        (" Ana\u00a0  Bo ", "Ana Bo"),
        ("\u200fשרה\u200e", "שרה"),
        ("Zoe\u0308", "Zo\u00eb"),
    ],
)
def test_one_person_typed_in_two_ways_has_one_key(one, other):
    assert person_key(one) == person_key(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("Ana", "Anna"), ("はな", "ばな"), ("김민수", "김민주"), ("राम", "रमा"), ("Aunt Jo", "Jo")],
)
def test_different_people_have_different_keys(one, other):
    assert person_key(one) != person_key(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Aunt Jo", "Auntie Jo"),
        ("Catherine Bell", "Katherine Bell"),
        ("Siân Gethin", "Sian Gethyn"),
        ("Mohamed Ali", "Mohammed Ali"),
        ("Wiśniewski", "Wisniewsky"),
        ("Nguyễn Văn Hùng", "Hùng Nguyễn Văn"),
        ("Anne-Marie Keane", "Annemarie Keane"),
        ("Róisín Keane", "Roisin Kean"),
        ("ONeill", "O’Neill"),
    ],
)
def test_one_name_in_two_spellings_is_asked_about(one, other):
    assert [set(pair) for pair in near_matches([one, "Somebody Else", other])] == [{one, other}]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Maria Silva", "Marta Silva"),
        ("Nguyễn Văn Hùng", "Nguyễn Văn Hải"),
        ("Cormac O’Neill", "Conor O’Neill"),
        ("Guest 11", "Guest 12"),
        ("Table 1 Mum", "Table 2 Mum"),
        ("김민수", "김민주"),
        ("Ann", "Bo"),
        ("Zoë", "Zoe"),
    ],
)
def test_two_people_with_names_not_far_apart_are_left_alone(one, other):
    assert near_matches([one, other]) == []


def test_accents_alone_are_told_and_never_merged_silently():
    brothers = ["Nguyễn Văn Hùng", "Nguyễn Văn Hưng"]
    assert counted_as_one(brothers) == [tuple(brothers)]


def test_case_spaces_and_apostrophes_are_not_worth_telling():
    assert counted_as_one(["Ana O’Neill", "ana  O'NEILL", "Bo", "Bo"]) == []


def test_no_names_make_no_pairs():
    assert near_matches([]) == counted_as_one([]) == []
    assert near_matches(["", " ", "👰"]) == []


def test_pairs_come_in_the_same_order_whatever_order_the_names_have():
    names = ["Aunt Jo", "Auntie Jo", "Sara Obi", "Sarah Obi"]
    assert near_matches(names) == near_matches(names[::-1])
    assert len(near_matches(names)) == 2


def test_a_crowd_of_names_alike_is_answered_at_once():
    names = [f"Ann Xy{i:04}q" for i in range(3000)]
    assert near_matches(names) == []

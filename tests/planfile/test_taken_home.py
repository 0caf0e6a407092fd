"""What a phone takes home: read whole, told line by line where it is not, and put into its plan."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.phone import plan_of
from tests.helpers.taken import spun, text_of
from yarncolor.plan import Spun, to_data
from yarncolor.planfile.save import merged_text
from yarncolor.planfile.taken_home import brought_home, entry_marks

SHORE = plan_of("Kelp", "Foam", "Dune", "Gorse")
TABLES = (
    spun(1, "through = 2", "on = 2026-03-01"),
    spun(1, "row = 4", 'lot = "Foam"', "mass_g = 3.4", "sample = { length_m = 2, mass_g = 0.21 }"),
    spun(2, 'lot = "Kelp"', "length_m = 31"),
    "[plied]\nso_far_m = 12.5",
)


def brought(text: str, data: dict = SHORE):
    return brought_home(text, yc.plan_from_data(data), "home.txt")


def faults(text: str, data: dict = SHORE) -> list[str]:
    with pytest.raises(yc.PlanError) as refused:
        brought(text, data)
    return str(refused.value).splitlines()


def entries(found) -> list[dict]:
    return [to_data(each) for each in found.plan.spun]


def test_tables_are_taken_as_they_are_written():
    found = brought(text_of(SHORE, *TABLES))
    assert entries(found)[1:] == [
        {
            "ply": 1,
            "row": 4,
            "lot": "Foam",
            "mass_g": 3.4,
            "sample": {"length_m": 2.0, "mass_g": 0.21},
        },
        {"ply": 2, "lot": "Kelp", "length_m": 31.0},
    ]
    assert found.plan.spun[0].on.isoformat() == "2026-03-01"
    assert found.plan.plied.so_far_m == 12.5
    assert found.overruled == ()


@pytest.mark.parametrize(
    "way",
    [
        lambda text: text.replace("\n", "\r\n"),
        lambda text: "\ufeff" + text,
        lambda text: f"Dear me,\n\n{text}\nSent from the wheel\n",
        lambda text: text.replace("\n", "   \n"),
        lambda text: text.rstrip("\n"),
    ],
    ids=["line ends", "byte order mark", "a letter around it", "blanks", "last line end"],
)
def test_what_mail_does_to_a_text_does_not_matter(way):
    text = text_of(SHORE, *TABLES)
    assert brought(way(text)).plan == brought(text).plan


@given(st.integers(0, 10_000))
@times(4)
def test_wherever_it_is_cut_off_it_is_told_and_nothing_is_taken(cut):
    text = text_of(SHORE, *TABLES).rstrip("\n")
    told = faults(text[: cut % len(text)])
    assert all(line.startswith("home.txt") for line in told)
    assert any("is cut off" in line or "does not begin" in line for line in told)


def lines_of(text):
    return [line.rstrip() for line in text.strip().splitlines()]


@given(st.integers(0, 10_000), st.sampled_from("05xK \n#"))
@times(8)
def test_whatever_one_sign_becomes_it_is_told(at, sign):
    """Where the sign is no other than before, or a blank at a line's end, nothing was changed."""
    text = text_of(SHORE, *TABLES)
    at %= len(text) - 1
    changed = text[:at] + sign + text[at + 1 :]
    if lines_of(changed) == lines_of(text):
        assert brought(changed).plan == brought(text).plan
    else:
        assert faults(changed)


def test_a_changed_table_is_named_by_its_line():
    text = text_of(SHORE, *TABLES).replace("mass_g = 3.4", "mass_g = 3.9")
    (told,) = faults(text)
    line = 1 + text.splitlines().index(next(x for x in text.splitlines() if "# 2 of 4" in x))
    assert told == (
        f"home.txt, line {line}: table 2: was changed on the way; take it home again: copy all of "
        "it, or save it as a file, or write it into the plan file by hand"
    )


def test_a_table_that_is_missing_is_named():
    first, second, *rest = text_of(SHORE, *TABLES).split("\n\n")
    assert faults("\n\n".join([first, second, *rest[1:]])) == [
        "home.txt: table 2: is missing; take it home again: copy all of it, or save it as a file"
    ]


def test_how_much_came_through_of_what_was_cut_off_is_told():
    text = text_of(SHORE, *TABLES)
    assert faults(text[: text.index("[plied]")]) == [
        "home.txt: is cut off: 4 tables were taken home and 3 came through; take it home again: "
        "copy all of it, or save it as a file"
    ]


def test_what_is_no_text_of_a_phone_is_told():
    for text in ("", "[[spun]]\nply = 1\nrow = 1\n", "Dear me"):
        (told,) = faults(text)
        assert told.startswith("home.txt: does not begin as what a phone takes home")


def test_values_that_cannot_be_are_told_in_their_lines_all_at_once():
    """As the plan file would say it, in the line of the text; tables begin in lines 4, 8 and 12."""
    told = faults(text_of(SHORE, spun(1, "row = 9"), spun(3, "row = 1"), "[plied]\nso_far_m = 3"))
    assert [" ".join(each.split(": ")[:3]) for each in told] == [
        "home.txt, line 6 spun row = 9",
        "home.txt, line 9 spun ply = 3",
    ]
    assert "rows 1 to 4" in told[0]
    assert "plies 1 to 2" in told[1]
    told = faults(text_of(SHORE, spun(1, 'row = "x"', "mass_g = -1"), "[plied]\nso_far_m = -3"))
    assert [" ".join(each.split(": ")[:3]) for each in told] == [
        'home.txt, line 6 spun row = "x"',
        "home.txt, line 7 spun mass_g = -1",
        "home.txt, line 10 plied so_far_m = -3",
    ]


def test_a_text_of_another_plan_is_refused():
    (told,) = faults(text_of(SHORE | {"title": "Dunes"}, *TABLES))
    expected = 'home.txt, line 1: plan = "Dunes": is of another plan; this one is called "Shore"'
    assert told == expected


def test_a_text_of_other_rows_is_refused_and_the_way_out_is_said():
    (told,) = faults(text_of(SHORE, spun(1, "row = 1")), plan_of("Kelp", "Foam", "Gorse", "Dune"))
    assert told.startswith("home.txt, line 2: rows: are not those of the plan")
    assert "write wheel.html of the plan as it is now" in told


BEFORE = SHORE | {
    "spun": [
        {"ply": 2, "row": 1, "note": "on the train"},
        {"ply": 1, "through": 2},
        {"ply": 1, "lot": "Foam", "mass_g": 2.0},
    ]
}
MARKS = " ".join(entry_marks(yc.plan_from_data(BEFORE).spun))


def test_what_the_phone_has_not_seen_is_never_dropped():
    told = faults(text_of(SHORE, spun(1, "row = 1")), BEFORE)
    assert [line.split(":")[1].strip() for line in told] == [
        "ply 2, row 1",
        "ply 1, row 2",
        "ply 1, a piece too many",
    ]
    assert all("write wheel.html of the plan as it is now" in line for line in told)


def test_what_the_phone_has_seen_and_undone_is_taken_away():
    found = brought(text_of(SHORE, spun(1, "row = 1"), known=MARKS), BEFORE)
    assert entries(found) == [{"ply": 1, "row": 1}]
    undone = text_of(SHORE, spun(1, "row = 1"), spun(1, *TABLES[2].split("\n")[2:]), known="r1.2")
    data = SHORE | {"spun": [{"ply": 1, "through": 2}]}
    assert entries(brought(undone, data))[0] == {"ply": 1, "row": 1}


def test_taking_home_twice_from_one_page_is_no_fault():
    first = brought(text_of(SHORE, spun(1, "through = 2"))).plan
    second = text_of(SHORE, spun(1, "through = 3"), spun(2, "row = 1"))
    found = brought_home(second, first)
    assert entries(found) == [{"ply": 1, "through": 3}, {"ply": 2, "row": 1}]
    assert found.overruled == ()


def test_what_the_plan_said_otherwise_is_overruled_and_said():
    data = SHORE | {"spun": [{"ply": 1, "row": 1, "mass_g": 5.5}]}
    found = brought(text_of(SHORE, spun(1, "row = 1", "mass_g = 6.4")), data)
    assert entries(found) == [{"ply": 1, "row": 1, "mass_g": 6.4}]
    assert found.overruled == ((1, 1),)


def test_entries_of_the_file_keep_their_places_beside_one_another():
    tables = (
        spun(1, "through = 2"),
        spun(1, 'lot = "Foam"', "mass_g = 2"),
        spun(1, "row = 3"),
        spun(2, "row = 1", 'note = "on the train"'),
        spun(2, "row = 2"),
    )
    found = brought(text_of(SHORE, *tables, known=MARKS), BEFORE)
    assert [(each.ply, each.row) for each in found.plan.spun] == [
        (2, 1),
        (1, None),
        (1, None),
        (1, 3),
        (2, 2),
    ]
    assert found.plan.spun[:3] == yc.plan_from_data(BEFORE).spun


TOML = """\
title = "Shore"
[[lots]]
name = "Kelp"
colour = "#56612d"
mass_g = 12.0
[[lots]]
name = "Foam"
colour = "#dcdad0"
mass_g = 12.0

[scheme]
plies = 2

# what was spun before Easter
[[spun]] # at home
ply = 2
row = 1

[[spun]] # by the sea
ply = 1
row = 1
"""


def test_comments_of_the_plan_file_stay_with_their_entries():
    plan = yc.plan_from_data({**_data(TOML)})
    tables = spun(1, "row = 2"), spun(1, "row = 1"), spun(2, "row = 1"), "[plied]\nso_far_m = 3"
    found = brought_home(text_of(_data(TOML), *tables, known="none"), plan)
    text = merged_text(TOML, found.plan, "plan")
    assert yc.plan_from_data(_data(text)) == found.plan
    at = {each: text.index(each) for each in ("# at home", "# by the sea", "before Easter")}
    assert at["before Easter"] < at["# at home"] < at["# by the sea"]
    assert re.search(r"# by the sea\nply = 1\nrow = 1\b", text)
    assert re.search(r"# at home\nply = 2\nrow = 1\b", text)


def _data(text: str) -> dict:
    import tomllib

    return tomllib.loads(text)


def test_marks_tell_alike_entries_apart():
    alike = Spun(ply=1, lot="Kelp", mass_g=2.0)
    assert len(set(entry_marks((alike, alike, Spun(ply=1, row=1))))) == 3


def test_what_the_plan_says_beside_how_far_the_yarn_is_stays():
    """A turn's length and a single's end stay; an end that the phone tells stands in its place."""
    plied = {"turns": 8.0, "turn_m": 1.5, "ended_ply": 2, "at_m": 11.5}
    found = brought(text_of(SHORE, "[plied]\nso_far_m = 12.5"), SHORE | {"plied": plied})
    assert to_data(found.plan.plied) == {
        "so_far_m": 12.5,
        "turn_m": 1.5,
        "ended_ply": 2,
        "at_m": 11.5,
    }
    text = text_of(SHORE, "[plied]\nso_far_m = 12.5\nended_ply = 1\nat_m = 12.5")
    found = brought(text, SHORE | {"plied": plied | {"turns": 8.0}})
    assert to_data(found.plan.plied) == {
        "so_far_m": 12.5,
        "turn_m": 1.5,
        "ended_ply": 1,
        "at_m": 12.5,
    }

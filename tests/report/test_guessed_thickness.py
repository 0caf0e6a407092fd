"""A thickness that nobody gave does not pass for fact: lengths say on what they hang."""

import re
from unittest.mock import Mock

import pytest

import yarncolor as yc
from tests.helpers.card_reader import answered, card, words
from tests.helpers.strategies import by_hand
from tests.helpers.strip_pictures import parsed
from yarncolor.editing.editor import Editor
from yarncolor.widgets.order.order_payload import yarn_words
from yarncolor.widgets.plying.plying_bench import PlyingBench

IF = "if your single is about 10 m/g"
LOTS = {"Kelp": 12.0, "Foam": 12.0}
WAYS = ({"single_tex": 100.0}, {"single_m_per_g": 10.0}, {"sample": {"length_m": 10, "mass_g": 1}})


def heading(found, width_px: int = 1200) -> str:
    """Return the words over a strip's first band.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    width_px : int
        Of the strip.
    """
    svg = parsed(yc.draw.strip_svg(found, width_px))
    texts = [at for at in svg.iter("{http://www.w3.org/2000/svg}text") if float(at.get("y")) < 40]
    return " ".join("".join(at.itertext()) for at in texts)


def told(data: dict) -> dict[str, str]:
    """Return what each page of a plan says, as text."""
    found = answered(data)
    return {
        "summary": yc.summary_text(found),
        "yarn": yc.show.yarn(found).text,
        "bobbins": yc.show.bobbins(found).html,
        "skeins": yc.show.skeins(found).html,
        "strip": yc.show.strip(found).alt,
        "heading of the strip": heading(found),
        "yarn at true scale": yc.show.picture(found, "yarn").alt,
        "what is known": yc.show.known(found).html,
        "knitted piece": yc.show.fabric(answered({**data, "fabric": {"width_cm": 50.0}})).html,
        "card": words(card(data)),
    }


def test_until_the_thickness_is_given_every_page_says_on_what_its_lengths_hang():
    for page, text in told(by_hand(LOTS)).items():
        assert IF in text, page
    sections = card(by_hand(LOTS)).all("section")
    said = [section.about["class"] for section in sections if IF in section.text]
    assert said[:1] == ["stash-page"]
    assert {"bobbin", "plying", "finishing", "keep"} <= set(said)


def test_it_is_said_once_beside_the_strip_and_above_the_skeins():
    data = by_hand(LOTS, bobbins={"plying_capacity_g": 6.0})
    found = answered(data)
    strip, skeins = yc.show.strip(found).alt, yc.show.skeins(found).html
    assert strip.count(IF) == skeins.count(IF) == 1
    assert strip.index(" m of yarn") < strip.index(IF) < strip.index("matched")
    assert len(found.skeins) > 1
    assert skeins.index(IF) < skeins.index("<td")


@pytest.mark.parametrize("way", WAYS, ids=lambda way: next(iter(way)))
def test_a_thickness_that_is_given_is_no_guess(way):
    for page, text in told(by_hand(LOTS, spinning=way)).items():
        assert "if your single" not in text, page


def test_nothing_says_nothing_to_mend_of_a_yarn_that_is_a_guess():
    guessed, given = by_hand(LOTS), by_hand(LOTS, spinning={"single_tex": 100.0})
    for data, said in ((guessed, f"No fault shows, {IF}"), (given, "Nothing to mend.")):
        found = answered(data)
        assert not yc.advice_on(found)
        for text in (yc.summary_text(found), yc.show.advice(found).text, words(card(data))):
            assert said in text
    assert "othing to mend" not in yc.summary_text(answered(guessed)) + words(card(guessed))


def test_grist_and_name_of_a_yarn_that_is_a_guess_say_so():
    guessed, given = (
        yc.show.yarn(answered(by_hand(LOTS, spinning=way))).text for way in ({}, WAYS[0])
    )
    assert "Single, a guess: 10.0 m to the gram" in guessed
    assert "In a shop it would then " in guessed
    assert "Single: 10.0 m to the gram" in given
    assert "would then" not in given
    assert "Single, a guess: 10.0 m" in words(card(by_hand(LOTS)))


def test_a_narrow_strip_calls_its_length_about():
    narrow = heading(answered(by_hand(LOTS)), 480)
    assert " · about " in narrow
    assert IF not in narrow
    given = heading(answered(by_hand(LOTS, spinning=WAYS[0])), 480)
    assert "about" not in given


METRES = re.compile(r"(about )?\b\d+(\.\d+)? m (long|of single|from where plying|on\b|in \d|\()")


def metres_away_from_the_guess(data: dict) -> str:
    """Return what is told of lengths where it is not said on what they hang."""
    found = answered(data)
    order = yc.show.yarn(found).text.splitlines()
    told = [line for line in order if "You first see" in line]
    told += [line for line in yc.summary_text(found).splitlines() if "in spinning order" in line]
    told += [item.text for item in yc.advice_on(found)]
    told += [yc.show.picture(found, name).alt for name in ("whole", "skein")]
    return "\n".join([*told, yarn_words(found, 7.5)["caption"]])


def test_metres_that_stand_away_from_the_guess_are_about():
    """The close-up, the first section of all colours, bobbins, breaks of skeins, pictures."""
    data = by_hand({"Kelp": 30.0, "Foam": 30.0, "Wrack": 20.0},
                   scheme={"name": "fractal", "divisions": [1, 2]},
                   bobbins={"plying_capacity_g": 50.0})  # fmt: skip
    said = metres_away_from_the_guess(data)
    assert "from about 7.5 m on" in said
    assert "own colour about " in said
    assert "break it at about " in said
    assert said.count(", about 400 m of single") == 2
    given = metres_away_from_the_guess({**data, "spinning": {"single_tex": 100.0}})
    for line in given.splitlines():
        assert "about" not in line or not METRES.search(line), line


RAN_OUT = {"scheme": {"plies": 3}, "plied": {"so_far_m": 20.0, "ended_ply": 2, "at_m": 60.0}}


def at_plying(data: dict) -> tuple[list[str], str]:
    """Return what the section at the plying wheel says of where it is, and of what is left."""
    state = PlyingBench(Editor(yc.plan_from_data(data))).state()
    rescues = [text for one in state["rescues"] for text in (one["worth"], *one["hands"])]
    return state["where"], "\n".join([state["stands"], *rescues])


def test_at_the_plying_wheel_metres_to_come_and_what_is_left_hang_on_the_guess():
    where, left = at_plying(by_hand(LOTS, **RAN_OUT))
    assert " to come. In about " in where[0]
    assert re.search(r"running; about \d+(\.\d)? m to come", where[0])
    assert sum(text.count(IF) for text in [*where, left]) == 1
    assert "has run out after 60 m of yarn. Left: about " in left
    assert re.search(r"^about [\d.]+ m more, three-ply", left, re.MULTILINE)
    assert re.search(r"has left, about [\d.]+ m, into a ball", left)
    given, known = at_plying(by_hand(LOTS, spinning=WAYS[0], **RAN_OUT))
    assert "about" not in " ".join(given)
    assert re.search(r"has run out after 60 m of yarn. Left: \d+ m of ply 1 ", known)
    assert not re.search(r"about [\d.]+ m(?! in 100 g| more, two-ply)", known)


@pytest.mark.parametrize(("way", "said"), [({}, "about "), (WAYS[0], "")])
def test_metres_under_the_picture_of_what_is_left_hang_on_the_guess(way, said, monkeypatch):
    write = Mock()
    monkeypatch.setattr("yarncolor.pictures.page.Page.write", write)
    yc.wheel.rescue_picture(answered(by_hand(LOTS, spinning=way, **RAN_OUT)))
    written = [call.args[1] for call in write.call_args_list]
    under = [line for line in written if line.endswith(" m more")]
    assert len(under) == 5
    assert all(re.fullmatch(rf"{said}[\d.]+ m more", line) for line in under)


def test_yarns_beside_one_another_are_about_as_long_as_the_guess_says():
    scheme = {"name": "free", "portions": [
        {"ply": 1, "lot": "Kelp", "mass_g": 9.0}, {"ply": 2, "lot": "Foam", "mass_g": 12.0},
    ]}  # fmt: skip
    for way, said in (({}, "about "), (WAYS[0], "")):
        plans = {"A": answered(by_hand(LOTS, spinning=way)),
                 "B": answered(by_hand(LOTS, scheme=scheme, spinning=way))}  # fmt: skip
        told = yc.show.differences(plans).text
        assert re.search(rf"The yarn of [AB] is {said}[\d.]+ m longer", told)
        assert len(re.findall(r"about \d+ m, \d+ g", told)) == (2 if said else 0)


def test_hours_by_twist_and_treadling_hang_on_the_guess_and_those_by_grams_do_not():
    turns = {"twist_tpm": 300.0, "treadles_per_min": 60.0, "drive_ratio": 10.0}
    tables = {"by treadling": turns, "by grams": {"minutes_per_g": 3.0}}
    said = {
        way: yc.show.hours(answered(by_hand(LOTS, spinning=table))).html
        for way, table in tables.items()
    }
    assert f"hours at the wheel; hours {IF}" in said["by treadling"]
    assert "if your single" not in said["by grams"]
    known = yc.show.hours(answered(by_hand(LOTS, spinning={**turns, "single_tex": 100.0}))).html
    assert "if your single" not in known


SPUN = [
    {"ply": 1, "row": 1, "mass_g": 3.0, "length_m": 27.0, "sample": {"length_m": 9, "mass_g": 1}},
    {"ply": 1, "row": 2, "mass_g": 3.0, "length_m": 27.0},
]
"""Three measures of 9 m to the gram, where nobody said how thick the single is."""


def test_what_was_measured_hangs_on_no_guess():
    data = by_hand(LOTS, scheme={"plies": 2})
    both = SPUN + [{**one, "ply": 2} for one in SPUN]
    for page, text in told(data | {"spun": both}).items():
        assert "if your single" not in text, page
    text = yc.summary_text(answered(data | {"spun": both}))
    assert "has not been said" not in text
    each = "9.0 m to the gram, by 3 measures"
    assert f"Single, as measured: ply 1 {each}; ply 2 {each}." in text
    assert "Twist, by the single as planned: " in yc.summary_text(
        answered(data | {"spun": both, "plying": {"twist_tpm": 200.0}})
    )


def test_where_one_ply_is_measured_the_other_hangs_on_the_guess():
    found = answered(by_hand(LOTS, scheme={"plies": 2}) | {"spun": SPUN})
    assert f"{IF} where it was not measured" in yc.show.strip(found).alt
    one = answered(by_hand(LOTS, scheme={"plies": 2}) | {"spun": SPUN[1:]})
    text = yc.summary_text(one)
    assert f"{IF}," in text
    assert "ply 1 9.0 m to the gram, by 1 measure, too few to go by yet." in text


def test_a_knitted_piece_keeps_its_stitches_and_is_as_dense_as_what_was_spun():
    """Tightness goes with the root of the grist: 10 m to the gram planned, 9 spun on both plies."""
    data = by_hand(
        LOTS, scheme={"plies": 2}, spinning={"single_tex": 100.0}, fabric={"stitches": 40}
    )
    both = SPUN + [{**one, "ply": 2} for one in SPUN]
    planned, spun = (yc.to_dict(answered(each))["fabric"] for each in (data, data | {"spun": both}))
    assert spun["loop_length_mm"] == planned["loop_length_mm"]
    assert spun["tightness_factor"] / planned["tightness_factor"] == pytest.approx((10 / 9) ** 0.5)

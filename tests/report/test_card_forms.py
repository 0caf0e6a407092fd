"""The two forms of the card: what both say, what the short one is for, what it is called."""

import re

import pytest
from hypothesis import given

import yarncolor as yc
from tests.helpers.card_reader import (
    NOT_SAID,
    PLANS,
    THREE,
    TWISTS,
    Node,
    Page,
    answered,
    card,
    closing_on_kelp,
    every_scheme,
    short_card,
    words,
)
from tests.helpers.examples import times
from tests.helpers.paths import SAMPLES
from tests.helpers.strategies import CLOSINGS, EVERY_SCHEME, by_hand, plan_data
from yarncolor.report.card.card import card_html, card_name
from yarncolor.report.card.forms import CARD_FORMS

AT_THE_SCREEN = re.compile(
    r"\b(choose|chooser|click|clicked|drag|dragged|press|pressed|type in|typed|button|section"
    r"|on the page|on this page|the bench|the form|the file|say how|browser|undo"
    r"|is looked at again)\b",
    re.IGNORECASE,
)
TWINS = [
    {"name": name, "mass_g": mass, "colour": colour}
    for name, mass, colour in (
        ("Kelp", 24.0, "#56612d"),
        ("Weed", 24.0, "#57622e"),
        ("Foam", 2.0, "#dcdad0"),
    )
]
NEEDS_MUCH = {
    "spinning": {
        "variation": 0.08,
        "minutes_per_g": 0.05,
        **TWISTS["spinning"],
    },
    "bobbins": {"count": 2, "capacity_g": 9.0, "plying_capacity_g": 20.0},
    "fabric": {"stitches": 600, "rows": 4000, "gauge_stitches": 20.0},
}


def rows(page: Node) -> list[list[str]]:
    """Return lot, grams to weigh and grams on the bobbin of each row, bobbin after bobbin."""
    return [
        [
            row.all("bdi", "name")[0].text,
            row.all("", "weigh")[0].text,
            (row.all("span", "so-far") or row.all("td", "number")[-1:])[0].text,
        ]
        for row in page.all("tr", "portion")
    ]


def stops(page: Node) -> list[str]:
    """Return what is weighed at each stop of a bobbin, beside an empty bobbin that is not known."""
    own = [row for section in page.all("section", "bobbin") for row in section.all("tr", "stop")]
    said = [row.text.replace(" plus your empty bobbin", "") for row in own]
    return [re.sub(r",? found.*", "", text) for text in said]


@pytest.mark.parametrize("name", EVERY_SCHEME)
def test_both_forms_say_the_same_of_every_row_and_stop(name):
    @times(1 / 4)
    @given(plan_data(name))
    def holds(data):
        short, long = short_card(data), card(data)
        assert rows(short) == rows(long)
        assert stops(short) == stops(long)
        assert not NOT_SAID.search(words(short))

    holds()


@every_scheme
def test_the_short_form_has_the_rows_of_the_plan_with_words_for_hands(tables):
    data = by_hand(THREE, **tables)
    found = yc.to_dict(answered(data))["singles"]
    portions = [portion for single in found for portion in single["portions"]]
    page = short_card(data)
    assert [row[0] for row in rows(page)] == [portion["lot"] for portion in portions]
    for row, portion in zip(page.all("tr", "portion"), portions, strict=True):
        told = [node.text for node in row.all("span", "words")]
        assert told == ([] if portion["words"] == "needs a scale" else [portion["words"]])


@pytest.mark.parametrize("closing", CLOSINGS)
def test_both_forms_say_the_same_of_closing(closing):
    data = closing_on_kelp(closing, [1, 2])
    for kind in (("div", "meant"), ("tr", "note"), ("tr", "time")):
        said = [node.text for node in short_card(data).all(*kind)]
        assert said == [node.text for node in card(data).all(*kind)]


def test_the_short_form_shows_what_is_needed_in_the_order_of_the_work():
    page = short_card(by_hand(THREE, scheme={"name": "matched", "plies": 3}))
    kinds = [(node.about["class"] or "").split()[0] for node in page.all("section")]
    assert kinds == ["stash-page", *["bobbin"] * 3, "plying", "finishing"]
    (side,) = page.all("div", "bobbins")
    assert "side" in (side.about["class"] or "").split()


def test_rows_that_do_not_fit_beside_one_another_flow_from_column_to_column():
    scheme = {"name": "fractal", "divisions": [1, 9]}
    (flow,) = short_card(by_hand(THREE, scheme=scheme)).all("div", "bobbins")
    assert "flow" in (flow.about["class"] or "").split()


def test_the_short_form_has_few_check_points_and_says_how_many_are_left_out():
    data = by_hand({**THREE, "Rust": 24.0}, scheme={"name": "fractal", "divisions": [1, 8]})
    page = short_card(data)
    (points,) = page.all("ol", "points")
    (table,) = card(data).all("table", "points")
    metres = {row.cells()[1] for row in table.all("tr", "change")}
    shown = [item.all("b")[0].text for item in points.all("li")]
    assert len(shown) == 16
    assert set(shown) < metres
    changes = len(yc.to_dict(answered(data))["stretches"]) - 1
    assert f"The 16 where most plies change; {changes - 16} more are left out." in words(page)


def test_a_blend_says_on_the_short_form_of_what_it_is_carded():
    data = by_hand({"Kelp": 24.0, "Foam": 24.0}, scheme={"name": "matched"})
    data["lots"].append({"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 18.0})
    (wrack,) = [row for row in short_card(data).all("li", "lot-row") if "Wrack" in row.text]
    assert "carded from 12.0 g of Kelp and 6.0 g of Foam" in wrack.text


# --- what it is called -----------------------------------------------------------------------


@pytest.mark.parametrize("form", CARD_FORMS)
def test_a_card_is_called_after_its_plan(form):
    page = Page(card_html(answered(by_hand(THREE) | {"title": "Tide & line"}), form)).root
    assert page.all("title")[0].text == "Tide & line card"
    assert page.all("h1")[0].text == "Tide & line"


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Tideline scarf", "Tideline scarf card.html"),
        ("גאות ושפל", "גאות ושפל card.html"),
        ("../etc: a/b?", "etc a b card.html"),
        ("<b>", "b card.html"),
        ("***", "card.html"),
        ("T" * 120, f"{'T' * 80} card.html"),
    ],
)
def test_a_card_that_is_handed_over_is_called_after_its_plan(title, name):
    assert card_name(yc.plan_from_data(by_hand(THREE) | {"title": title})) == name


def test_a_form_that_there_is_not_is_told():
    with pytest.raises(yc.PlanError) as told:
        card_html(answered(by_hand(THREE)), "tiny")
    assert str(told.value) == 'card = "tiny": give "short" or "long"'


@pytest.mark.parametrize(("asked", "is_long"), [({}, False), ({"card": "long"}, True)])
def test_the_form_is_an_argument_where_files_are_written(asked, is_long, tmp_path):
    (path,) = yc.write_answer(answered(by_hand(THREE)), tmp_path, ("card.html",), **asked)
    assert path.name == "card.html"
    assert bool(Page(path.read_bytes()).root.all("section", "keep")) == is_long


# --- nothing that only a screen can do -------------------------------------------------------

SAID_ON = {
    **{path.stem: yc.read_plan(path) for path in SAMPLES},
    **{name: yc.plan_from_data(by_hand(THREE, **tables)) for name, tables in PLANS.items()},
    **{
        f"{name}, much to say": yc.plan_from_data(by_hand(THREE, **{**NEEDS_MUCH, **tables}))
        for name, tables in PLANS.items()
    },
    **{name: yc.plan_from_data(closing_on_kelp(name, [1, 3])) for name in CLOSINGS},
    "twins": yc.plan_from_data(
        {"lots": TWINS, "scheme": {"divisions": [1, 9], "loop_m": 0.2}, "scale": {"step_g": 1.0}}
    ),
}


@pytest.mark.parametrize("plan", SAID_ON.values(), ids=SAID_ON)
@pytest.mark.parametrize("form", CARD_FORMS)
def test_nothing_is_printed_that_only_a_screen_can_do(plan, form):
    said = words(Page(card_html(yc.answer(plan), form)).root)
    assert not AT_THE_SCREEN.search(said)

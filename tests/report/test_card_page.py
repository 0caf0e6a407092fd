"""The card as a whole: its words, its last page, names that are only text."""

import re

import pytest

import yarncolor as yc
from tests.helpers.card_reader import (
    NOT_SAID,
    THREE,
    TWISTS,
    Page,
    answered,
    card,
    closing_on_kelp,
    every_scheme,
    words,
)
from tests.helpers.strategies import DIVIDING, bare_scheme, by_hand
from yarncolor.report.assumption_text import assumption_sentences
from yarncolor.report.card.card import card_html
from yarncolor.report.card.forms import CARD_FORMS

forms = pytest.mark.parametrize("form", CARD_FORMS)
HOSTILE = "<script>alert(1)</script>&\"'"


RIGHT_TO_LEFT = "ירוק ים עמוק"


LONGEST = "W" * 60


AWKWARD = (HOSTILE, RIGHT_TO_LEFT, LONGEST, "{{ 7 * 7 }}", "$\\frac$ \u202eabc")


RICH = {
    "spinning": TWISTS["spinning"] | {"variation": 0.08, "minutes_per_g": 3.0},
    "plying": TWISTS["plying"] | {"resting_shrinkage": 0.03},
    "scale": {"regain": 0.14},
    "bobbins": {"count": 2, "capacity_g": 9.0, "tare_g": [60.0, 61.0], "plying_capacity_g": 20.0},
    "fabric": {"stitches": 60, "rows": 400, "gauge_stitches": 20.0, "finishing_shrinkage": 0.08},
}


@every_scheme
def test_a_card_of_a_yarn_with_a_body_says_nothing_in_our_own_words(tables):
    data = by_hand(THREE, **{**RICH, **tables})
    data["lots"][0]["regain"] = 0.16
    said = words(card(data))
    assert not NOT_SAID.search(said)
    for kind in ("variation", "strand twist", "wound_off", "regain", "finishing_shrinkage"):
        assert kind not in said


# --- finishing, and to keep ------------------------------------------------------------------


def test_finishing_leaves_blanks_for_what_is_measured():
    data = by_hand(THREE, spinning={"single_tex": 100.0})
    (finishing,) = card(data).all("section", "finishing")
    assert finishing.text.startswith(
        "Finishing First test a wisp of each lot in the wash: does the colour stay? Hot water "
        "scalds"
    )
    rows = {row.cells()[0]: row for row in finishing.all("tr")[1:]}
    assert list(rows) == ["turns", "metres", "grams", "wraps to the inch"]
    assert [len(row.all("span", "blank")) for row in rows.values()] == [2] * 4
    assert rows["metres"].cells() == ["metres", "240 m", "m", "m"]
    assert "Tag the end where plying began." in finishing.text


def test_the_page_to_keep_holds_picture_record_advice_and_assumptions():
    data = closing_on_kelp("keep", [1, 3])
    record = {"dye": "acid dye", "mordant": "alum", "bath_number": "2", "note": "a <b>browner</b>"}
    data["lots"][0] |= record | {"dyed_on": "2024-05-01", "source": "a friend", "fibre": "wool"}
    (keep,) = card(data).all("section", "keep")
    assert len(keep.all("div", "strip")[0].all("svg")) == 1
    assert keep.all("div", "record")[0].text == (
        "Kelp fibre: wool; dye: acid dye; mordant: alum; bath: 2; dyed on: 2024-05-01; "
        "from: a friend a <b>browner</b>"
    )
    assert not keep.all("ol")  # all there is on it is a choice of the plan's
    granted = [item.text for item in keep.all("ul")[0].all("li")]
    assert len(granted) == len(assumption_sentences(answered(data)))
    assert "grist of the singles: 1000 m in 100 g" in granted


def test_the_page_to_keep_says_what_hands_can_act_on_and_nothing_else():
    lots = [
        {"name": "Kelp", "mass_g": 24.0, "colour": "#56612d"},
        {"name": "Kelp again", "mass_g": 24.0, "colour": "#56612e"},
        {"name": "Foam", "mass_g": 24.0, "colour": "#dcdad0"},
    ]
    data = {"lots": lots, "scheme": {"sequence": ["Kelp", "Kelp again"]}}
    (keep,) = card(data).all("section", "keep")
    assert [item.kind for item in yc.advice_on(answered(data))] == ["unused_lot", "near_twins"]
    assert [item.text for item in keep.all("ol")[0].all("li")] == ["Never used: Foam."]


# --- what a card must never hold -------------------------------------------------------------


def awkward(name: str = "fractal") -> dict:
    lots = [
        {
            "name": text,
            "mass_g": 24.0,
            "colour": f"#{at}{at}{at}",
            "reserve_g": 1.0,
            **dict.fromkeys(("note", "dye", "mordant", "bath_number", "source", "fibre"), HOSTILE),
        }
        for at, text in enumerate(AWKWARD)
    ]
    scheme = bare_scheme(name, [*AWKWARD]) | {"plies": 3}
    if name == "fractal":
        scheme |= {"sequence": [*AWKWARD, AWKWARD[0]], "closing": "tail"}
    return {"title": HOSTILE, "purpose": HOSTILE, "lots": lots, "scheme": scheme}


@forms
@pytest.mark.parametrize("name", [name for name in DIVIDING if name != "free"])
def test_names_and_notes_are_only_text(name, form):
    page = Page(card_html(answered(awkward(name)), form)).root
    tags = {node.tag for node in page.all()}
    assert tags.isdisjoint({"script", "iframe", "object", "embed", "link", "img", "base", "form"})
    assert not [key for node in page.all() for key in node.about if key.startswith("on")]
    assert page.all("h1")[0].text == HOSTILE
    names = [row.all("bdi", "name")[0].text for row in page.all("", "lot-row")]
    assert names == [text.replace("\u202e", "") for text in AWKWARD]


@forms
def test_a_card_asks_for_nothing_from_elsewhere(form):
    html = card_html(answered(awkward()), form).decode()
    assert not re.search(r"https?:|//\w|@import|url\((?!#)|src=|href=", html)
    (policy,) = [
        node.about["content"]
        for node in Page(html.encode()).root.all("meta")
        if node.about.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policy.startswith("default-src 'none'")


@pytest.mark.parametrize("count", [1, 60])
def test_one_lot_and_sixty_fit_a_card(count):
    lots = [
        {"name": f"Lot {number}", "mass_g": 20.0, "colour": f"#{number:02x}8844"}
        for number in range(count)
    ]
    page = card({"lots": lots, "scheme": {"name": "fractal", "plies": 3}})
    assert len(page.all("tr", "lot-row")) == count
    assert len(page.all("tr", "portion")) == count * 7
    kinds = [node.about["class"] for node in page.all("section")]
    assert kinds == ["stash-page", *["bobbin"] * 3, "plying", "finishing", "keep"]


@forms
def test_every_chip_has_the_name_of_its_lot_beside_it(form):
    data = by_hand(THREE, scheme={"name": "fractal"})
    page = Page(card_html(answered(data), form)).root
    colour = {lot["srgb"]: lot["name"] for lot in yc.to_dict(answered(by_hand(THREE)))["lots"]}
    pairs = {
        (lot.all("span", "chip")[0].about["style"], lot.all("bdi", "name")[0].text)
        for lot in page.all("span", "lot")
    }
    assert pairs == {(f"background:{srgb}", name) for srgb, name in colour.items()}
    assert len(page.all("span", "chip")) == len(page.all("span", "lot"))


@forms
def test_the_same_plan_gives_the_same_card(form):
    data = awkward()
    assert card_html(answered(data), form) == card_html(answered(data), form)

"""The page of a plan in ounces and yards on a phone: it says and reads them, and keeps grams.

By the agreement of 1959 an ounce is 28.349523125 g and a yard 0.9144 m.
"""

import re

import pytest

import yarncolor as yc
from tests.helpers.metric_words import metric_words
from tests.helpers.phone import plan_of
from yarncolor.editing.option_text import parse_value
from yarncolor.plan import Plied, to_data
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.taken_home import brought_home

pytestmark = pytest.mark.browser

BARE = plan_of("Kelp", "Foam", "Dune", "Gorse") | {
    "units": "imperial",
    "bobbins": {"tare_g": [61.0, 60.5]},
}
TWO = BARE | {
    "bobbins": {"tare_g": [61.0, 60.5], "plying_tare_g": 80.0, "plying_capacity_g": 30.0},
    "spun": [{"ply": 2, "row": 1, "mass_g": 5.7}],
    "to_spin": [{"ply": 1, "lot": "Dune", "mass_g": 2.0}],
}


def seen(one) -> str:
    """Return what is read on the page, labels that are only heard among it."""
    labels = one.page.locator("[aria-label]").evaluate_all(
        "all => all.map(each => each.getAttribute('aria-label')).join(' · ')"
    )
    hidden = one.page.locator("details:not([open])").all_text_contents()
    return "\n".join([one.text, labels, *hidden])


def part(one, name: str):
    one.page.get_by_role("button", name=re.compile(f"^{name}")).tap()
    return one


def views(one):
    """Show every view in its turn, with things typed and noted in it."""
    yield one
    yield one.tap("The bobbin before")
    yield one.tap("Something else")
    yield one.tap("It is spun")
    one.tap("Back").tap("Spun")
    yield one
    one.tap("Something else")
    for name, label in (
        ("Other ounces", "Fibre weighed out"),
        ("Yards measured", "Single of this piece"),
        ("A sample weighed", "Length broken off"),
        ("Weigh the bobbin", "Bobbin on the scale, after it"),
    ):
        yield part(one, name)
        for text in ("nothing", "0,25"):
            one.fill(label, text).page.get_by_label(label, exact=True).blur()
            yield one
        yield one.tap("Done")
    one.tap("Back").tap("Spun").go("Rows").tick(4)
    yield one
    yield one.go("Ply").fill("Plied so far", "57,3")
    yield one.tap("The single of bobbin 2 ran out here")
    yield one.fill("The single of bobbin 2 ran out after", "900")
    yield one.go("Take home")


def test_no_view_says_a_gram_or_a_metre(phone):
    one = phone(TWO, viewport={"width": 390, "height": 740})
    for view in views(one):
        assert metric_words(seen(view)) == []
        assert re.search(r"\b(?:oz|yd|ounces|yards)\b", seen(view))
    assert one.page.problems == []


def test_typed_ounces_come_home_as_grams_to_the_last_digit(phone):
    """As the bench reads the same text in a field; and shown again it is what was typed."""
    one = phone(BARE).tap("Something else")
    part(one, "Other ounces").fill("Fibre weighed out", "0,31").tap("Done")
    part(one, "Yards measured").fill("Single of this piece", "57.3").tap("Done")
    part(one, "Weigh the bobbin").fill("Bobbin on the scale, after it", "2.4567").tap("Done")
    one.tap("It is spun")
    (spun,) = one.spun
    for key, typed in (("mass_g", "0.31 oz"), ("length_m", "57.3 yd"), ("gross_g", "2.4567 oz")):
        assert spun[key] == parse_value(KEYS["spun", key], typed)
    home = brought_home(one.taken_home, yc.plan_from_data(BARE)).plan
    one.kill().load(to_data(home)).go("Rows")
    one.page.locator("button.more").first.tap()
    assert "0.31 oz" in one.text
    assert "57.3 yd" in one.text
    assert "2.4567 oz found" in one.text
    assert one.spun == [spun]


def test_other_units_and_fractions_are_kept_as_grams(phone):
    """8.8 g are 0.3104 oz; an ounce and a quarter 35.43690390625 g; half an ounce 14.1747615625."""
    one = phone(BARE).tap("Something else")
    part(one, "Other ounces").fill("Fibre weighed out", "8,8 g")
    assert "that is 0.3104 oz; 0.21 oz in the plan" in one.text
    one.tap("oz, type another unit")
    field = one.page.get_by_label("Fibre weighed out")
    assert field.evaluate("field => [field.inputMode, field === document.activeElement]") == [
        "text",
        True,
    ]
    one.tap("Done")
    part(one, "Weigh the bobbin").fill("Bobbin on the scale, after it", "1 1/4 yd")
    one.page.get_by_label("Bobbin on the scale").blur()
    assert "Type ounces, as 3.4 or 3 1/2 oz" in one.text
    assert one.page.get_by_label("Bobbin on the scale").input_value() == "1 1/4 yd"
    one.fill("Bobbin on the scale, after it", "2 ½ oz").tap("Done").tap("It is spun")
    assert one.spun == [{"ply": 1, "row": 1, "mass_g": 8.8, "gross_g": 70.8738078125}]
    one.again().go("Rows").page.locator("button.more").first.tap()
    part(one, "Other ounces").fill("Fibre weighed out", "99 lb 9999 kg")
    assert "More than a plan can say" not in one.text  # until the field is left
    one.page.get_by_label("Fibre weighed out").blur()
    assert "More than a plan can say" in one.text
    one.fill("Fibre weighed out", "0.3104")
    assert one.spun[0]["mass_g"] == 8.8


def test_what_is_looked_at_and_not_touched_stays_what_it_is(phone):
    """Grams that no ounces say in few digits."""
    said = {"ply": 1, "row": 1, "mass_g": 5.7, "length_m": 58.0}
    one = phone(BARE | {"spun": [said]}).go("Rows")
    one.page.locator("button.more").first.tap()
    part(one, "Other ounces").page.get_by_label("Fibre weighed out").blur()
    assert one.page.get_by_label("Fibre weighed out").input_value() == "0.2011"
    one.tap("Done")
    assert one.spun == [said]


def test_turns_and_weights_of_plying_are_whole_tenths_of_a_yard(phone):
    """Two singles of 100 tex, nothing lost: 20 g are 100 m, or 109.4 yd; 40 turns of 1.5 yd 60."""
    one = phone(BARE | {"plying": {"contraction": 0.0}}).go("Ply")
    one.tap_text("Count turns instead").tap_text("Or weigh the bobbin")
    one.fill("One turn of the niddy-noddy", "1.5").fill("Turns so far", "40")
    far = one.page.get_by_label("Plied so far", exact=True)
    assert far.input_value() == "60"
    one.fill("The empty plying bobbin", "2").fill("Plying bobbin with its yarn", "2.7055")
    assert far.input_value() == "109.4"
    assert one.page.get_by_label("Turns so far").input_value() == "72.9"
    home = brought_home(one.taken_home, yc.plan_from_data(BARE)).plan
    assert home.plied == Plied(so_far_m=100.03536, turn_m=1.3716, plying_tare_g=56.69904625)

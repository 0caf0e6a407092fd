"""What is said to differ, against numbers worked out by hand.

Two lots of 10 g on two plies, spun at 100 tex: 1 g is 10 m, so a lot gives each ply 5 g, 50 m,
and the yarn is 100 m long. Straight from the bobbins it begins with what was spun last, Foam.
"""

from dataclasses import replace

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from yarncolor.report.comparison import comparison, left_words, lots_words
from yarncolor.report.comparison_text import called, difference_sentences

HOSTILE = ("<script>alert(1)</script>", r"$\frac$", "A & B", '"quoted"', "]]>", "{x} %s")


def tiny(scheme: dict, *more: dict, tex: float = 100.0, **tables):
    lots = [
        {"name": "Kelp", "colour": "#000000", "mass_g": 10.0},
        {"name": "Foam", "colour": "#ffffff", "mass_g": 10.0},
        *more,
    ]
    scheme = {"plies": 2, **scheme}
    data = {"lots": lots, "scheme": scheme, "spinning": {"single_tex": tex}, **tables}
    return yc.answer(yc.plan_from_data(data))


def matched():
    return tiny({"name": "matched"})


def fractal():
    """Ply 2 runs Kelp 25 m, Foam 25 m, twice: matched over its first and its last 25 m."""
    return tiny({"name": "fractal", "divisions": [1, 2]})


def free(kelp_g: float, foam_g: float):
    """One ply of each lot: the yarn is as long as the shorter, and what is over stays."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": kelp_g},
        {"ply": 2, "lot": "Foam", "mass_g": foam_g},
    ]
    return tiny({"name": "free", "portions": portions})


def test_the_numbers_of_a_tiny_plan():
    numbers = comparison(fractal())
    assert numbers.length_m == pytest.approx(100.0)
    assert numbers.mass_g == pytest.approx(20.0)
    assert numbers.shares == pytest.approx((0.5, 0.5))
    assert numbers.loud_share == pytest.approx(0.5)
    assert (numbers.loudest, numbers.loudest_lots) == ("loud", ("Kelp", "Foam"))
    assert numbers.changes == 3
    assert numbers.left_g == {}
    assert (numbers.begins, numbers.ends) == (("Foam",), ("Kelp",))
    assert numbers.most_colours == 2


def test_what_differs_between_stripes_and_a_fractal():
    assert difference_sentences({"A": matched(), "B": fractal()}) == (
        "A is matched all along, B over 50% of its length.",
        "A marls loudly nowhere, B over 50% of its length.",
        "A changes once, B 3 times along its length.",
    )


def test_plans_that_change_places_change_the_words():
    assert difference_sentences({"A": fractal(), "B": matched()}) == (
        "A is matched over 50% of its length, B all along.",
        "A marls loudly over 50% of its length, B nowhere.",
        "A changes 3 times along its length, B once.",
    )


def another(plan) -> dict:
    """Return another way to spin a plan; a braid keeps the order in which it was dyed."""
    return {"scheme": "mirrored"} if plan.braid else {"scheme": "solid", "order": "reversed"}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_names_change_nothing_but_names(path):
    plan = yc.read_plan(path)
    one, other = yc.answer(plan), yc.answer(yc.variant(plan, **another(plan)))
    told = difference_sentences({"§": one, "¶": other})
    swapped = difference_sentences({"¶": one, "§": other})
    exchange = str.maketrans("§¶", "¶§")
    assert told == tuple(sentence.translate(exchange) for sentence in swapped)
    assert told


def test_equal_plans_are_met_with_silence():
    assert difference_sentences({"A": matched(), "B": matched(), "C": matched()}) == ()
    assert difference_sentences({"A": matched()}) == ()


def test_equal_plans_are_told_together():
    told = difference_sentences({"A": matched(), "B": fractal(), "C": matched()})
    assert told == (
        "A and C are matched all along, B over 50% of its length.",
        "A and C marl loudly nowhere, B over 50% of its length.",
        "A and C change once, B 3 times along its length.",
    )


def test_winding_off_turns_the_yarn_round_and_nothing_else():
    turned = tiny({"name": "matched"}, plying={"wound_off": 1})
    assert difference_sentences({"A": matched(), "B": turned}) == (
        "As plied, A goes from Foam to Kelp, B from Kelp to Foam.",
    )


def test_what_is_left_over_and_how_much_longer():
    """10 g and 6 g: 60 m; 4 g of Kelp stay on the bobbin and 4 g of Foam in the drawer."""
    assert difference_sentences({"A": free(10, 6), "B": free(10, 10)}) == (
        "A leaves 4.0 g of Kelp and 4.0 g of Foam over, B nothing.",
        "The yarn of B is 40 m longer than that of A.",
    )


def test_the_longest_of_three_is_named_first():
    told = difference_sentences({"A": free(10, 6), "B": free(10, 10), "C": free(6, 10)})
    assert "The yarn of B is the longest, 100 m; A and C have 40 m less." in told
    told = difference_sentences({"A": free(10, 10), "B": free(5, 5), "C": free(10, 10)})
    assert "The yarns of A and C are the longest, 100 m; B has 50 m less." in told


def test_thickness_is_told_as_wraps_and_class():
    """Four times the tex is twice the thickness and half the wraps.

    200 tex at 0.16 g/cm³: 0.0125 cm² across, 1.26 mm thick, 20 to the inch.
    """
    told = difference_sentences({"A": matched(), "B": tiny({"name": "matched"}, tex=400.0)})
    assert "The yarn of A is 75 m longer than that of B." in told
    assert "A wraps 20 to the inch, B 10." in told
    assert any(sentence.startswith("In a shop A would be ") for sentence in told)


def test_three_colours_side_by_side_are_counted():
    rust = {"name": "Rust", "colour": "#a05030", "mass_g": 10.0}
    stripes = tiny({"name": "matched", "plies": 3}, rust)
    marl = tiny({"name": "staggered", "plies": 3}, rust)
    told = difference_sentences({"A": stripes, "B": marl})
    assert "A is matched all along, B nowhere." in told
    assert "A shows three colours side by side nowhere, B all along." in told


def test_how_loud_the_loudest_marl_is_where_neither_is_loud():
    quiet = {"name": "Slate", "colour": "#1c1c1c", "mass_g": 10.0}
    clear = {"name": "Gull", "colour": "#808080", "mass_g": 10.0}
    found = {
        name: tiny({"name": "staggered", "sequence": ["Kelp", lot["name"]]}, lot)
        for name, lot in (("A", quiet), ("B", clear))
    }
    told = difference_sentences(found)
    words = {name: comparison(each).loudest for name, each in found.items()}
    assert words == {"A": "close", "B": "clear"}
    assert "The loudest marl of A: close (Kelp and Slate); of B: clear (Kelp and Gull)." in told


def test_what_matters_most_comes_first():
    told = difference_sentences({"A": free(10, 6), "B": fractal()})
    heads = ("is matched", "marls loudly", "leaves", "The yarn of", "changes", "As plied")
    at = [next(n for n, said in enumerate(told) if head in said) for head in heads]
    assert at == sorted(at)


def test_less_than_is_seen_in_print_is_not_told():
    assert difference_sentences({"A": free(10, 10), "B": free(9.99, 9.99)}) == ()


def test_plans_of_other_stashes_are_compared():
    told = difference_sentences({path.stem: yc.answer(yc.read_plan(path)) for path in SAMPLES[:3]})
    assert len(told) >= 4
    assert all(sentence.endswith(".") for sentence in told)


def test_a_name_is_quoted_unless_it_is_one_letter():
    assert called("A") == "A"
    assert called("marl") == "“marl”"
    assert called("two\nlines") == "“two\\nlines”"


def left_over(left_g: dict[str, float]) -> str:
    return left_words(replace(comparison(matched()), left_g=left_g))


def test_lots_and_leftovers_in_words():
    assert left_over({}) == "nothing"
    assert left_over({"Kelp": 2.0}) == "2.0 g of Kelp"
    assert left_over({"a": 4.0, "b": 3.0, "c": 2.0, "d": 1.0}) == "10.0 g of 4 lots"
    assert lots_words(("Kelp",)) == "Kelp"
    assert lots_words(("Kelp", "Foam", "Rust")) == "Kelp with Foam and Rust"
    assert lots_words(("Kelp", "Foam", "Rust", "Gull")) == "Kelp with 3 others"


# --- as a notebook shows it ---


def test_numbers_and_sentences_stand_in_one_fragment():
    shown = yc.show.differences({"A": matched(), "B": fractal()})
    for words in (shown.text, shown.html):
        assert "A is matched all along, B over 50% of its length." in words
        assert "100 m, 20 g" in words
        assert "loud: Kelp beside Foam" in words


def test_it_says_so_where_nothing_differs():
    assert "These are the same yarn." in yc.show.differences({"A": matched(), "B": matched()}).text
    three = [
        {"name": name, "colour": colour, "mass_g": 10.0}
        for name, colour in (("Rust", "#a05030"), ("Gull", "#c9cdd0"))
    ]
    orders = (["Kelp", "Rust", "Gull", "Foam"], ["Kelp", "Gull", "Rust", "Foam"])
    one, other = (tiny({"sequence": order}, *three) for order in orders)
    shown = yc.show.differences({"A": one, "B": other})
    assert "do not differ, only in which colours lie where" in shown.text


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_escaped(name):
    lots = [
        {"name": name, "colour": "#000000", "mass_g": 10.0},
        {"name": "Foam", "colour": "#ffffff", "mass_g": 10.0},
    ]
    plan = yc.plan_from_data({"lots": lots, "scheme": {"plies": 2}})
    plans = {name: yc.answer(plan), "B": yc.answer(yc.variant(plan, "staggered"))}
    shown = yc.show.differences(plans)
    assert "<script" not in shown.html
    assert name in shown.text
    assert yc.show.side_by_side(plans).png
    assert name in yc.show.side_by_side(plans).alt


@pytest.mark.parametrize("show", [yc.show.differences, yc.show.side_by_side])
@pytest.mark.parametrize("count", [0, 7])
def test_too_many_or_none_are_refused_in_a_line(show, count):
    with pytest.raises(yc.PlanError, match=f"^plans = {count}: compare 1 to 6 plans$"):
        show({str(at): matched() for at in range(count)})

"""The card on paper: printed by a real browser on A4 and US Letter."""

import re

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from yarncolor.report.card.card import card_html
from yarncolor.report.card.forms import CARD_FORMS

pytestmark = pytest.mark.browser

PAPERS = {"A4": (210, 297), "Letter": (216, 279)}
MARGIN_MM, MM = 12, 96 / 25.4
LEAST_PX = 16.0  # 12 pt
LEAST_SHORT_PX = 12.0  # 9 pt
LOTS = [
    {"name": name, "mass_g": 24.0, "colour": colour}
    for name, colour in (("Kelp", "#56612d"), ("Foam", "#dcdad0"), ("Wrack", "#3b2f2a"))
]
NAMES = ("W" * 60, "ירוק ים עמוק", "A name that goes on and on, as far as sixty characters may")
SMALL = {
    **{f"{plies} plies": {"name": "matched", "plies": plies} for plies in (2, 3, 5)},
    "chain": {"name": "chain"},
    "mirrored": {"name": "mirrored", "plies": 2},
    "fractal": {"name": "fractal", "divisions": [1, 2]},
}
DARK = ("#000000", "#0a0a12", "#101010")
LONG = ("A name as long as few spinners write", "Another one that is about as long", "Foam")
DOZEN = {
    "name": "free",
    "portions": [
        {"ply": ply, "lot": LOTS[at % 3]["name"], "mass_g": 1.5}
        for ply in (1, 2, 3, 4)
        for at in range(12)
    ],
}
FRACTAL = {"name": "fractal", "divisions": [1, 2, 4]}


def lots_with(key: str, values: tuple[str, ...]) -> list[dict]:
    """Return the lots, one key of each set anew."""
    return [lot | {key: value} for lot, value in zip(LOTS, values, strict=True)]


SHORT = {
    "four plies of a dozen rows": {"lots": LOTS, "scheme": DOZEN},
    "one lot": {"lots": LOTS[:1], "scheme": {"name": "matched", "plies": 1}},
    "chain": {"lots": LOTS, "scheme": {"name": "chain"}},
    "a dozen rows on one of three": {"lots": LOTS, "scheme": FRACTAL},
    "dark": {"lots": lots_with("colour", DARK), "scheme": FRACTAL | {"closing": "keep"}},
}
MORE_TO_SAY = {
    "long names": {"lots": lots_with("name", LONG), "scheme": FRACTAL},
    "full bobbins": {
        "lots": LOTS,
        "scheme": FRACTAL,
        "bobbins": {"capacity_g": 10.0, "plying_capacity_g": 30.0, "tare_g": 42.0},
        "spinning": {"variation": 0.1, "spin_loss": 0.03},
    },
}
papers = pytest.mark.parametrize("paper", PAPERS)

TOO_WIDE = """
() => {
  const wide = document.documentElement.clientWidth;
  const out = [];
  for (const one of document.body.querySelectorAll(':not(svg *)')) {
    const box = one.getBoundingClientRect();
    const spills = one.clientWidth > 0 && one.scrollWidth > one.clientWidth + 1;
    if (box.right > wide + 0.5 || box.left < -0.5 || (spills && one.tagName !== 'svg'))
      out.push(`${one.tagName}.${one.className}: ${one.textContent.slice(0, 60)}`);
  }
  return out;
}
"""
SMALLEST = """
() => {
  const sizes = [];
  for (const one of document.body.querySelectorAll(':not(svg *)'))
    for (const text of one.childNodes)
      if (text.nodeType === Node.TEXT_NODE && text.data.trim())
        sizes.push(parseFloat(getComputedStyle(one).fontSize));
  return Math.min(...sizes);
}
"""
SIZES = """
kind => [...document.querySelectorAll(kind)].map(
  one => parseFloat(getComputedStyle(one).fontSize))
"""
WIDE = "kind => [...document.querySelectorAll(kind)].map(one => one.offsetWidth)"
BREAKS = """
([kind, rule]) => [...new Set([...document.querySelectorAll(kind)].map(
  one => getComputedStyle(one)[rule]))]
"""


def many(count: int) -> dict:
    lots = [
        {"name": f"Lot number {at}", "mass_g": 10.0 + at % 7, "colour": f"#{at * 4:02x}80{at:02x}"}
        for at in range(count)
    ]
    return {"lots": lots, "scheme": {"name": "fractal", "plies": 3}}


def awkward() -> dict:
    colours = ("#56612d", "#dcdad0", "#3b2f2a")
    lots = [
        {"name": name, "mass_g": 99_999.0, "colour": colour, "note": "x" * 2000}
        for name, colour in zip(NAMES, colours, strict=True)
    ]
    scheme = {"name": "fractal", "sequence": [*NAMES, NAMES[0]], "closing": "halve"}
    return {"title": "T" * 120, "lots": lots, "scheme": scheme, "scale": {"step_g": 0.01}}


def plans() -> dict:
    found = {path.stem: yc.read_plan(path) for path in SAMPLES}
    made = {"sixty lots": many(60), "one lot": many(1), "awkward names": awkward()}
    return found | {name: yc.plan_from_data(data) for name, data in made.items()}


every_plan = pytest.mark.parametrize("plan", plans().values(), ids=plans())


@pytest.fixture
def on_paper(chromium):
    """Return a function that opens the card of a plan as it is laid out on a paper."""
    contexts = []

    def open_card(plan, paper: str, form: str = "long"):
        wide, high = (round((side - 2 * MARGIN_MM) * MM) for side in PAPERS[paper])
        context = chromium.new_context(viewport={"width": wide, "height": high})
        contexts.append(context)
        page = context.new_page()
        page.asked = []
        page.on("request", lambda request: page.asked.append(request.url))
        page.emulate_media(media="print")
        page.set_content(card_html(yc.answer(plan), form).decode())
        return page

    yield open_card
    for context in contexts:
        context.close()


def printed_pages(page, paper: str) -> int:
    pdf = page.pdf(format=paper, print_background=True)
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


@papers
@pytest.mark.parametrize("scheme", SMALL.values(), ids=SMALL)
def test_a_small_plan_has_a_page_for_each_thing_to_do(on_paper, scheme, paper):
    plan = yc.plan_from_data({"lots": LOTS, "scheme": scheme})
    page = on_paper(plan, paper)
    bobbins = 1 if scheme["name"] == "chain" else scheme.get("plies", 2)
    assert page.locator("section.bobbin").count() == bobbins
    assert printed_pages(page, paper) == 1 + bobbins + 3  # stash; plying, finishing, to keep


@papers
@every_plan
def test_nothing_is_wider_than_the_paper(on_paper, plan, paper):
    page = on_paper(plan, paper)
    assert page.evaluate(TOO_WIDE) == []
    assert printed_pages(page, paper) >= page.locator("section").count()
    assert page.asked in ([], ["about:blank"])


@every_plan
def test_the_card_is_legible_at_arms_length(on_paper, plan):
    page = on_paper(plan, "A4")
    assert page.evaluate(SMALLEST) >= LEAST_PX
    for kind, least_pt in (
        ("tr.portion td:not(.number)", 14),
        ("tr.portion td.weigh", 16),
        ("tr.stop td", 14),
        ("tr.change td", 14),
        ("tr.lot-row td", 14),
        ("section.bobbin h2", 24),
    ):
        assert all(size >= least_pt * 4 / 3 - 0.01 for size in page.evaluate(SIZES, kind)), kind


def test_rows_stay_whole_heads_come_again_and_a_bobbin_starts_a_page(on_paper):
    page = on_paper(yc.plan_from_data(many(60)), "A4")
    rules = {
        ("tr", "breakInside"): ["avoid"],
        ("section.bobbin", "breakBefore"): ["page"],
        ("table.portions thead", "display"): ["table-header-group"],
        ("tr.time", "breakAfter"): ["avoid"],
        ("tr.stop", "breakBefore"): ["avoid"],
        (".chip", "printColorAdjust"): ["exact"],
        (".chip", "borderTopStyle"): ["solid"],
    }
    assert {rule: page.evaluate(BREAKS, list(rule)) for rule in rules} == rules


def test_without_a_colour_the_card_says_the_same(on_paper):
    page = on_paper(yc.plan_from_data({"lots": LOTS, "scheme": {"name": "fractal"}}), "A4")
    said = page.evaluate("document.body.innerText")
    page.add_style_tag(content=".chip, .bar { visibility: hidden }")
    assert page.evaluate("document.body.innerText") == said
    rows = page.locator("tr.portion").all_inner_texts()
    assert all(any(lot["name"] in row for lot in LOTS) for row in rows)


# --- the short form --------------------------------------------------------------------------


def short_plans() -> dict:
    of_a_dozen = ("ebb", "shore_walk", "two_ply_batts")
    samples = {path.stem: yc.read_plan(path) for path in SAMPLES if path.stem in of_a_dozen}
    return samples | {name: yc.plan_from_data(data) for name, data in SHORT.items()}


def longer_plans() -> dict:
    samples = {path.stem: yc.read_plan(path) for path in SAMPLES}
    made = {name: yc.plan_from_data(data) for name, data in MORE_TO_SAY.items()}
    return {name: samples[name] for name in ("slack_water", "tideline")} | made


every_short_plan = pytest.mark.parametrize("plan", short_plans().values(), ids=short_plans())


@papers
@every_short_plan
def test_a_plan_of_a_dozen_rows_is_two_pages(on_paper, plan, paper):
    page = on_paper(plan, paper, "short")
    assert page.evaluate(TOO_WIDE) == []
    assert printed_pages(page, paper) <= 2


@papers
@pytest.mark.parametrize("plan", longer_plans().values(), ids=longer_plans())
def test_a_plan_of_many_rows_or_with_more_to_say_is_three_pages_at_most(on_paper, plan, paper):
    page = on_paper(plan, paper, "short")
    assert page.evaluate(TOO_WIDE) == []
    assert printed_pages(page, paper) <= 3


@every_plan
def test_the_short_form_fits_its_paper_and_can_be_read_and_ticked(on_paper, plan):
    page = on_paper(plan, "A4", "short")
    assert page.evaluate(TOO_WIDE) == []
    assert page.evaluate(SMALLEST) >= LEAST_SHORT_PX
    for kind, least_pt in (("tr.portion .weigh", 12), ("tr.portion .name", 9), ("tr.stop td", 10)):
        assert all(size >= least_pt * 4 / 3 - 0.01 for size in page.evaluate(SIZES, kind)), kind
    for kind, least_mm in (("td .box, li .box", 5), ("p .box", 4)):
        assert all(wide >= least_mm * MM - 1 for wide in page.evaluate(WIDE, kind)), kind


def test_no_heading_stands_alone_and_no_row_is_torn(on_paper):
    page = on_paper(yc.plan_from_data(many(60)), "A4", "short")
    rules = {
        ("h2, h3, .lead, .about, tr.time", "breakAfter"): ["avoid"],
        ("tr, .about, .lots li, .points li, .finishing", "breakInside"): ["avoid"],
        ("tr.stop", "breakBefore"): ["avoid"],
        (".portions thead", "display"): ["table-header-group"],
    }
    assert {rule: page.evaluate(BREAKS, list(rule)) for rule in rules} == rules


@pytest.mark.parametrize("name", ["one lot", "chain"])
def test_a_bobbin_of_few_rows_stands_in_one_column(on_paper, name):
    page = on_paper(yc.plan_from_data(SHORT[name]), "A4", "short")
    lefts = page.evaluate(
        "[...document.querySelectorAll('.bobbin tr')].map(row => row.getBoundingClientRect().left)"
    )
    assert len(set(lefts)) == 1


@every_plan
@pytest.mark.parametrize("form", CARD_FORMS)
def test_a_card_is_no_wider_than_a_phone(chromium, plan, form):
    context = chromium.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.set_content(card_html(yc.answer(plan), form).decode())
    assert page.evaluate(TOO_WIDE) == []
    context.close()

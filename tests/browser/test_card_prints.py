"""The card on paper: printed by a real browser on A4 and US Letter."""

import re

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from yarncolor.report.card.card import card_html

pytestmark = pytest.mark.browser

PAPERS = {"A4": (210, 297), "Letter": (216, 279)}
MARGIN_MM, MM = 12, 96 / 25.4
LEAST_PX = 16.0  # 12 pt
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

    def open_card(plan, paper: str):
        wide, high = (round((side - 2 * MARGIN_MM) * MM) for side in PAPERS[paper])
        context = chromium.new_context(viewport={"width": wide, "height": high})
        contexts.append(context)
        page = context.new_page()
        page.asked = []
        page.on("request", lambda request: page.asked.append(request.url))
        page.emulate_media(media="print")
        page.set_content(card_html(yc.answer(plan)).decode())
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

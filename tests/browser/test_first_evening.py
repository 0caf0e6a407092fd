"""The first evening, played on the page: from nothing to one's own shawl plan on paper.

What a hand does is counted: a click, one typing into a field, one choice from a list.
"""

import pytest

from tests.helpers.browser import ready, still
from tests.helpers.hand import Hand
from yarncolor import answer, read_plan, to_dict

pytestmark = pytest.mark.browser

MOST_ACTIONS = 20
LOTS = """Lot\tGrams\tColour
Kelp\t27,5\tdark olive green
Deep Water\t30\tpetrol
Foam\t24\toff white
Rock Rose\t22\told rose
Lichen\t26\tlichen
Sand\t31\tsand
Rust\t18\trust
Dusk\t21,5\tslate
"""
TOTAL_G = 27.5 + 30 + 24 + 22 + 26 + 31 + 18 + 21.5
NAMES = ("Kelp", "Deep Water", "Foam", "Rock Rose", "Lichen", "Sand", "Rust", "Dusk")


KEEP_WHAT_IS_PRINTED = """() => document.addEventListener("load", ({ target }) => {
  if (target.tagName !== "IFRAME") return;
  target.contentWindow.print = () => { window.printed = target.contentDocument.body.innerText; };
}, true)"""
"""Without a screen no dialog opens: the sheet that would be printed is looked at in its place."""


@pytest.fixture
def folder(tmp_path):
    first = tmp_path / "first.toml"
    first.write_text('[[lots]]\nname = "Trial"\ncolour = "#888"\nmass_g = 9\n', encoding="utf-8")
    return tmp_path


def said(page, words) -> None:
    page.wait_for_selector(f"[role=status]:has-text('{words}')")


def test_a_shawl_of_eight_lots_is_drawn_weighed_saved_and_printed(visited, app, folder):
    page = ready(visited(app(folder / "first.toml")))
    hand = Hand(page)
    hand.click("More for this plan")
    hand.click("Begin a new plan")
    said(page, "A new plan, with one lot to begin with.")
    hand.click("Lots")
    hand.type("One lot a line", LOTS)
    hand.click("Add these lots")
    said(page, "8 lots added, 200.0 g.")
    hand.click("Every option")
    hand.choose("knitted", "a triangle from the top down")
    hand.type("how wide, cm; of a triangle its wingspan", "150 cm wide")
    hand.click("Colour order")
    hand.choose("scheme", "fractal")
    page.wait_for_selector(".yc canvas[aria-label^='Fractal']")
    hand.drag("Foam", 3)
    page.wait_for_function(
        "[...document.querySelectorAll('.yc .chips button span')][5]?.innerText === 'Foam'"
    )
    hand.click("Weigh-out")
    page.wait_for_selector("table:has-text('Rock Rose')")
    still(page)
    hand.type("new name", "evening shawl")
    hand.click("Save the plan as")
    said(page, "Written: ")
    hand.click("Files")
    page.evaluate(KEEP_WHAT_IS_PRINTED)
    hand.click("Print the card")
    page.wait_for_function("window.printed")
    card = page.evaluate("window.printed")
    saved = read_plan(folder / "evening shawl.toml")
    assert saved.names == NAMES
    assert sum(lot.mass_g for lot in saved.lots) == TOTAL_G
    assert saved.scheme.sequence.index("Foam") == 5
    told = to_dict(answer(saved))
    assert saved.scheme.name == "fractal"
    assert saved.fabric.width_cm == 150
    weighed = [row["weigh_g"] for single in told["singles"] for row in single["portions"]]
    assert sum(weighed) == pytest.approx(TOTAL_G)
    assert [name for name in NAMES if name not in card] == []
    assert page.problems == []
    assert len(hand.actions) <= MOST_ACTIONS, "\n".join(hand.actions)

"""The card on a phone, touched with a thumb, in flight mode: what is shown, ticked and kept."""

import contextlib
import os
import random
import signal
from pathlib import Path
from zlib import crc32

import pytest

import yarncolor as yc
from tests.helpers.paths import TIDELINE
from tests.helpers.phone import SMALL, Phone, plan_of
from yarncolor.report.phone.page import wheel_html

pytestmark = pytest.mark.browser

TWO = plan_of("Kelp", "Foam", "Dune", "Gorse")
TARED = {"bobbins": {"tare_g": [61.0, 60.5]}}
LUMINANCE = """() => {
  const [r, g, b] = getComputedStyle(document.body).backgroundColor.match(/[\\d.]+/g).map(Number);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}"""
TOO_SMALL = """() => {
  const touched = [...document.querySelectorAll('button, input, select, textarea')];
  return touched.filter(one => {
    const box = one.getBoundingClientRect();
    return box.width && (box.width < 48 || box.height < 48);
  }).map(one => one.outerHTML.slice(0, 80));
}"""
TOO_WIDE = """() => [...document.querySelectorAll('body, body *')].filter(one => {
  const box = one.getBoundingClientRect();
  return box.right > innerWidth + 0.5 || box.left < -0.5;
}).map(one => one.outerHTML.slice(0, 80))"""
FULL = "() => { Storage.prototype.setItem = () => { throw new DOMException('', 'Quota'); }; }"
FORBIDDEN = """Object.defineProperty(window, 'localStorage', {
  get() { throw new DOMException('', 'SecurityError'); },
});"""


def test_one_piece_after_the_other_is_weighed_and_ticked(phone):
    one = phone(TWO)
    for name in ("Kelp", "Foam", "Dune"):
        assert one.page.locator("main h2").inner_text() == name
        assert one.page.locator(".grams").inner_text() == "6.0 g"
        one.tap("Spun")
    assert "Bobbin 1 of 2" in one.text
    assert "3 of 4 spun" in one.text
    assert one.spun == [{"ply": 1, "through": 3}]
    assert one.page.problems == []


def test_nothing_is_asked_of_any_network(phone):
    one = phone(TWO).tap("Spun").go("Rows").go("Ply").go("Take home")
    assert one.page.asked == [one.path.as_uri()]
    blocked = one.page.evaluate(
        """() => new Promise(resolve => {
          document.addEventListener('securitypolicyviolation', event => resolve(event.blockedURI));
          const image = document.createElement('img');
          image.src = 'https://example.org/a.png';
          document.body.append(image);
        })"""
    )
    assert blocked == "https://example.org/a.png"


@pytest.mark.parametrize("times", [10, pytest.param(80, marks=pytest.mark.thorough)])
def test_nothing_ticked_is_lost_though_the_page_is_killed_at_any_moment(phone, times):
    """A tick more or less, in any order, on any bobbin; the page gone right after it."""
    drawn, one = random.Random(times), phone(TWO).go("Rows")  # noqa: S311
    wanted = {1: set(), 2: set()}
    for _ in range(times):
        shown, ply, row = 1, drawn.choice((1, 2)), drawn.randint(1, 4)
        shown = 2 if "Bobbin 2 of 2" in one.text else 1
        if shown != ply:
            one.tap("The next bobbin" if ply == 2 else "The bobbin before")
        one.tick(row)
        wanted[ply] ^= {row}
        one.again().go("Rows")
        for each, turn in ((1, "The bobbin before"), (2, "The next bobbin")):
            button = one.page.get_by_role("button", name=turn)
            if button.is_enabled():
                button.tap()
            assert f"Bobbin {each} of 2" in one.text
            assert set(one.ticked) == wanted[each]
    assert one.page.problems == []


def test_ticks_survive_a_page_whose_process_is_killed(phone):
    one = phone(TWO).tap("Spun").tap("Spun")
    with pytest.raises(Exception, match="crash"):
        one.page.goto("chrome://crash", timeout=5000)
    assert one.open().go("Rows").ticked == [1, 2]


@pytest.mark.parametrize("moment_ms", [300, 1500])
def test_ticks_survive_a_browser_that_is_ended_hard(chromium, chromium_path, tmp_path, moment_ms):
    """As when a phone dies: the browser's own first copy forgets its last seconds then."""

    def started():
        again = {"viewport": SMALL, "has_touch": True, "args": ["--no-sandbox"]}
        return chromium.browser_type.launch_persistent_context(
            str(tmp_path / "phone"), executable_path=chromium_path, **again
        )

    context = started()
    one = Phone(context, tmp_path / "wheel.html").load(TWO).tap("Spun").tap("Spun")
    one.page.wait_for_timeout(moment_ms)
    _end_hard(str(tmp_path / "phone"))
    with contextlib.suppress(Exception):
        context.close()
    context = started()
    assert Phone(context, one.path).open().go("Rows").ticked == [1, 2]
    context.close()


def _end_hard(folder: str) -> None:
    """Kill every process of the browser that keeps its things in a folder, which is ours alone."""
    for process in Path("/proc").glob("[0-9]*"):
        with contextlib.suppress(OSError):
            if f"--user-data-dir={folder}" in (process / "cmdline").read_text():
                os.kill(int(process.name), signal.SIGKILL)


def test_a_page_that_is_open_twice_loses_nothing(phone):
    one = phone(TWO)
    other = Phone(one.context, one.path).open()
    one.tap("Spun")
    other.page.wait_for_selector("main h2:has-text('Foam')")
    other.tap("Spun")
    one.page.wait_for_selector("main h2:has-text('Dune')")
    assert one.go("Rows").ticked == [1, 2]


def test_a_tick_is_taken_back(phone):
    one = phone(TWO).tap("Spun").tap("Spun").tap("Undo")
    assert one.page.locator("main h2").inner_text() == "Foam"
    one.go("Rows").tick(1)
    assert one.ticked == []
    assert one.spun == []


def test_what_was_otherwise_with_a_row_goes_home_as_it_was(phone):
    one = phone(TWO | TARED).tap("Something else")
    one.tap("Other grams 6.0 g in the plan").fill("Fibre weighed out", "6,4").tap("Done")
    one.tap("Another lot went in")
    one.page.get_by_label("Lot that went in").select_option("Dune")
    one.tap("Done").tap("Weigh the bobbin 67.0 g expected after it")
    one.fill("Bobbin on the scale, after it", "67.2").tap("Done")
    one.tap("Metres measured").fill("Single of this piece", "61").tap("Done")
    one.tap("A sample weighed").fill("Length broken off", "2").fill("What it weighs", "0.21")
    one.again()
    assert one.spun == []  # typed, and not spun yet
    one.go("Spin").tap("Spun")
    said = {"mass_g": 6.4, "length_m": 61, "gross_g": 67.2}
    sample = {"length_m": 2, "mass_g": 0.21}
    assert one.again().spun == [{"ply": 1, "row": 1, "lot": "Dune", **said, "sample": sample}]


def test_left_out_too_many_and_swapped(phone):
    one = phone(TWO).tap("Something else").tap("It is left out")
    assert one.page.locator("main h2").inner_text() == "Foam"
    one.go("Rows").tick(3).go("Spin")
    assert "Row 2 is not ticked" in one.text
    one.tap("Spin it next").tap("Spun").go("Rows").tap("A piece too many")
    one.tap("It is spun")
    assert "Type its grams, or its metres" in one.text
    one.page.get_by_label("Lot", exact=True).select_option("Gorse")
    one.fill("Fibre weighed out", "1.5").tap("It is spun")
    assert one.again().spun == [
        {"ply": 1, "row": 3},
        {"ply": 1, "row": 2},
        {"ply": 1, "lot": "Gorse", "mass_g": 1.5},
    ]


def test_a_row_that_was_forgotten_lies_where_the_plan_has_it(phone):
    one = phone(TWO).go("Rows").tick(1).tick(3).go("Spin").tap("Spun in its place")
    assert one.spun == [{"ply": 1, "through": 3}]


def test_stop_and_weigh_says_what_to_expect_and_goes_on_from_what_was_found(phone):
    """Ply 1 weighs 6 g a row on a bobbin of 61 g; sum by hand."""
    one = phone(TWO | TARED)
    assert "Then 67.0 g with the bobbin" in one.text
    for _ in range(4):
        one.tap("Spun")
    assert "Stop the wheel" in one.text
    assert "85.0 g" in one.text
    one.fill("It weighs", "60").page.get_by_label("It weighs").blur()
    assert "The empty bobbin alone weighs 61 g" in one.text
    one.fill("It weighs", "84.2")
    assert "0.8 g less than 85.0 g, which is expected" in one.text
    one.again()
    assert one.page.get_by_label("It weighs").input_value() == "84.2"
    assert "85.0 g" in one.text  # what was weighed out, whatever is found
    one.tap("Go on")
    assert "All spun" in one.text
    assert one.spun == [{"ply": 1, "through": 3}, {"ply": 1, "row": 4, "gross_g": 84.2}]


def test_grams_that_were_otherwise_are_in_the_weight_to_expect(phone):
    one = phone(TWO | TARED).tap("Something else").tap("Other grams 6.0 g in the plan")
    one.fill("Fibre weighed out", "7").tap("Done").tap("Back").tap("Spun")
    assert "Then 74.0 g with the bobbin" in one.text


def test_nonsense_is_told_and_not_kept(phone):
    one = phone(TWO).tap("Something else").tap("Other grams 6.0 g in the plan")
    one.fill("Fibre weighed out", "six").page.get_by_label("Fibre weighed out").blur()
    assert "Type grams, as 3.4" in one.text
    one.fill("Fibre weighed out", "-3").tap("Done").tap("Back").tap("Spun")
    assert one.spun == [{"ply": 1, "row": 1}]


def test_plying_says_the_next_change_and_how_far_it_is(phone):
    """Two plies of 48 g in all at 100 tex, matched: the yarn is 240 m, and 60 m of each lot."""
    one = phone(TWO).go("Ply")
    assert "60.0 m" in one.text
    assert "Gorse → Dune" in " ".join(one.text.split())
    one.fill("Plied so far", "52,5")
    assert "7.5 m" in one.text
    one.tap("It changes here")
    assert one.again().go("Ply").page.get_by_label("Plied so far").input_value() == "60"
    assert "Dune → Foam" in " ".join(one.text.split())
    one.tap("Undo")
    assert one.page.get_by_label("Plied so far").input_value() == "52.5"
    assert "so_far_m = 52.5" in one.taken_home


def test_a_new_version_keeps_what_agrees_and_says_what_does_not(phone):
    one = phone(TWO).go("Rows").tick(1).tick(2).tick(3)
    one.kill().load(plan_of("Kelp", "Gorse", "Dune"))
    assert "1 ticked before and no longer in the plan" in one.text
    assert one.go("Rows").ticked == [1, 3]
    assert one.spun == [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}]
    assert "ply 1, row 2, Foam, 6 g" in one.text
    assert "That row is Gorse now" in one.text
    assert '# not taken along: "ply 1, row 2, Foam, 6 g"' in one.taken_home
    one.kill().load(TWO)
    assert one.go("Rows").ticked == [1, 2, 3]


def test_what_no_longer_agrees_is_settled_with_one_touch(phone):
    one = phone(TWO).tap("Spun").tap("Spun")
    one.kill().load(plan_of("Foam", "Dune", "Kelp")).go("Take home")
    one.page.get_by_role("button", name="It is in that row").first.tap()
    one.page.get_by_role("button", name="It is a piece too many").first.tap()
    assert "no longer" not in one.text.lower()
    assert one.again().spun == [
        {"ply": 1, "row": 1, "lot": "Kelp", "mass_g": 6},
        {"ply": 1, "lot": "Foam", "mass_g": 6},
    ]


def test_what_was_spun_keeps_the_grams_that_it_was_weighed_with(phone):
    one = phone(TWO).tap("Spun")
    heavier = plan_of("Kelp", "Foam", "Dune", "Gorse")
    heavier["lots"][0]["mass_g"] = 20.0
    one.kill().load(heavier)
    assert one.spun == [{"ply": 1, "row": 1, "mass_g": 6}]
    assert "the plan has 10.0 g now" in one.text


def test_another_plan_has_ticks_of_its_own(phone):
    one = phone(TWO).tap("Spun")
    assert one.kill().load(TWO | {"title": "Dunes"}).go("Rows").ticked == []
    assert one.kill().load(TWO).go("Rows").ticked == [1]


@pytest.mark.parametrize("script", [f"({FULL})()", FORBIDDEN], ids=["full", "forbidden"])
def test_a_phone_that_keeps_nothing_says_so_and_still_goes_on(phone, script):
    one = phone(TWO, script).tap("Spun").tap("Spun")
    assert "This phone keeps nothing for this page" in one.text
    assert "Take home what is ticked" in one.text
    assert one.spun == [{"ply": 1, "through": 2}]


def test_what_is_kept_and_cannot_be_read_is_laid_aside(phone):
    one = phone(TWO)
    one.page.evaluate("localStorage.setItem('yarncolor wheel: Shore', '{\"entries\": 3')")
    one.again()
    assert "cannot be read" in one.text
    one.tap("Spun")
    aside = one.page.evaluate("localStorage.getItem('yarncolor wheel: Shore (not understood)')")
    assert aside == '{"entries": 3'


HOSTILE = (
    "<script>document.title='x'</script>",
    "</script><img src=x onerror=alert(1)>",
    "\"'&lt;b&gt;",
    "\u05d0\u200desrever",
    "${1+1} \\u003c \\\\ ]]>",
    "W" * 60,
)


def test_hostile_names_stay_text(phone):
    data = plan_of(*HOSTILE, title="--><!--<script>")
    one = phone(data)
    for name in HOSTILE:
        assert one.page.locator("main h2").text_content() == name
        one.tap("Spun")
    for view in ("Rows", "Ply", "Take home"):
        assert one.go(view).page.evaluate(TOO_WIDE) == []
    assert one.page.locator("img, script:not([type])").count() == 0
    assert one.page.problems == []
    one.go("Spin").tap("Go on").tap("A piece too many")
    one.page.get_by_label("Lot", exact=True).select_option(HOSTILE[0])
    one.fill("Fibre weighed out", "1").tap("It is spun")
    assert one.spun[-1]["lot"] == HOSTILE[0]


def views(one):
    """Show every view in its turn."""
    yield one
    yield one.tap("Something else")
    for part in ("Other grams 6.0 g in the plan", "Another lot went in", "A sample weighed"):
        yield one.tap(part)
        one.tap("Done")
    yield one.tap("A piece too many not in the plan")
    one.tap("Back")
    for _ in range(4):
        one.tap("Spun")
    yield one
    yield one.go("Rows")
    yield one.go("Ply")
    yield one.go("Take home")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_view_is_large_enough_fits_and_obeys_the_rules_of_accessibility(phone, scheme):
    from axe_playwright_python.sync_playwright import Axe

    one = phone(TWO | TARED, color_scheme=scheme)
    shown = one.page.evaluate(LUMINANCE)
    assert shown > 200 if scheme == "light" else shown < 60
    for view in views(one):
        assert view.page.evaluate(TOO_SMALL) == []
        assert view.page.evaluate(TOO_WIDE) == []
        found = Axe().run(view.page).response["violations"]
        assert [(each["id"], each["nodes"][0]["html"]) for each in found] == []


def test_the_text_taken_home_sums_up_what_it_holds(phone):
    one = phone(TWO).tap("Spun")
    text = one.taken_home
    *body, end = text.rstrip("\n").split("\n\n")
    whole = "\n\n".join(body).encode()
    assert end == f"# The end, tables: 1, sum: {crc32(whole):08x}"


def test_text_is_copied_and_saved(phone):
    one = phone(TWO).tap("Spun")
    text = one.taken_home
    one.context.grant_permissions(["clipboard-read", "clipboard-write"])
    one.tap("Copy")
    one.page.wait_for_selector("text=Copied.")
    assert one.page.evaluate("navigator.clipboard.readText()") == text
    with one.page.expect_download() as saved:
        one.tap("Save as a file")
    assert saved.value.suggested_filename == "taken_home.txt"
    assert saved.value.path().read_text(encoding="utf-8") == text


def test_the_larger_sample_plan_is_below_150_kilobytes():
    assert len(wheel_html(yc.answer(yc.read_plan(TIDELINE)))) < 150_000

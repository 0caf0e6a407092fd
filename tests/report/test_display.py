"""What a notebook shows: pictures with a text alternative, tables whose names are only names."""

import re
from base64 import b64decode
from html.parser import HTMLParser

import pytest

import yarncolor as yc
from yarncolor.answers.answer import Answer
from yarncolor.report.advice import advice_on
from yarncolor.report.show import plan as shown_plan

HOSTILE = "<script>alert(1)</script>&\"'"
_TAGS = {"div", "table", "caption", "b", "thead", "tbody", "tr", "th", "td", "ol", "li", "p"}
_FRAGMENTS = [getattr(shown_plan, name) for name in ("show_weigh_out", "show_stash", "show_advice")]


class Read(HTMLParser):
    """An HTML fragment as a browser reads it: its tags with their attributes, and its texts."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict]] = []
        self.texts: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.texts.append(data)

    def styles(self, tag: str) -> list[str]:
        """Return the style of every tag of one kind; empty where it has none."""
        return [about.get("style", "") for name, about in self.tags if name == tag]


def answer(*lots: dict, **scheme: object) -> Answer:
    """Return the answer to lots that are black and of 12 g where nothing else is said."""
    rows = [{"mass_g": 12, "colour": "#000", **lot} for lot in lots]
    return yc.answer(yc.plan_from_data({"lots": rows, "scheme": scheme}))


@pytest.fixture(scope="module")
def hostile() -> Answer:
    """Return a plan whose only spun lot, whose unused lot and whose note are markup."""
    lots = {"name": HOSTILE, "note": HOSTILE}, {"name": f"2 {HOSTILE}"}
    return answer(*lots, plies=1, sequence=[HOSTILE])


@pytest.mark.parametrize("show", _FRAGMENTS)
def test_a_name_in_a_fragment_is_text_and_nothing_else(show, hostile):
    shown = show(hostile)
    read = Read(shown.html)
    assert {tag for tag, _ in read.tags} <= _TAGS
    assert HOSTILE in "".join(read.texts)
    assert HOSTILE in shown.text
    assert all(set(about) <= {"style", "scope"} for _, about in read.tags)


@pytest.mark.parametrize("show", [*_FRAGMENTS, shown_plan.show_yarn])
def test_a_fragment_is_html_for_a_browser_and_text_for_a_terminal(show, hostile):
    shown = show(hostile)
    assert shown._repr_mimebundle_() == {"text/html": shown.html, "text/plain": shown.text}
    assert repr(shown) == shown.text


def test_a_picture_is_a_png_with_its_alternative_and_width(hostile):
    picture = yc.show.strip(hostile, 900, 300)
    data, about = picture._repr_mimebundle_()
    png = b64decode(data["image/png"], validate=True)
    assert png == picture.png == yc.draw.strip_png(hostile, 900, 300)
    assert int.from_bytes(png[16:20]) == 900
    assert data["text/plain"] == repr(picture) == yc.draw.strip_alt(hostile)
    assert about == {"image/png": {"alt": yc.draw.strip_alt(hostile), "width": 900}}


def test_weigh_out_shows_a_table_for_each_bobbin_and_a_row_for_each_portion():
    shown = Read(yc.show.weigh_out(answer({"name": "Kelp"}, {"name": "Foam"}, plies=2)).html)
    row = ["6.0 g", "½ of the lot"]
    bobbin = ["lot", "weigh", "by hand", "on bobbin", "Kelp", *row, "6.0 g", "Foam", *row, "12.0 g"]
    assert shown.texts == [
        "bobbin 1 of 2, in spinning order",
        *bobbin,
        "bobbin 2 of 2, in spinning order",
        *bobbin,
    ]


def test_a_line_stands_between_two_repeats_and_nowhere_else():
    found = answer({"name": "Kelp"}, {"name": "Foam"}, name="fractal", divisions=[1, 3])
    _, *rows = yc.show.weigh_out(found).html.split("<tr")
    lined = [at for at, row in enumerate(rows) if "border-top" in row]
    second_bobbin = 1 + 2 + 1
    assert lined == [second_bobbin + 2, second_bobbin + 4]


def test_a_name_stands_on_its_colour_in_an_ink_that_can_be_read():
    lots = {"name": "Kelp", "colour": "#102030"}, {"name": "Foam", "colour": "#f0f0e0"}
    dark, light = Read(yc.show.weigh_out(answer(*lots, plies=1)).html).styles("td")[::4]
    assert "background:#102030;color:#ffffff;" in dark
    assert "background:#f0f0e0;color:#000000;" in light


def test_pieces_of_a_heap_have_no_grams_of_their_own_but_the_heap_has():
    found = answer({"name": "Kelp"}, {"name": "Foam", "mass_g": 0.1}, plies=1, parts=[1, 1])
    texts = Read(yc.show.weigh_out(found).html).texts
    assert texts[5:9] == ["Kelp", "12.0 g", "all of the lot", "12.0 g"]
    assert texts[9:] == [
        *("Foam", "heap", "all of it", "12.1 g"),
        *("Foam", "0.1 g", "heap: one piece"),
    ]


def test_advice_is_a_list_in_its_own_order():
    found = answer({"name": "Kelp"}, {"name": "Foam"}, plies=1, sequence=["Kelp"])
    assert yc.show.advice(found).html == "<ol><li>Never used: Foam.</li></ol>"


def test_each_way_to_mend_something_has_its_line_in_the_words_of_the_chooser():
    lots = {"name": "<Kelp>", "mass_g": 20}, {"name": "Foam"}, {"name": "Sand"}
    order = ["<Kelp>", "Foam", "Sand", "<Kelp>"]
    found = answer(*lots, name="fractal", plies=2, divisions=[1, 4], sequence=order)
    shown = yc.show.advice(found)
    (item,) = [each for each in advice_on(found) if each.kind == "doubled_run"]
    ways = re.findall(r"<li><b>(.*?)</b>", shown.html)
    assert ways == [way.choice for way in item.ways]
    assert ways[0] == "close once, at the end, leaving the last place out where repeats meet"
    assert "(tail)" not in shown.html
    assert "(1) close once" in shown.text
    assert "(tail)" in shown.text
    assert "<Kelp>" not in shown.html


def test_what_is_lost_on_the_way_stands_beside_the_grams():
    """100 g of which a tenth is lost in carding, and of the 90 g a twentieth at the wheel."""
    lot = {"name": "Kelp", "colour": "#888888", "mass_g": 100.0}
    spinning = {"card_loss": 0.1, "spin_loss": 0.05}
    plan = {"lots": [lot], "scheme": {"plies": 2}, "spinning": spinning}
    shown = yc.show.weigh_out(yc.answer(yc.plan_from_data(plan)))
    assert "Before carding 100.0 g, as 10.0% is lost there" in shown.html
    assert "Weighed out 90.0 g, before spinning; 5.0% is lost at the wheel, so 85.5 g" in shown.html
    assert "so 85.5 g come onto the bobbins" in shown.text
    assert "lost" not in yc.show.weigh_out(answer({"name": "Kelp"}, plies=1)).html


def test_no_advice_says_that_there_is_nothing_to_mend():
    lots = [{"name": "Kelp", "mass_g": 12, "colour": "#000"}]
    known = {"lots": lots, "scheme": {"plies": 1}, "spinning": {"single_tex": 100.0}}
    shown = yc.show.advice(yc.answer(yc.plan_from_data(known)))
    assert (shown.html, shown.text) == ("<p>Nothing to mend.</p>", "Nothing to mend.")


def test_the_stash_shows_what_is_kept_back_and_what_is_used():
    kept = {"name": "Kelp", "reserve_g": 2, "note": "two pots"}
    texts = Read(shown_plan.show_stash(answer(kept, {"name": "Foam"}, plies=1)).html).texts
    assert texts[texts.index("Kelp") :] == [
        *("Kelp", "12.0 g", "2.0 g", "10.0 g", "all that is left", "two pots"),
        *("Foam", "12.0 g", "12.0 g", "all of the lot"),
    ]


def test_a_note_is_no_number_though_it_ends_in_grams():
    lots = ({"name": "Kelp", "note": "lent Foam 5 g"}, {"name": "Foam"})
    shown = yc.show.stash(answer(*lots, plies=1)).html
    assert 'text-align:left">lent Foam 5 g</td>' in shown
    assert 'text-align:right">12.0 g</td>' in shown


def test_the_stash_has_no_column_in_which_nothing_stands():
    """What is kept back has a column where something is; a note where one is written."""
    lots = [{"name": name, "mass_g": 12.0, "colour": "#56612d"} for name in ("Kelp", "Foam")]

    def heads(*kept: dict) -> list[str]:
        plan = {"lots": [lot | more for lot, more in zip(lots, kept or ({}, {}), strict=True)]}
        html = yc.show.stash(yc.answer(yc.plan_from_data(plan))).html
        return re.findall(r"<th[^>]*>([^<]*)</th>", html)

    assert heads() == ["lot", "grams", "used", "divide"]
    assert heads({"reserve_g": 2.0}, {"note": "undyed"}) == [
        *("lot", "grams", "kept back", "used", "divide", "note"),
    ]

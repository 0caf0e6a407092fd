"""The swatch sheet and plans side by side: pages, words, scale."""

import re

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.drawn import HARD, HOSTILE, PLANS, STAGGERED, opened, plan
from tests.helpers.pictures_asked import answered
from tests.helpers.strip_pictures import SVG, parsed, stash
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.report.sheets import comparison_sheet, swatch_sheet

QUICK = 40
AS_PRINTED = 300
"""On fewer dots letters are drawn in whole pixels, and a line comes out up to a tenth longer."""


def sheet(found, form: str) -> bytes:
    return swatch_sheet(found, form, dpi=QUICK)


@pytest.mark.parametrize("form", ["pdf", "png", "svg"])
def test_the_sheet_is_the_same_every_time_and_a_whole_file(form):
    found = plan("slack_water")
    one = sheet(found, form)
    assert one == sheet(PLANS["slack_water"](), form)
    begins = {"pdf": b"%PDF-", "png": b"\x89PNG", "svg": b"<?xml"}
    assert one.startswith(begins[form])
    if form == "pdf":
        assert one.rstrip().endswith(b"%%EOF")
    if form == "svg":
        assert parsed(one).tag == f"{SVG}svg"


def test_the_sheet_is_a5():
    pdf = sheet(plan("slack_water"), "pdf")
    (box,) = set(re.findall(rb"/MediaBox *\[ *([\d. ]+)\]", pdf))
    assert pdf.count(b"/MediaBox") == 1
    left, top, right, bottom = (float(number) for number in box.split())
    assert (left, top) == (0, 0)
    assert right / 72 * 25.4 == pytest.approx(148, abs=0.1)
    assert bottom / 72 * 25.4 == pytest.approx(210, abs=0.1)
    image = opened(sheet(plan("slack_water"), "png"))
    assert np.array(image.size) / image.info["dpi"] * 25.4 == pytest.approx([148, 210], abs=0.8)


def test_the_sheet_is_printed_at_300_dots_where_nothing_is_said():
    image = opened(swatch_sheet(plan("slack_water"), "png"))
    assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)
    assert image.size == (1748, 2480)
    assert image.text["Title"] == "Slack Water"
    assert image.text["Software"] == f"yarncolor {yc.__version__}"
    assert "8 colours" in image.text["Description"]


def test_the_sheet_says_its_title_in_its_file():
    pdf = sheet(plan("slack_water"), "pdf")
    assert b"/Title (Slack Water)" in pdf
    assert f"yarncolor {yc.__version__}".encode() in pdf
    assert b"/CreationDate" not in pdf


@pytest.mark.parametrize("form", ["pdf", "png", "svg"])
def test_hostile_names_on_the_sheet_are_text(form):
    found = answered(stash(HARD), title=r"<script>$\frac$ & co", scheme=STAGGERED)
    made = sheet(found, form)
    if form == "svg":
        assert b"<script" not in made
        tags = {element.tag.rpartition("}")[2] for element in parsed(made).iter()}
        assert "script" not in tags
    if form == "png":
        assert opened(made).text["Title"] == r"<script>$\frac$ & co"


def test_a_yarn_that_is_said_at_length_is_said_whole():
    """The longest sentence there is of a plan without a thickness stands whole over its yarn."""
    found = answered(scheme={"name": "fractal", "plies": 3})
    plans = [("as planned", found), ("staggered", answered(scheme=STAGGERED))]
    for svg in (sheet(found, "svg"), comparison_sheet(plans, "svg", dpi=QUICK)):
        written = [text.text for text in parsed(svg).iter(f"{SVG}text")]
        assert strip_alt(found) in written


LONG = {
    "the longest title": {"title": "W" * 120},
    "a long title of words": {"title": "a shawl that fades from deep water to foam " * 2},
}


FEW = ("tideline", "a hundred lots")


@pytest.mark.parametrize(
    "name",
    [
        *FEW,
        *LONG,
        *(pytest.param(name, marks=pytest.mark.thorough) for name in PLANS if name not in FEW),
    ],
)
def test_nothing_on_the_sheet_runs_off_the_page(name):
    """Four millimetres at every edge stay white."""
    found = answered(**LONG[name], scheme=STAGGERED) if name in LONG else plan(name)
    page = np.asarray(opened(swatch_sheet(found, "png", dpi=AS_PRINTED)).convert("RGB"))
    edge = round(4 / 25.4 * AS_PRINTED)
    for side in (page[:edge], page[-edge:], page[:, :edge], page[:, -edge:]):
        assert (side > 245).all()


COMPARED = ("tideline", "ebb", "shore_walk", "slack_water", "two_ply_batts", "chain")


@pytest.mark.parametrize("count", [1, 6])
def test_one_to_six_plans_are_compared(count):
    plans = [(name, plan(name)) for name in COMPARED[:count]]
    image = opened(comparison_sheet(plans, dpi=QUICK))
    wide_mm, high_mm = np.array(image.size) / QUICK * 25.4
    assert wide_mm == pytest.approx(210, abs=1)
    assert high_mm == pytest.approx(12 + 44 * count, abs=1)
    assert all(name in image.text["Title"] for name, _ in plans)
    assert comparison_sheet(plans, dpi=QUICK) == comparison_sheet(plans, dpi=QUICK)


@pytest.mark.parametrize("count", [0, 7])
def test_no_plan_or_more_than_six_are_refused(count):
    plans = [("again", plan("chain"))] * count
    with pytest.raises(ValueError, match=f"1 to 6 plans, not {count}"):
        comparison_sheet(plans)


@pytest.mark.parametrize("form", ["pdf", "svg", "png"])
def test_plans_are_compared_in_every_form_under_any_name(form):
    plans = [(name, plan("chain")) for name in HOSTILE]
    made = comparison_sheet(plans, form, dpi=QUICK)
    assert made == comparison_sheet(plans, form, dpi=QUICK)
    assert b"<script" not in made or form != "svg"


def filled_mm(page: np.ndarray, box_mm: tuple[float, float, float, float]) -> np.ndarray:
    """Return which pixels of a box, by its left, top, right and bottom, are not white."""
    left, top, right, bottom = (round(side / 25.4 * 100) for side in box_mm)
    return (page[top:bottom, left:right] < 250).any(axis=2)


@pytest.mark.parametrize("share", [0.5, 0.3, 0.06])
def test_compared_yarns_are_drawn_to_one_scale(share):
    """The areas of two yarns on the sheet are as their lengths."""
    lots = stash()
    long = answered(lots, scheme=STAGGERED)
    target = {"yarn_m": share * long.layout.stretches.yarn_m}
    short = answered(lots, scheme=STAGGERED, target=target)
    page = np.asarray(
        opened(comparison_sheet([("long", long), ("short", short)], dpi=100)).convert("RGB")
    )
    areas = [filled_mm(page, (9, 6 + 44 * at + 10.6, 140, 6 + 44 * at + 43)).sum() for at in (0, 1)]
    assert areas[1] / areas[0] == pytest.approx(share, rel=0.12)


def test_compared_fabrics_are_drawn_to_one_scale():
    """Four times the grist is twice the thickness, and stitches twice as wide."""
    thin, thick = (
        answered(scheme=STAGGERED, spinning={"single_tex": tex}, plying={"twist_tpm": 60.0})
        for tex in (100.0, 400.0)
    )
    expected = knit_of(thin)[0].gauge_stitches / knit_of(thick)[0].gauge_stitches
    assert expected == pytest.approx(2, rel=0.05)
    page = np.asarray(
        opened(comparison_sheet([("thin", thin), ("thick", thick)], dpi=100)).convert("RGB")
    )
    widths = [
        filled_mm(page, (143, 6 + 44 * at + 2, 202, 6 + 44 * at + 43)).any(axis=0).sum()
        for at in (0, 1)
    ]
    assert widths[1] / widths[0] == pytest.approx(expected, rel=0.1)

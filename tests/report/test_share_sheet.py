"""A sheet to share: sizes, what is said on it, what it gives away, and that nothing overlaps."""

import io
import re
from functools import cache
from itertools import combinations

import numpy as np
import pypdf
import pytest

import yarncolor as yc
from tests.helpers.drawn import HARD, HOSTILE, PLANS, STAGGERED, opened, plan
from tests.helpers.on_sheet import Placed, pictures, rectangles, texts
from tests.helpers.pictures_asked import answered
from tests.helpers.strip_pictures import any_colours, by_column, contrast, cut_columns, rgb, stash
from yarncolor.phrases import title_of
from yarncolor.report.paper import Pen, width_mm, wrapped
from yarncolor.report.share.pictures import most_colourful_m
from yarncolor.report.share.sheet import SHARE_FORMS, share_paper, share_sheet
from yarncolor.report.share.tones import tones

MARGIN_MM, SMALL_DPI = 12, 48
DYED = {"dye": "acid dye, olive", "mordant": "citric acid", "bath_number": "3"}
DYED |= {"dyed_on": "2026-01-17", "fibre": "merino"}
AT_HOME = {"note": "for nobody else", "source": "the blue pot"}
LONG_NOTES = DYED | {"dye": "a long tale of many pots " * 12}
SIXTY = stash([f"Lot {at}" for at in range(60)], any_colours(60, 3))
HEBREW = ("אצה", "גל ים כחול", "חול רטוב", "مد وجزر", "昆布")

MADE = {
    "hard names": lambda: answered(stash(HARD), title=r"<script>$\frac$ & co", scheme=STAGGERED),
    "from the right": lambda: answered(stash(HEBREW), title="אצה וגל בים", scheme=STAGGERED),
    "wide title": lambda: answered(title="W" * 120, scheme=STAGGERED),
    "long title": lambda: answered(title="deep water to foam and back " * 4, scheme=STAGGERED),
    "dye notes": lambda: answered([lot | DYED for lot in stash()], scheme=STAGGERED),
    "long notes": lambda: answered([lot | LONG_NOTES for lot in stash()], scheme=STAGGERED),
    "one dyed lot": lambda: answered([stash()[0] | LONG_NOTES]),
    "sixty lots": lambda: answered([lot | DYED for lot in SIXTY], scheme=STAGGERED),
    "undyed": lambda: answered(stash(["Foam", "Gull"], ["#f1ead9", "#d8d2c4"])),
    "a plain stash": lambda: yc.answer(yc.plan_from_data({"lots": stash()})),
    **{
        f"{name} lots": lambda name=name: answered(stash([f"Lot {at}" for at in range(name)]))
        for name in (9, 12, 13, 17)
    },
}
OF_ALL = ("one lot", "twelve plies", "five metres", "near black", "near white", "very thick")
SAMPLED = ("ebb", "headland", "neap", "slack_water", "tide_marks")
each_plan = pytest.mark.parametrize(
    "name",
    [
        *MADE,
        *OF_ALL,
        *SAMPLED,
        *(
            pytest.param(name, marks=pytest.mark.thorough)
            for name in PLANS
            if name not in (*OF_ALL, *SAMPLED)
        ),
    ],
)


@cache
def found(name: str):
    return MADE[name]() if name in MADE else plan(name)


@cache
def sheet(name: str) -> bytes:
    return share_sheet(found(name))


@cache
def on_sheet(name: str, form: str = "png"):
    """Return a sheet with small pictures, whose letters are measured as they are printed."""
    paper = share_paper(found(name), form, dpi=SMALL_DPI)
    paper.figure.set_dpi(300)
    return paper


def seen(name: str) -> np.ndarray:
    return np.asarray(opened(sheet(name)).convert("RGB"))


@cache
def pdf(name: str, form: str = "a5") -> pypdf.PdfReader:
    """Return a page, its pictures small."""
    return pypdf.PdfReader(io.BytesIO(written(found(name), form)))


def written(answer, form: str) -> bytes:
    kind = "png" if form == "png" else "pdf"
    return share_paper(answer, form, SMALL_DPI).written(kind, title_of(answer.plan), "")


def at_px(mm: float) -> int:
    return round(mm * 1600 / 148)


def test_the_picture_is_1600_by_2000_and_says_what_it_shows():
    image = opened(sheet("slack_water"))
    assert image.size == (1600, 2000)
    assert image.text["Title"] == "Slack Water"
    assert image.text["Software"] == f"yarncolor {yc.__version__}"
    assert "8 colours" in image.text["Description"]


@pytest.mark.parametrize(
    ("form", "size_pt"),
    [("a5", (148 / 25.4 * 72, 210 / 25.4 * 72)), ("half-letter", (5.5 * 72, 8.5 * 72))],
)
def test_a_page_is_as_large_as_its_paper(form, size_pt):
    read = pdf("tideline", form)
    assert len(read.pages) == 1
    left, low, right, top = map(float, read.pages[0].mediabox)
    assert (left, low) == (0, 0)
    assert (right, top) == pytest.approx(size_pt, abs=1e-4)
    assert read.metadata["/Title"] == "Tideline"
    assert "/CreationDate" not in read.metadata


@pytest.mark.parametrize("form", SHARE_FORMS)
def test_the_same_plan_makes_the_same_bytes(form):
    assert written(PLANS["two_ply_batts"](), form) == written(plan("two_ply_batts"), form)


def test_a_form_that_there_is_not_is_told_with_those_that_there_are():
    right = 'form = "pdf": give one of png, a5, half-letter'
    with pytest.raises(yc.PlanError) as told:
        share_sheet(plan("chain"), "pdf")
    assert str(told.value) == right


@pytest.mark.parametrize("name", ["tideline", "shore_walk", "headland", "dye notes"])
def test_every_name_is_text_in_the_pdf(name):
    """Letters, not shapes: they can be looked for, copied and read aloud."""
    said = pdf(name).pages[0].extract_text()
    lines = [line.strip() for line in said.splitlines()]
    for lot in found(name).plan.lots:
        assert lot.name in lines
    assert f"{found(name).layout.stretches.yarn_m:.0f} m (" in said


def test_signs_are_signs_and_nothing_else():
    said = pdf("hard names").pages[0].extract_text()
    assert said.splitlines()[0] == r"<script>$\frac$ & co"
    for name in HOSTILE:
        assert name in said
    assert "Φύκι" in said
    assert "אצה" in said


def test_what_is_read_from_the_right_keeps_its_letters_and_their_order():
    said = [line.strip() for line in pdf("from the right").pages[0].extract_text().splitlines()]
    assert "אצה" in said
    assert {"גל", "ים", "כחול"} in [set(line.split()) for line in said]
    drawn = [text.what for text in texts(on_sheet("from the right"))]
    assert set(HEBREW[:4]) <= set(drawn)
    assert "lot 5" in drawn


def test_dye_notes_stand_by_their_lot():
    said = " ".join(pdf("dye notes").pages[0].extract_text().split())
    told = "mordant citric acid · bath 3 · 2026-01-17 · acid dye, olive"
    assert said.count(told) == 8
    assert said.count("merino") == 1


def test_what_differs_from_lot_to_lot_is_said_of_each():
    lots = [
        lot | {"fibre": fibre} for lot, fibre in zip(stash()[:2], ("merino", "silk"), strict=True)
    ]
    said = [" ".join(text.what.split()) for text in texts(share_paper(answered(lots)))]
    assert "20 g · merino" in said
    assert "24 g · silk" in said


def test_a_lot_made_of_others_says_of_which():
    said = " ".join(" ".join(text.what for text in texts(on_sheet("headland"))).split())
    assert "drafted side by side from Gull and Slate" in said


def test_what_is_written_for_oneself_stays_at_home():
    lots = [lot | DYED | AT_HOME for lot in stash()]
    kept = answered(lots, purpose="a present for nobody")
    said = " ".join(text.what for text in texts(share_paper(kept)))
    read = pypdf.PdfReader(io.BytesIO(share_sheet(kept, "a5")))
    said += read.pages[0].extract_text() + str(read.metadata)
    assert "nobody" not in said
    assert "blue pot" not in said


def named(name: str, form: str = "png") -> tuple[list[str], int]:
    """Return the swatches of a sheet and how many more lots it counts."""
    paper = on_sheet(name, form)
    more = [re.fullmatch(r"and (\d+) more lots", text.what) for text in texts(paper)]
    return [one.what for one in rectangles(paper)[0]], sum(int(one[1]) for one in more if one)


@each_plan
def test_every_lot_has_its_swatch_in_its_colour_or_is_counted(name):
    shown, more = named(name)
    used = np.unique(found(name).layout.portions.lot)
    assert shown == [found(name).palette.srgb[at] for at in used][: len(shown)]
    assert len(shown) + more == len(used)
    assert more != 1
    if len(used) <= 24:
        assert more == 0


def overlapping(one_by_one: list[Placed]) -> list[tuple[Placed, Placed]]:
    """Return pairs that lie on each other, by more than pictures are moved onto whole dots."""
    dot_mm = 25.4 / SMALL_DPI
    return [
        (one, other)
        for one, other in combinations(one_by_one, 2)
        if one.overlaps(other, dot_mm if "picture" in (one.what, other.what) else 0.25)
    ]


@each_plan
def test_nothing_overlaps_and_nothing_leaves_the_margins_of_a_picture(name):
    assert_apart(name, "png")


@pytest.mark.parametrize("name", ["long title", "sixty lots", "long notes", "slack_water"])
@pytest.mark.parametrize("form", ["a5", "half-letter"])
def test_nothing_overlaps_and_nothing_leaves_the_margins_on_paper(name, form):
    assert_apart(name, form)


def assert_apart(name: str, form: str) -> None:
    paper = on_sheet(name, form)
    swatches, bands = rectangles(paper)
    hero, fabric = pictures(paper)
    labels = [text for text in texts(paper) if any(band.holds(text) for band in bands)]
    said = [text for text in texts(paper) if text not in labels]
    assert overlapping([*said, *swatches, *bands, hero, fabric]) == []
    assert overlapping(labels) == []
    assert (hero.left, hero.right) == pytest.approx((0, paper.wide_mm), abs=0.6)
    wide, high = paper.wide_mm - MARGIN_MM, paper.high_mm - MARGIN_MM
    outside = [
        one
        for one in (*said, *swatches, *bands, fabric, *labels)
        if min(one.left, one.top) < MARGIN_MM - 0.6
        or one.right > wide + 0.6
        or one.bottom > high + 0.6
    ]
    assert outside == []


@pytest.mark.parametrize("name", ["tideline", "sixty lots", "near white"])
def test_swatches_are_painted_in_the_colours_of_the_plan(name):
    pixels = seen(name)
    for one in rectangles(on_sheet(name))[0]:
        x, y = at_px((one.left + one.right) / 2), at_px((one.top + one.bottom) / 2)
        assert tuple(pixels[y, x]) == rgb(one.what)


@pytest.mark.parametrize("name", ["tideline", "shore_walk", "neap"])
def test_the_strip_shows_what_lies_at_each_metre(name):
    """Under the border of each ply's band, over its names, every colour is the table's."""
    pixels, (_, bands) = seen(name), rectangles(on_sheet(name))
    *plies, yarn = bands
    left, right = at_px(yarn.left), at_px(yarn.right)
    inside = slice(left + 3, right - 3)
    wide = right - left
    near = cut_columns(found(name), wide)
    whole = ~(near | np.roll(near, 1) | np.roll(near, -1) | np.roll(near, 2) | np.roll(near, -2))
    expected = by_column(found(name), wide)
    for ply, band in enumerate(plies):
        row = pixels[at_px(band.top) + 2, inside]
        kept = whole[3 : wide - 3]
        wrong = np.logical_and.reduce(
            [np.abs(row.astype(int) - one[3 : wide - 3, ply]).max(axis=1) > 1 for one in expected]
        )
        is_cut = (row == pixels[5, 5]).all(axis=1)
        assert kept.mean() > 0.7
        assert (wrong & kept & ~is_cut).mean() < 0.01


def grey(colour: str) -> tuple[int, int, int]:
    """Return a colour as a grey printer has it: as light, by its linear light (IEC 61966-2-1)."""
    share = np.array(rgb(colour)) / 255
    light = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    y = float(light @ [0.2126, 0.7152, 0.0722])
    level = 12.92 * y if y <= 0.0031308 else 1.055 * y ** (1 / 2.4) - 0.055
    return (round(level * 255),) * 3


@pytest.mark.parametrize("seed", range(12))
def test_what_is_written_is_read_on_its_ground_in_colour_and_in_grey(seed):
    own = tones(answered(stash(colours=any_colours(8, seed)[: 1 + seed % 8])))
    for ink in (own.ink, own.quiet):
        assert contrast(rgb(ink), rgb(own.ground)) >= 4.5
        assert contrast(grey(ink), grey(own.ground)) >= 4.5


@pytest.mark.parametrize("name", ["near white", "near black", "tideline"])
def test_in_grey_a_swatch_has_an_edge_and_a_name(name):
    """The border is darker than what lies about it, on every side, or the swatch itself is dark."""
    own, paper = tones(found(name)), on_sheet(name)
    swatches, _ = rectangles(paper)
    for one, other in combinations(swatches, 2):
        assert not one.overlaps(other, -0.3)
    beside = [text.what for text in texts(paper)]
    assert all(lot.name in beside for lot in found(name).plan.lots)
    assert contrast(grey(own.ink), grey(own.ground)) >= 3
    pixels = np.asarray(opened(sheet(name)).convert("L")).astype(int)
    for one in swatches:
        y = at_px((one.top + one.bottom) / 2)
        edge = pixels[y, at_px(one.left) - 2 : at_px(one.left) + 4].min()
        outside = pixels[y, at_px(one.left) - 8]
        assert contrast((edge,) * 3, (outside,) * 3) >= 3


def test_the_ground_is_a_hint_of_the_fibre_and_neutral_where_that_has_no_hue():
    teal, grey_lots = (tones(answered(stash(["Kelp"], [one]))) for one in ("#1f6f78", "#777777"))
    r, g, b = rgb(teal.ground)
    assert r < min(g, b)
    assert np.ptp(rgb(grey_lots.ground)) <= 1
    for ground in (teal.ground, grey_lots.ground):
        assert min(rgb(ground)) > 235


def test_the_portrait_lies_on_the_same_ground_as_all_else():
    pixels, ground = seen("tideline"), rgb(tones(found("tideline")).ground)
    hero, fabric = pictures(on_sheet("tideline"))
    for box in (hero, fabric):
        top, left = at_px(box.top), at_px(box.left)
        corner = pixels[top : top + 12, left : left + 12]
        assert (corner == ground).all(axis=2).any()
    middle = pixels[at_px((hero.top + hero.bottom) / 2)]
    assert (np.abs(middle.astype(int) - ground).max(axis=1) > 20).mean() > 0.95


@pytest.mark.parametrize("name", ["tideline", "ebb", "chain", "one lot", "five metres"])
def test_the_portrait_is_of_a_section_of_most_colours(name):
    along = found(name).layout.stretches
    at_m = most_colourful_m(found(name))
    assert 0 < at_m < along.yarn_m
    here = along.lot[np.searchsorted(along.edges_m, at_m) - 1]
    assert len(set(here)) == max(len(set(row)) for row in along.lot.tolist())


def test_a_wide_piece_lies_over_the_lots_and_others_beside_them():
    for name, is_over in (("slack_water", True), ("tideline", False)):
        _, fabric = pictures(on_sheet(name))
        first = rectangles(on_sheet(name))[0][0]
        assert (first.top > fabric.bottom) == is_over
        assert (first.left > fabric.right) != is_over


def test_a_plan_in_ounces_and_yards_says_no_gram():
    said = [text.what for text in texts(share_paper(answered(units="imperial"), dpi=SMALL_DPI))]
    assert not [line for line in said if re.search(r"\d (g|m)\b", line)]
    assert any(re.search(r"\d yd, [\d.]+ oz", line) for line in said)


def test_a_guessed_thickness_is_no_promise():
    said = " ".join(text.what for text in texts(on_sheet("a plain stash")))
    assert "· about " in said
    assert "about" not in " ".join(text.what for text in texts(on_sheet("tideline")))


@pytest.mark.parametrize("text", ["Kelp and foam", "W" * 90, "a " * 200, "one-word", ""])
@pytest.mark.parametrize("most", [1, 2, 3])
def test_lines_fit_and_lose_nothing_but_what_an_ellipsis_says(text, most):
    pen = Pen(9.0)
    lines = wrapped(text, 30.0, pen, most)
    assert len(lines) <= most
    assert all(width_mm(line, pen) <= 30.0 for line in lines)
    kept = "".join("".join(lines).split())
    whole = "".join(text.split())
    assert kept == whole or (kept.endswith("…") and whole.startswith(kept[:-1]))


def test_its_command_writes_all_three(tmp_path, capsys):
    from yarncolor.__main__ import main

    (tmp_path / "plan.toml").write_text(
        '[[lots]]\nname = "Kelp"\ncolour = "#56612d"\nmass_g = 20\n', "utf-8"
    )
    out = tmp_path / "out"
    assert main(["share", str(tmp_path / "plan.toml"), "--out", str(out)]) == 0
    names = ["share.png", "share-a5.pdf", "share-half-letter.pdf"]
    assert sorted(path.name for path in out.iterdir()) == sorted(names)
    assert capsys.readouterr().out == f"Written to {out}: {', '.join(names)}\n"
    assert (out / "share-a5.pdf").read_bytes().startswith(b"%PDF-")
    assert opened((out / "share.png").read_bytes()).size == (1600, 2000)

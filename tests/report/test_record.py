"""The record of a yarn: planned, spun and made, its page, its numbers, and what is refused."""

import io
import json
import os
import re
import tomllib
from base64 import b64decode, b64encode
from dataclasses import replace
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

import yarncolor as yc
from yarncolor.__main__ import main
from yarncolor.answers.came_true import came_true
from yarncolor.answers.measured_yarn import Measure, found_contraction, measure
from yarncolor.pictures.yarns_made import as_made
from yarncolor.report.record.page import page
from yarncolor.report.record.photograph import photograph
from yarncolor.report.record.read import records_from_text
from yarncolor.report.record.record import record
from yarncolor.report.record.words import difference_text, measure_row, record_text, verdict_text
from yarncolor.report.record.yarns import Yarn

PLAN = """\
title = "Low Tide"
[[lots]]
name = "Kelp"
colour = "#4e5b31"
mass_g = 100.0
dye = "olive over yellow"
mordant = "citric acid"
bath_number = 3
dyed_on = 2026-01-12
source = "the blue pot"
[[lots]]
name = "Foam"
colour = "#e9e2d5"
mass_g = 100.0
[scheme]
plies = 2
[spinning]
single_tex = 100.0
minutes_per_g = 3.0
[plying]
contraction = 0.1
[fabric]
stitches = 30
finishing_shrinkage = 0.05
"""
"""Two plies of 100 g at 100 tex: 1,000 m of single each, 900 m of yarn, 855 m washed."""

MADE = """\
[made]
turns = 440
turn_m = 2.0
mass_g = 190.0
washed_m = 800.0
wpi = 14.0
skeins = 3
hours_spinning = 11.0
spun_from = 2026-02-01
plied_on = 2026-02-09
note = "soft"
"""
SPUN = """\
[[spun]]
ply = 1
row = 1
length_m = 500.0
[[spun]]
ply = 1
row = 2
length_m = 480.0
[[spun]]
ply = 2
through = 2
"""


def answer_of(text: str) -> "yc.answer":
    return yc.answer(yc.plan_from_data(tomllib.loads(text)))


def in_folder(folder: Path, **plans: str) -> list[str]:
    """Return the paths of plan files with these texts."""
    for name, text in plans.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return [str(folder / f"{name}.toml") for name in plans]


def photo(folder: Path, name: str, size=(320, 200), **more) -> None:
    """Write a picture, red at its top and green below."""
    pixels = np.zeros((size[1], size[0], 3), np.uint8)
    pixels[: size[1] // 2, :, 0], pixels[size[1] // 2 :, :, 1] = 200, 160
    Image.fromarray(pixels).save(folder / name, **more)


def by_name(answer) -> dict[str, Measure]:
    return {one.name: one for one in record(answer).measures}


# --- measures, by hand ---------------------------------------------------------------------------


def test_planned_and_made_stand_side_by_side_with_signs():
    found = by_name(answer_of(PLAN + MADE))
    length = found["length_m"]
    assert (length.planned, length.spun, length.made) == (pytest.approx(900), None, 880)
    assert length.made_less_planned == pytest.approx(-20)
    assert length.made_less_spun is None
    assert found["finished_length_m"].made_less_planned == pytest.approx(800 - 855)
    assert found["lost_in_plying"].made == pytest.approx(1 - 880 / 1000)
    assert found["lost_in_wash"].made == pytest.approx(1 - 800 / 880)
    assert found["lost_in_wash"].planned == pytest.approx(0.05)
    assert found["m_per_100g"].made == pytest.approx(880 / 190 * 100)
    assert found["m_per_100g"].planned == pytest.approx(900 / 200 * 100)
    assert found["hours_spinning"].planned == pytest.approx(200 * 3 / 60)
    assert found["hours_spinning"].made_less_planned == pytest.approx(1.0)
    assert found["skeins"].made_less_planned == 2


def test_what_was_spun_stands_between_and_plying_loses_of_the_shortest_single():
    """Of 980 m and 1,000 m of single: 882 m of yarn at a tenth lost, and 880 m came out."""
    answer = answer_of(PLAN + SPUN + MADE)
    length = by_name(answer)["length_m"]
    assert (length.planned, length.spun) == (pytest.approx(900), pytest.approx(882))
    assert length.spun_less_planned == pytest.approx(-18)
    assert length.made_less_spun == pytest.approx(-2)
    assert found_contraction(answer.layout) == pytest.approx(1 - 880 / 980)


def test_of_a_chain_a_third_of_its_single_is_the_shortest():
    """200 g at 100 tex are 2,000 m of single, 666.67 m of loops."""
    text = PLAN.replace("plies = 2", 'name = "chain"') + "[made]\nlength_m = 600.0\n"
    assert found_contraction(answer_of(text).layout) == pytest.approx(1 - 600 / (2000 / 3))


def test_length_by_turns_and_as_measured_the_measured_one_counts():
    both = MADE.replace("turns = 440", "length_m = 870.0\nturns = 440")
    assert measure("length_m", answer_of(PLAN + both)).made == 870


def test_nothing_made_and_nothing_spun_is_not_known():
    found = record(answer_of(PLAN))
    assert found.spun == "nothing"
    assert {one.made for one in found.measures} == {None}
    assert {one.spun for one in found.measures} == {None}


def test_what_is_kept_of_a_lot_is_all_that_is_written_down_of_it():
    kelp, foam = record(answer_of(PLAN)).lots
    assert (kelp.dye, kelp.mordant, kelp.bath) == ("olive over yellow", "citric acid", "3")
    assert (kelp.dyed_on, kelp.source, kelp.mass_g) == ("2026-01-12", "the blue pot", 100.0)
    assert (foam.dye, foam.bath, foam.note) == ("", "", "")


def test_a_later_bath_and_a_blend_say_of_what():
    more = (
        '[[lots]]\nname = "Pale"\nmass_g = 10\n'
        'bath = { of = "Kelp", number = 2, exhaustion = 0.6, undyed = "Foam" }\n'
        '[[lots]]\nname = "Both"\nmass_g = 10\nblend = { Kelp = 1, Foam = 1 }\n'
    )
    lots = {lot.name: lot for lot in record(answer_of(more + PLAN.partition("\n")[2])).lots}
    assert lots["Pale"].bath == "bath 2 of Kelp on Foam"
    assert lots["Both"].bath == "carded from Kelp and Foam"


def test_what_is_left_over_is_what_found_no_partner():
    """20 m of the longer single at 100 tex are 2 g; 480 m took 48 g of the 50 g of Foam."""
    left = {(one.lot, one.ply): one.mass_g for one in record(answer_of(PLAN + SPUN)).left_over}
    assert left == {("Kelp", 2): pytest.approx(2.0), ("Foam", None): pytest.approx(2.0)}


# --- whether advice came true --------------------------------------------------------------------

DOUBLED = PLAN.replace(
    "plies = 2", 'name = "fractal"\ndivisions = [1, 2]\nsequence = ["Kelp", "Foam", "Kelp"]'
).replace("mass_g = 100.0", "mass_g = 200.0", 1)
ALL_BUT = "[[spun]]\nply = 1\nthrough = 3\n[[spun]]\nply = 2\nthrough = {}\n"


def verdict(kind: str, text: str):
    return came_true(kind, answer_of(text))


def test_a_run_that_was_spun_double_came_true_and_one_that_was_not_did_not():
    assert "doubled_run" in {one.kind for one in yc.advice_on(answer_of(DOUBLED))}
    assert verdict("doubled_run", DOUBLED) is None
    assert verdict("doubled_run", DOUBLED + ALL_BUT.format(3)) is None
    assert verdict("doubled_run", DOUBLED + ALL_BUT.format(6)).came_true
    other = ALL_BUT.format(2) + '[[spun]]\nply = 2\nrow = 3\nlot = "Foam"\n'
    other += '[[spun]]\nply = 2\nrow = 4\nlot = "Foam"\n[[spun]]\nply = 2\nthrough = 6\n'
    assert not verdict("doubled_run", DOUBLED + other).came_true


def test_a_target_that_the_yarn_misses_came_true():
    short = PLAN + "[target]\nyarn_m = 1000.0\n"
    assert verdict("short_of_target", short) is None
    assert verdict("short_of_target", short + MADE).came_true
    enough = "[made]\nlength_m = 1010.0\n"
    assert not verdict("short_of_target", short + enough).came_true
    by_mass = PLAN + "[target]\nyarn_g = 195.0\n" + MADE
    found = verdict("short_of_target", by_mass)
    assert (found.came_true, found.told, found.found) == (True, 195.0, 190.0)


def test_hours_and_skeins_are_told_by_what_was_counted():
    assert not verdict("hours", PLAN + MADE).came_true
    slow = MADE.replace("11.0", "13.0")
    assert verdict("hours", PLAN + slow).came_true
    assert verdict("skeins", PLAN + MADE).came_true
    assert not verdict("skeins", PLAN + MADE.replace("skeins = 3", "skeins = 1")).came_true


def test_a_grist_that_drifts_shows_in_the_yarn_or_does_not():
    thick = SPUN.replace("500.0", "400.0\nmass_g = 50.0").replace("480.0", "400.0\nmass_g = 50.0")
    assert "grist_drifts" in {one.kind for one in record(answer_of(PLAN + thick)).advice}
    heavy = "[made]\nlength_m = 700.0\nmass_g = 180.0\n"
    light = "[made]\nlength_m = 720.0\nmass_g = 150.0\n"
    assert verdict_text(record(answer_of(PLAN + thick)).advice[-1]) == "came true: so it was spun"
    assert verdict("grist_drifts", PLAN + thick + heavy).came_true
    assert not verdict("grist_drifts", PLAN + thick + light).came_true


def test_singles_that_do_not_run_out_together_are_told_by_what_was_spun():
    """A free plan whose plies have 80 g and 120 g: 400 m of single are left at 100 tex."""
    free = PLAN.replace(
        "plies = 2",
        'name = "free"\nportions = [{ ply = 1, lot = "Kelp", mass_g = 80.0 }, '
        '{ ply = 2, lot = "Foam", mass_g = 100.0 }, { ply = 2, lot = "Kelp", mass_g = 20.0 }]',
    )
    spun = "[[spun]]\nply = 1\nrow = 1\nlength_m = {}\n[[spun]]\nply = 2\nthrough = 2\n"
    left = verdict("runs_out", free + spun.format(900.0))
    assert (left.came_true, left.told) == (True, pytest.approx(400.0))
    assert left.found == pytest.approx(300.0)
    assert not verdict("runs_out", free + spun.format(1200.0)).came_true


def test_of_what_nothing_measured_tells_nothing_is_said():
    assert verdict("near_twins", PLAN + SPUN + MADE) is None
    assert all(one.came_true is None for one in record(answer_of(DOUBLED)).advice)


def test_advice_from_what_was_spun_is_so_by_what_lies_on_the_bobbins():
    """A row left out, another lot, a piece too many, a lot that was too little, a heavy bobbin."""
    spun = DOUBLED + ALL_BUT.format(2) + '[[spun]]\nply = 2\nrow = 4\nlot = "Foam"\nmass_g = 90.0\n'
    spun += '[[spun]]\nply = 2\nlot = "Kelp"\nmass_g = 5.0\n'
    found = {one.kind: one for one in record(answer_of(spun)).advice}
    for kind in ("left_out_row", "extra_piece", "other_lot"):
        assert verdict_text(found[kind]) == "came true: so it was spun"
    assert verdict_text(found["short_lot"]) == "not all is spun yet"
    whole = spun + "[[spun]]\nply = 2\nthrough = 6\n"
    assert verdict("short_lot", whole).came_true
    assert verdict("more_than_said", whole).by.name == "SCALE"


def test_a_lot_that_was_never_used_lies_there_or_was_spun_after_all():
    spare = PLAN.replace(
        "[scheme]", '[[lots]]\nname = "Dune"\ncolour = "#c9b48a"\nmass_g = 9.0\n[scheme]'
    )
    spare = spare.replace("plies = 2", 'plies = 2\nsequence = ["Kelp", "Foam"]')
    rows = "[[spun]]\nply = {}\nthrough = 2\n"
    spun = rows.format(1) + rows.format(2)
    assert verdict("unused_lot", spare) is None
    assert verdict("unused_lot", spare + spun).came_true
    dune = '[[spun]]\nply = 1\nlot = "Dune"\nmass_g = 9.0\n'
    assert not verdict("unused_lot", spare + spun + dune).came_true


def test_a_piece_and_an_uneven_hand_are_told_by_the_metres_that_came_out():
    """800 m came out of the wash: too little for many rows, enough for few."""
    for rows, is_short in ((2000, True), (100, False)):
        text = PLAN.replace("stitches = 30\n", f"stitches = 30\nrows = {rows}\n") + MADE
        found = verdict("short_of_piece", text)
        assert (found.came_true, found.found) == (is_short, 800.0)
    uneven = PLAN.replace("minutes_per_g = 3.0", "minutes_per_g = 3.0\nvariation = 0.2")
    assert verdict("uneven", uneven) is None
    assert verdict("uneven", uneven + MADE).came_true
    assert not verdict("uneven", uneven + "[made]\nlength_m = 900.0\n").came_true


# --- words ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "difference", "planned", "says"),
    [
        ("length_m", -20.0, 900.0, "−20 m (−2%)"),
        ("length_m", 1.7, 403.0, "+1.7 m"),
        ("mass_g", 0.01, 100.0, "the same"),
        ("lost_in_plying", 0.021, 0.1, "+2.1 m in 100 m"),
        ("hours_spinning", -0.5, 10.0, "−30 min (−5%)"),
        ("hours_spinning", 0.001, 10.0, "the same"),
        ("skeins", 1.0, 2.0, "+1"),
        ("length_m", None, 900.0, "–"),
        ("what others add", 2.0, 3.0, "+2"),
    ],
)
def test_a_difference_has_its_sign(name, difference, planned, says):
    assert difference_text(name, difference, planned) == says


def test_a_record_in_words_says_all_of_it():
    text = record_text(record(answer_of(PLAN + SPUN + MADE)))
    assert "spun 2026-02-01, plied 2026-02-09" in text
    assert re.search(r"length as plied +900 m +882 m +880 m +−20 m \(−2%\)", text)
    assert "2.0 g of Kelp, on the bobbin of ply 2" in text


def test_a_column_of_which_nothing_is_known_is_left_out():
    text = record_text(record(answer_of(PLAN + MADE)))
    assert "as spun" not in text.partition("Nothing is written down")[0]
    assert re.search(r"length as plied +900 m +880 m +−20 m", text)
    assert "made" not in record_text(record(answer_of(PLAN))).splitlines()[2]


def test_every_verdict_has_words():
    text = DOUBLED + ALL_BUT.format(6) + MADE + "[target]\nyarn_m = 1000.0\n"
    told = [verdict_text(one) for one in record(answer_of(text)).advice]
    assert any(one.startswith("came true: the longest such run is ") for one in told)
    assert all("None" not in one and "_" not in one for one in told)


def test_on_what_planned_lengths_hang_is_said_on_the_bench_as_on_the_page():
    """Nobody said how thick the single is; a yarn of which it was said says nothing of it."""
    guess = Yarn("low.toml", answer_of(PLAN.replace("single_tex = 100.0\n", "") + MADE))
    hangs = "How thick the single is was not said: what is planned holds if your single is about"
    assert hangs in yc.record.measures(guess).text
    assert hangs in page(guess).decode()
    assert "was not said" not in yc.record.measures(Yarn("low.toml", answer_of(PLAN + MADE))).text


# --- the page ------------------------------------------------------------------------------------


class Page(HTMLParser):
    """What a page holds: tags, addresses, and its text."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.text = ""
        self.feed(page.decode())

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data):
        self.text += data


HOSTILE = '<img src=x onerror=alert(1)> & "Kelp"'


@pytest.fixture
def written(tmp_path) -> dict[str, bytes]:
    """Return the files of two yarns by name, the first with a photograph and hostile texts."""
    photo(tmp_path, "yarn.jpg")
    hostile = json.dumps(HOSTILE)
    first = PLAN.replace('"Low Tide"', hostile).replace('"Kelp"', hostile)
    first = first.replace('"olive over yellow"', hostile)
    files = in_folder(
        tmp_path,
        first=first + MADE.replace('"soft"', hostile) + 'picture = "yarn.jpg"\n',
        second=PLAN + SPUN,
    )
    paths = yc.record.write(yc.record.yarns(files), tmp_path / "out")
    return {path.name: path.read_bytes() for path in paths}


def test_each_yarn_has_a_page_and_several_have_one_together(written):
    assert set(written) == {
        *("first.html", "second.html", "all-yarns.html", "all-yarns.png", "record.json")
    }


def test_a_page_loads_nothing_and_allows_only_its_own_style(written):
    for name in ("first.html", "second.html", "all-yarns.html"):
        text = written[name].decode()
        style = re.search(r"<style>(.*?)</style>", text, re.S)[1]
        fingerprint = b64encode(sha256(style.encode()).digest()).decode()
        (policy,) = re.findall(r'Content-Security-Policy" content="([^"]*)"', text)
        assert policy.startswith(
            f"default-src 'none'; style-src 'sha256-{fingerprint}'; img-src data:;"
        )
        page = Page(written[name])
        assert "script" not in page.tags
        addresses = [value for key, value in page.attributes if key in ("src", "href")]
        assert all(one.startswith("data:") or one in written for one in addresses)
        assert not any(key == "style" or key.startswith("on") for key, _ in page.attributes)
        assert "url(" not in style
        assert "@import" not in style


def test_every_text_of_a_plan_is_text_on_its_page(written):
    page = Page(written["first.html"])
    assert page.tags.count("img") == 2  # the photograph and the strips
    assert page.text.count(HOSTILE) >= 5  # title, heading, name, dye, note
    assert Page(written["all-yarns.html"]).text.count(HOSTILE) == 1


def test_a_page_says_planned_made_dye_notes_and_what_is_left(written):
    text = " ".join(Page(written["first.html"]).text.split())
    for words in ("900 m", "880 m", "−20 m (−2%)", "citric acid", "2026-01-12", "the blue pot"):
        assert words in text
    assert "Left over, as planned" in text
    assert "Left over 2.0 g of Kelp, on the bobbin of ply 2" in " ".join(
        Page(written["second.html"]).text.split()
    )


def test_the_photograph_on_the_page_is_the_one_that_was_named(written):
    sources = [value for key, value in Page(written["first.html"]).attributes if key == "src"]
    (jpeg,) = (one for one in sources if one.startswith("data:image/jpeg;base64,"))
    image = Image.open(io.BytesIO(b64decode(jpeg.partition(",")[2])))
    assert image.size == (320, 200)
    assert np.argmax(image.getpixel((10, 10))) == 0
    assert np.argmax(image.getpixel((10, 190))) == 1


def test_several_yarns_are_on_one_scale():
    """A yarn of half the length has a strip half as wide."""
    long, short = answer_of(PLAN), answer_of(PLAN + "[made]\nlength_m = 450.0\n")
    assert as_made(short).layout.stretches.yarn_m == 450.0
    shown = [
        yc.record.yarns.__globals__["Yarn"](f"{name}.toml", one)
        for name, one in (("long", long), ("short", replace_title(short)))
    ]
    picture = yc.record.side_by_side(shown)
    pixels = np.asarray(Image.open(io.BytesIO(picture.png)).convert("RGB")).astype(int)
    olive = np.abs(pixels - [0x4E, 0x5B, 0x31]).max(axis=2) < 24
    cream = np.abs(pixels - [0xE9, 0xE2, 0xD5]).max(axis=2) < 12
    rows = np.flatnonzero((olive | cream).sum(axis=1) > 300)
    first, second = rows[0] + 5, rows[-1] - 5
    wide = [np.ptp(np.flatnonzero((olive | cream)[row])) for row in (first, second)]
    assert wide[1] / wide[0] == pytest.approx(0.5, abs=0.01)


def replace_title(answer):
    plan = replace(answer.plan, title="Half")
    return yc.answer(plan)


# --- the photograph ------------------------------------------------------------------------------


def test_a_photograph_is_small_upright_and_says_nothing_of_place_or_time(tmp_path):
    exif = Image.Exif()
    exif[0x0112] = 6  # turned by a quarter
    exif[0x0132] = "2026:02:01 10:00:00"
    exif.get_ifd(0x8825)[1] = "N"
    photo(tmp_path, "turned.jpg", (3000, 1500), exif=exif, comment=b"at home")
    with Image.open(tmp_path / "turned.jpg") as as_it_was:
        assert len(as_it_was.getexif()) == 3
    small = photograph(str(tmp_path / "plan.toml"), "turned.jpg")
    image = Image.open(io.BytesIO(small))
    assert max(image.size) <= 1400
    assert image.size[0] < image.size[1]
    assert len(image.getexif()) == 0
    assert "comment" not in image.info
    assert "icc_profile" not in image.info


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("none.jpg", None, "there is no such file beside the plan"),
        ("text.jpg", b"no picture", "is no picture that can be shown; give a JPEG, PNG, WebP or"),
        ("cut.png", None, "is no picture that can be shown"),
        ("folder", None, "there is no such file beside the plan"),
        ("away.jpg", None, "it leads out of the folder of the plan; put it there"),
    ],
)
def test_what_is_no_picture_is_told(tmp_path, name, content, says):
    home = tmp_path / "home"
    home.mkdir()
    photo(tmp_path, "elsewhere.jpg")
    if content is not None:
        (home / name).write_bytes(content)
    if name == "cut.png":
        photo(home, name)
        (home / name).write_bytes((home / name).read_bytes()[:200])
    if name == "folder":
        (home / name).mkdir()
    if name == "away.jpg":
        os.symlink(tmp_path / "elsewhere.jpg", home / name)
    with pytest.raises(yc.PlanError) as told:
        photograph(str(home / "plan.toml"), name)
    assert str(told.value).startswith(f'{home / "plan.toml"}: made: picture = "{name}": {says}')


# --- the command ---------------------------------------------------------------------------------


def test_the_command_writes_and_says_what_it_wrote(tmp_path, capsys):
    files = in_folder(tmp_path, tide=PLAN + SPUN + MADE)
    assert main(["record", *files, "--out", str(tmp_path / "out")]) == 0
    printed = capsys.readouterr()
    assert printed.out.splitlines()[0] == "Low Tide"
    assert printed.out.splitlines()[-1].endswith(": tide.html, record.json")
    assert {path.name for path in (tmp_path / "out").iterdir()} == {"tide.html", "record.json"}


def test_every_fault_of_every_file_is_told_and_nothing_is_written(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "other").mkdir()
    in_folder(
        tmp_path,
        one=PLAN,
        two=PLAN,
        three=PLAN.replace("Low Tide", "Ebb") + '[made]\npicture = "gone.jpg"\n',
        four="lots = []\n",
        **{"all-yarns": PLAN.replace("Low Tide", "Neap")},
    )
    in_folder(tmp_path / "other", one=PLAN.replace("Low Tide", "Spring"))
    names = ("one", "two", "three", "four", "xyzzy9", "other/one", "all-yarns")
    before = sorted(tmp_path.rglob("*"))
    assert main(["record", *(f"{name}.toml" for name in names), "--out", "out"]) == 2
    assert sorted(tmp_path.rglob("*")) == before
    assert capsys.readouterr().err.splitlines() == [
        'three.toml: made: picture = "gone.jpg": there is no such file beside the plan',
        "four.toml: lots = []: give 1 to 500 lots, each as a [[lots]] table",
        "xyzzy9.toml: there is no such file",
        'two.toml: title = "Low Tide": one.toml has that name too; give each plan a title of its '
        "own",
        "other/one.toml: its page would be that of one.toml; give the file another name",
        "all-yarns.toml: its page would be that of all yarns; give the file another name",
    ]


def test_no_file_at_all_is_told(tmp_path, capsys):
    assert main(["record", "--out", str(tmp_path / "out")]) == 2
    assert capsys.readouterr().err == "FILE: is missing; give one plan file or more\n"
    assert not (tmp_path / "out").exists()


# --- read back -----------------------------------------------------------------------------------


def test_a_record_is_read_back_as_it_was(tmp_path):
    files = in_folder(
        tmp_path, tide=PLAN + SPUN + MADE, ebb=DOUBLED.replace("Low Tide", "Ebb") + MADE
    )
    yarns = yc.record.yarns(files)
    yc.record.write(yarns, tmp_path / "out")
    again = yc.record.read(tmp_path / "out" / "record.json")
    assert again == tuple(yarn.record for yarn in yarns)
    assert measure_row(again[0].measures[0])[-1] == "−20 m (−2%)"
    data = json.loads((tmp_path / "out" / "record.json").read_text(encoding="utf-8"))
    assert data["yarns"][0]["measures"][0]["made_less_planned"] == pytest.approx(-20)


def good() -> dict:
    one = yc.record.yarns.__globals__["Yarn"]("tide.toml", answer_of(PLAN + MADE))
    return yc.record.numbers([one])


OTHER = "this record is of another format; formats up to 1 can be read"
NONE = 'is no record of yarns, which says "yarncolor record"; give a record.json'


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"format": 2}, [f"record: format = 2: {OTHER}"]),
        ({"format": True}, [f"record: format = true: {OTHER}"]),
        ({"kind": "plan"}, [f'record: kind = "plan": {NONE}']),
        ({"yarns": []}, ["record: yarns: holds no yarn"]),
        ({"yarns": "Kelp"}, ['record: yarns = "Kelp": give a list']),
        ({"yarns": [3]}, ["record: yarns 1 = 3: give a table"]),
    ],
)  # fmt: skip
def test_what_is_no_record_is_told(change, says):
    with pytest.raises(yc.PlanError) as told:
        records_from_text(json.dumps(good() | change), "record")
    assert str(told.value).splitlines() == says


def test_every_wrong_value_of_a_record_is_told_with_its_place():
    data = good()
    yarn = data["yarns"][0]
    del yarn["scheme"]
    yarn["plies"] = 2.5
    yarn["measures"][0]["made"] = "long"
    yarn["lots"][1]["mass_g"] = 10**400
    with pytest.raises(yc.PlanError) as told:
        records_from_text(json.dumps(data), "record")
    assert [line[:62] for line in str(told.value).splitlines()] == [
        "record: yarns 1: scheme: is missing",
        "record: yarns 1: plies = 2.5: give a whole number",
        'record: yarns 1: measures 1: made = "long": give a number',
        "record: yarns 1: lots 2: mass_g = 1" + "0" * 27,
    ]


def test_what_is_no_table_is_no_record():
    with pytest.raises(yc.PlanError, match=r"record: holds no record; give a record\.json"):
        records_from_text("[]", "record")


@pytest.mark.parametrize("text", ["", "{", "[NaN]", '{"format": Infinity}', "[" * 100_000])
def test_what_is_no_json_is_told(text):
    with pytest.raises(yc.PlanError, match="record: not JSON"):
        records_from_text(text, "record")


def test_a_record_that_is_not_there_or_not_text_is_told(tmp_path):
    with pytest.raises(yc.PlanError, match="cannot be read"):
        yc.record.read(tmp_path / "none.json")
    (tmp_path / "bytes.json").write_bytes(b"\xff\xfe{")
    with pytest.raises(yc.PlanError, match=r"is not UTF-8; give a record\.json"):
        yc.record.read(tmp_path / "bytes.json")


# --- notebooks -----------------------------------------------------------------------------------


def test_what_a_notebook_shows_is_the_same(tmp_path):
    (yarn,) = yc.record.yarns(in_folder(tmp_path, tide=PLAN + SPUN + MADE))
    assert "−20 m (−2%)" in yc.record.measures(yarn).text
    assert "citric acid" in yc.record.notes(yarn).html
    assert "880 m" in yc.record.table([yarn]).text
    assert yc.record.picture(yarn).alt.startswith(
        "Low Tide: as planned 900 m, as spun 882 m and as it came out 880 m of yarn."
    )
    assert yc.record.advice(yarn).text == "The advice had nothing to say."
    assert yc.record.summary(yarn) == record_text(yarn.record)

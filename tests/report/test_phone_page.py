"""The page for a phone as a file: what it is told, what it may load, and how text stands in it."""

import json
import re
from base64 import b64encode
from hashlib import sha256

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from tests.helpers.sized_plans import answered
from yarncolor.report.phone.facts import facts
from yarncolor.report.phone.page import wheel_html

HOSTILE = "</script><!--\u2028<b>&\"'"


def told(page: bytes) -> dict:
    """Return the data that stand in a page."""
    return json.loads(re.search(rb'id="plan">(.*?)</script>', page, re.S)[1])


def lots(*names: str, mass_g: float = 12.0, **tables: dict) -> dict:
    rows = [{"name": name, "mass_g": mass_g, "colour": "#56612d"} for name in names]
    return {"lots": rows, **tables}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_rows_weights_and_words_are_those_of_the_plan(path):
    answer = yc.answer(yc.read_plan(path))
    said, page = yc.to_dict(answer), told(wheel_html(answer))
    names = [lot["name"] for lot in page["lots"]]
    for single, ply in zip(said["singles"], page["plies"], strict=True):
        assert [row["lot"] for row in single["portions"]] == [
            names[row["lot"]] for row in ply["rows"]
        ]
        for portion, row in zip(single["portions"], ply["rows"], strict=True):
            near = {"abs": answer.resolved.step_g / 2} if "strip" in row["words"] else {}
            grams = pytest.approx(portion["weigh_g"], **near)
            assert row["weigh"] == "" or float(row["weigh"]) == grams
    assert page["plying"]["yarn_m"] == pytest.approx(said["yarn"]["length_m"])


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_what_comes_onto_a_bobbin_adds_up_to_what_it_weighs(path):
    """Grams of each row, added up bobbin after bobbin, against the weights of full bobbins."""
    answer = yc.answer(yc.read_plan(path))
    for k, ply in enumerate(facts(answer)["plies"]):
        spun = sum(row["gain_g"] for row in ply["rows"]) * ply["strands"]
        put = sum(row["put_g"] for row in ply["rows"])
        assert spun == pytest.approx(put * (1 - answer.resolved.spin_loss))
        assert put == pytest.approx(float(answer.put_g[answer.layout.portions.of_ply(k)].sum()))


def test_a_row_that_begins_on_one_bobbin_and_ends_on_the_next_counts_there():
    """24 g on bobbins of 10 g: two rows of 12 g; sums by hand."""
    bobbins = {"capacity_g": 10.0, "tare_g": [60.0, 61.0, 62.0]}
    (ply,) = facts(answered(lots("Kelp", "Foam", scheme={"plies": 1}, bobbins=bobbins)))["plies"]
    first, second = ply["rows"]
    assert (first["bobbin"], second["bobbin"]) == (2, 3)
    assert ply["tares_g"] == [60.0, 61.0, 62.0]
    assert len(first["full"]) == len(second["full"]) == 1
    assert first["full"][0].startswith("Bobbin 1 is full within this piece, ")


def test_text_of_the_plan_is_data_and_nothing_else():
    page = wheel_html(answered(lots(HOSTILE, "Kelp", title=HOSTILE[:-4]))).decode()
    assert page.count("<script") == page.count("</script>") == 2
    assert HOSTILE not in page
    assert told(page.encode())["lots"][0]["name"] == HOSTILE


def test_the_file_forbids_all_loading_and_names_its_own_script_and_style():
    page = wheel_html(answered(lots("Kelp"))).decode()
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]*)"', page)
    rules = dict(rule.split(" ", 1) for rule in policy.split("; "))
    assert set(rules) == {"default-src", "script-src", "style-src", "base-uri", "form-action"}
    assert {rules[each] for each in ("default-src", "base-uri", "form-action")} == {"'none'"}
    for rule, tag in (("script-src", 'script type="module"'), ("style-src", "style")):
        (text,) = re.findall(rf"<{tag}>(.*?)</", page, re.S)
        digest = b64encode(sha256(text.encode()).digest()).decode()
        assert rules[rule] == f"'sha256-{digest}'"
    assert re.findall(r'(?:src|href)=|https?:|url\(|@import|style="', page) == []


def test_the_same_plan_gives_the_same_bytes():
    data = lots("Kelp", "Foam")
    assert wheel_html(answered(data)) == wheel_html(answered(data))


def test_changes_nearer_than_a_hand_are_told_together():
    """Three lots of 12 g on three plies of 100 tex: all change together every 40 m."""
    changes = facts(answered(lots("Kelp", "Foam", "Dune", scheme={"plies": 3})))["plying"][
        "changes"
    ]
    assert [each["at_m"] for each in changes] == pytest.approx([40.0, 80.0])
    assert [each["plies"] for each in changes] == [
        [[ply, before, before - 1] for ply in (1, 2, 3)] for before in (2, 1)
    ]


def test_a_chain_changes_where_its_single_is_joined():
    """Two lots of 12 g at 100 tex: 240 m of single, 80 m of yarn, the join at half."""
    page = facts(answered(lots("Kelp", "Foam", scheme={"name": "chain"})))
    (change,) = page["plying"]["changes"]
    assert change == {"at_m": pytest.approx(40.0), "plies": [[1, 1, 0]]}


def test_the_ends_of_skeins_stand_among_the_changes():
    tables = {"scheme": {"plies": 2}, "bobbins": {"plying_capacity_g": 20.0}}
    page = facts(answered(lots("Kelp", "Foam", "Dune", **tables)))
    assert [each["skein"] for each in page["plying"]["changes"] if "skein" in each] == [1]
    assert page["plying"]["changes"] == sorted(
        page["plying"]["changes"], key=lambda each: each["at_m"]
    )


def test_rows_of_another_order_or_other_grams_have_another_mark():
    marks = [
        facts(answered(data))["rows_mark"]
        for data in (
            lots("Kelp", "Foam"),
            lots("Kelp", "Foam", title="Named"),
            lots("Foam", "Kelp"),
            lots("Kelp", "Foam", mass_g=12.5),
        )
    ]
    assert marks[0] == marks[1]
    assert len(set(marks)) == 3

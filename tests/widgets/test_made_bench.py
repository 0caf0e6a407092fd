"""What came out, on the page: a form whose texts become the plan, measures beside it, a record."""

import datetime

import pytest

from tests.helpers.paths import TIDELINE
from yarncolor.editing.editor import Editor
from yarncolor.widgets.made_bench import MadeBench


@pytest.fixture
def bench(tmp_path) -> MadeBench:
    path = tmp_path / "tideline.toml"
    path.write_bytes(TIDELINE.read_bytes())
    return MadeBench(Editor.opened(path), tmp_path / "out")


def put(bench: MadeBench, key: str, text: str) -> dict:
    """Type a text into a field and return the field as it stands then."""
    bench.form.handle({"do": "put", "name": f"made.{key}", "text": text}, [])
    bench.refresh()
    parts = [part for group in bench.form.state()["groups"] for part in group["parts"]]
    fields = {field["name"]: field for part in parts for field in part["fields"]}
    return fields[f"made.{key}"]


def test_what_is_typed_becomes_the_plan_and_stands_beside_it(bench):
    assert put(bench, "length_m", "520 m")["fault"] == ""
    assert put(bench, "plied_on", "2026-03-01")["text"] == "2026-03-01"
    put(bench, "note", "soft")
    made = bench.editor.plan.made
    assert (made.length_m, made.note) == (520.0, "soft")
    assert made.plied_on == datetime.date(2026, 3, 1)
    assert "<td" in bench.table.value
    assert "520 m" in bench.table.value


def test_turns_wait_for_the_length_of_one(bench):
    assert put(bench, "turns", "300")["waits"]
    assert bench.editor.plan.made is None
    put(bench, "turn_m", "1,5")
    assert bench.editor.plan.made.plied_m == 450.0


def test_what_is_emptied_is_gone_from_the_plan(bench):
    put(bench, "mass_g", "180")
    put(bench, "mass_g", "")
    assert bench.editor.plan.made is None
    assert bench.editor.is_saved


@pytest.mark.parametrize(
    ("key", "text", "says"),
    [
        ("plied_on", "1 March", "a date"),
        ("picture", "../yarn.jpg", "outside the folder of the plan"),
        ("skeins", "two and a half", "how many skeins"),
    ],
)
def test_what_is_wrong_is_told_beside_its_field(key, text, says, bench):
    field = put(bench, key, text)
    assert says in field["fault"]
    assert field["text"] == text
    assert bench.editor.plan.made is None


def test_the_record_is_written_of_the_plan_as_it_stands(bench, tmp_path):
    put(bench, "length_m", "520")
    bench.button.click()
    assert {path.name for path in (tmp_path / "out").iterdir()} == {"tideline.html", "record.json"}
    assert "520 m" in (tmp_path / "out" / "tideline.html").read_text(encoding="utf-8")
    assert "Written: " in bench.said.value


def test_a_picture_that_is_not_there_is_told_and_nothing_is_written(bench, tmp_path):
    put(bench, "picture", "<b>.jpg")
    bench.button.click()
    assert "there is no such file beside the plan" in bench.said.value
    assert "<b>" not in bench.said.value
    assert not (tmp_path / "out").exists()

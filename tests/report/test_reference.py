"""The keys of a plan file as tables: each with what it says, its range and its default."""

import pytest

from yarncolor import show
from yarncolor.plan.reference import KEYS


@pytest.mark.parametrize("table", ["", "lots", "scheme", "spinning", "plying", "fabric"])
def test_every_key_of_a_table_is_listed_with_what_it_says(table):
    shown = show.keys(table)
    lines = shown.text.splitlines()
    for key in (key for key in KEYS.values() if key.table == table):
        assert any(line.startswith(f"{key.name}  {key.meaning}") for line in lines), key.name


def test_the_keys_of_a_small_table_follow_it():
    lines = [line.split("  ")[0] for line in show.keys("spinning").text.splitlines()]
    at = lines.index("sample")
    assert lines[at + 1 : at + 3] == ["sample.length_m", "sample.mass_g"]


def test_a_key_says_its_range_its_default_and_its_schemes():
    (line,) = [line for line in show.keys("scheme").text.splitlines() if line.startswith("loop_m")]
    assert (
        line == "loop_m  The longest third of a loop in chain plying.  m  0.01 to 100  0.3  chain"
    )


def test_a_table_that_is_none_is_told():
    with pytest.raises(ValueError, match="there is no table 'kelp'"):
        show.keys("kelp")

"""Names typed for files: what no file can be called, on one system or another, has a word."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor import PlanError
from yarncolor.planfile.plain_name import plain_name


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("tideline", "tideline.toml"),
        ("  tideline.toml ", "tideline.toml"),
        ("Tide, line 2.1", "Tide, line 2.1.toml"),
        ("گُلِ سرخ", "گُلِ سرخ.toml"),
        ("می\u200cخواهم", "می\u200cخواهم.toml"),
        ("console", "console.toml"),
        ("com10", "com10.toml"),
        ("a" * 246, "a" * 246 + ".toml"),
    ],
)
def test_a_plain_name_gets_its_ending(typed, name):
    assert plain_name(typed) == name


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("", "type a plain file name first"),
        (" .toml ", "type a plain file name first"),
        ("../x", "without /"),
        ("a\0b", r"without \x00;"),
        ("a\nb", r"without \n;"),
        ("a\x1b[31m", r"without \x1b;"),
        ("a\u202eb", r"without \u202e;"),
        ("a\ud800", r"without \ud800;"),
        ('a?b"c', 'without " ?;'),
        ("CON", "keep for themselves"),
        ("nul.tar", "keep for themselves"),
        ("Lpt1", "keep for themselves"),
        ("com²", "keep for themselves"),
        (".", "begins or ends with a dot"),
        (".hidden", "begins or ends with a dot"),
        ("ends.", "begins or ends with a dot"),
        ("a" * 250, "leave out 4 letters or more"),
        ("潮" * 90, "leave out 8 letters or more"),
    ],
)
def test_what_is_no_name_of_a_file_is_told(typed, told):
    with pytest.raises(PlanError) as error:
        plain_name(typed)
    (line,) = str(error.value).splitlines()
    assert told in line


@given(st.text(st.characters(exclude_categories=()), max_size=300))
def test_whatever_is_typed_is_told_or_can_be_written(typed):
    try:
        name = plain_name(typed)
    except PlanError:
        return
    assert len(name.encode()) <= 255
    assert not set(name) & set("\0\n\r\t\x1b\u202e/\\:")


def test_a_file_of_the_longest_name_is_saved_and_saved_over(tmp_path):
    from yarncolor.planfile.versions import save_over, versions_of

    path = tmp_path / plain_name("潮" * 82)
    for text in ("one", "two"):
        save_over(path, text)
    assert path.read_text(encoding="utf-8") == "two"
    assert [each.path.read_text(encoding="utf-8") for each in versions_of(path)] == ["one"]

"""What is wrong in a plan file is told whole: one line a fault, nothing written, exit 2."""

import tomllib
from pathlib import Path

import pytest

import yarncolor as yc
from yarncolor.__main__ import main
from yarncolor.planfile.read import plan_from_text

_KELP = {"name": '"Kelp"', "colour": '"#56612d"', "mass_g": "27.0"}
_FOAM = '[[lots]]\nname = "Foam"\nlab = [86.0, 0.5, 8.0]\nmass_g = 27\n'
_CASES = tomllib.loads((Path(__file__).parent / "messages.toml").read_text("utf-8"))["cases"]


def _text(case: dict) -> str:
    """Return the plan file of a case in messages.toml."""
    own = case.get("kelp", "")
    kept = {
        key: value
        for key, value in _KELP.items()
        if key not in case.get("without", ()) and not own.startswith(f"{key} =")
    }
    lines = [f"{key} = {value}" for key, value in kept.items()]
    stash = "\n".join(["[[lots]]", *lines, own, _FOAM])
    return "\n".join([case.get("head", ""), case.get("stash", stash), case.get("tables", "")])


@pytest.fixture
def told(tmp_path, monkeypatch, capsys):
    """Return a function that plans a file of some bytes and returns what stands on stderr."""
    monkeypatch.chdir(tmp_path)

    def planned(content: bytes | None, name: str = "plan.toml") -> str:
        if content is not None:
            Path(name).write_bytes(content)
        there = sorted(Path().rglob("*"))
        assert main(["plan", name, "--out", "out/deep"]) == 2
        assert sorted(Path().rglob("*")) == there
        printed = capsys.readouterr()
        assert printed.out == ""
        return printed.err

    return planned


def test_the_plan_that_each_case_spoils_is_good():
    yc.plan_from_data(tomllib.loads(_text({})))


@pytest.mark.parametrize("case", _CASES, ids=lambda case: case["about"])
def test_a_fault_is_told_whole_and_nothing_is_written(case, told):
    lines = "".join(f"plan.toml: {line}\n" for line in case["says"])
    assert told(_text(case).encode()) == lines


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"lots = [", "not TOML: invalid value (at end of document)"),
        (b"a b", "not TOML: expected '=' after a key in a key/value pair (at line 1, column 3)"),
        (b"[scheme]\n[scheme]\n", "not TOML: cannot declare scheme twice (at line 2, column 8)"),
        (b"n = 1" + b"0" * 5000, "not TOML: a number is too long"),
        (b'title = "Th\xe9"', "byte 12 is not UTF-8; save the file as UTF-8 text"),
        ("title = 'x'".encode("utf-16"), "byte 1 is not UTF-8; save the file as UTF-8 text"),
        (b"x = " + b"[" * 10_000, "nested too deeply to be read"),
        (b"x = " + b"[" * 40 + b"]" * 40, "nested too deeply to be read"),
        (b"x" + b".x" * 1000 + b" = 1", "nested too deeply to be read"),
        (b"#" * 2**21, "larger than 256 KiB; a plan file is a few pages of text"),
        (b"#" * (2**18 + 1), "larger than 256 KiB; a plan file is a few pages of text"),
        (b"#" * 2**18, "lots: give 1 to 500 lots, each as a [[lots]] table"),
        (b"", "lots: give 1 to 500 lots, each as a [[lots]] table"),
    ],
    ids=[
        "an array that is not closed", "no equals sign", "a table twice", "a number too long",
        "one letter in Latin-1", "UTF-16", "arrays too deep", "closed arrays too deep",
        "a key too deep", "two megabytes", "a byte too much", "as much as may be", "nothing",
    ],
)  # fmt: skip
def test_what_is_no_plan_file_is_told_in_one_line(content, says, told):
    assert told(content) == f"plan.toml: {says}\n"


def test_a_missing_file_names_the_nearest_plan_file(told):
    Path("tideline.toml").touch()
    assert told(None, "tidelin.toml") == (
        'tidelin.toml: there is no such file; did you mean "tideline.toml"?\n'
    )


def test_a_missing_file_with_nothing_near_is_only_missing(told):
    assert told(None, "nowhere/x.toml") == "nowhere/x.toml: there is no such file\n"


def test_a_folder_is_no_plan_file(told):
    Path("plans").mkdir()
    assert told(None, "plans") == "plans: is a folder; give the plan file in it\n"


def test_a_file_that_cannot_be_opened_says_why(told, monkeypatch):
    def refuse(*_, **__):
        raise PermissionError(13, "Permission denied")

    Path("plan.toml").touch()
    monkeypatch.setattr("builtins.open", refuse)
    assert told(None) == "plan.toml: cannot be read: permission denied\n"


def test_a_file_name_that_would_break_the_line_is_escaped(told):
    assert told(b"x = ", "a\nb\x1b.toml") == (
        "a\\nb\\x1b.toml: not TOML: invalid value (at end of document)\n"
    )


@pytest.mark.parametrize("value", ["0x" + "f" * 20_000, "1" + "0" * 400], ids=["hex", "decimal"])
def test_a_whole_number_of_thousands_of_digits_is_cut_not_counted(value, told):
    line = told(_text({"kelp": f"mass_g = {value}"}).encode())
    assert line == (
        f"plan.toml: lots 1 (Kelp): mass_g = {value[:59]}…: give grams, 0.001 to 100,000\n"
    )


def test_a_key_as_long_as_the_file_is_cut(told):
    line = told(_text({"tables": f"[scale]\n{'k' * 200_000} = 1"}).encode())
    assert line == f"plan.toml: scale: {'k' * 59}…: unknown key; known are step_g, regain\n"


@pytest.mark.parametrize(
    ("key", "longest", "place", "remedy"),
    [
        ("title", 120, "", "give one line of at most 120 characters"),
        ("purpose", 2000, "", "give text of at most 2,000 characters, without control characters"),
    ],
)
def test_a_text_may_be_so_long_and_no_longer(key, longest, place, remedy, told):
    letters = "é" * longest
    yc.plan_from_data(tomllib.loads(_text({"head": f'{key} = "{letters}"'})))
    line = told(_text({"head": f'{key} = "{letters}é"'}).encode())
    assert line == f'plan.toml: {key} = "{letters[:58]}…: {remedy}\n'


def test_500_lots_are_planned_and_501_are_too_many(told):
    lots = [f'[[lots]]\nname = "{number}"\ncolour = "#fff"\nmass_g = 1\n' for number in range(501)]
    assert len(yc.plan_from_data(tomllib.loads("".join(lots[:500]))).lots) == 500
    line = told("".join(lots).encode())
    assert line == "plan.toml: lots: 501 are too many; give at most 500\n"


def test_500_places_are_planned_and_501_are_too_many(told):
    places = '"Kelp", ' * 500
    table = "[scheme]\nsequence = [{}]"
    yc.plan_from_data(tomllib.loads(_text({"tables": table.format(places)})))
    line = told(_text({"tables": table.format(places + '"Kelp"')}).encode())
    assert line == (
        f"plan.toml: scheme: sequence = [{places[:58]}…: give a list of 1 to 500 names of lots\n"
    )


def test_nineteen_thousand_faults_are_told_one_line_each(told):
    keys = "".join(f"k{number} = 1\n" for number in range(19_000))
    assert told(_text({"tables": f"[scale]\n{keys}"}).encode()).count("\n") == 19_000


def test_names_of_every_script_are_good_names():
    names = ["Φύκι", "אצה", "海帶", "طحلب\u200cها", "🧶👩\u200d🌾", "a" * 60, "🌊" * 60]
    lots = [{"name": name, "colour": "#fff", "mass_g": 1.0} for name in names]
    assert yc.plan_from_data({"lots": lots}).names == tuple(names)


def test_a_lot_of_any_script_is_named_in_its_fault(told):
    for name in ("Φύκι", "海帶", "👩\u200d🌾"):
        line = told(_text({"kelp": f'name = "{name}"', "without": ["mass_g"]}).encode())
        assert line == (
            f"plan.toml: lots 1 ({name}): mass_g: is missing; give mass_g, or rolags with rolag_g\n"
        )


@pytest.mark.parametrize("data", [{"\ud800": 1}, {"lots": [{"name": "\ud800"}]}])
def test_lone_surrogates_are_a_fault_however_they_come(data):
    with pytest.raises(yc.PlanError):
        yc.plan_from_data(data)


_A_DOZEN = """\
titel = "Tideline"
purpose = 12.5

[[lots]]
name = "Kelp"
colour = "#56612"
mass_g = -27.0

[[lots]]
name = "Kelp"
lab = [86.0, 0.5, 8.0]
colour = "#fff"

[plying]
contraction = 1

[scheme]
name = "fractal"
plies = 3
divisions = [1, 4]
closing = "tial"
sequence = ["Kelp", "Foam", 3]
reversed_plies = [4]
stager_places = 1

[target]
yarn_m = "400 m"

[weaving]
sett = 12
"""


def test_a_dozen_faults_are_told_at_once_in_the_order_of_the_file(told):
    assert told(_A_DOZEN.encode()) == """\
plan.toml: titel: unknown key; did you mean "title"?
plan.toml: purpose = 12.5: give text of at most 2,000 characters, without control characters
plan.toml: lots 1 (Kelp): colour = "#56612": give a colour in words, as "dark brick red" or "madder, pale"; or its code, # and 3 or 6 digits from 0 to 9 and a to f; or lab in its place
plan.toml: lots 1 (Kelp): mass_g = -27.0: give grams, 0.001 to 100,000
plan.toml: lots 2 (Kelp): name = "Kelp": lot 1 has that name already; give each lot its own
plan.toml: lots 2 (Kelp): lab = [86.0, 0.5, 8.0]: a colour is given too; give one of the two
plan.toml: lots 2 (Kelp): mass_g: is missing; give mass_g, or rolags with rolag_g
plan.toml: plying: contraction = 1: give a share from -0.2 to 0.6
plan.toml: scheme: divisions = [1, 4]: give 3 entries, one for each ply
plan.toml: scheme: closing = "tial": give one of keep, tail, share, halve, drop, swap; did you mean "tail"?
plan.toml: scheme: sequence 3 = 3: give a name of 1 to 60 characters, without control characters
plan.toml: scheme: reversed_plies = [4]: give different plies from 1 to 3
plan.toml: scheme: stager_places: unknown key; did you mean "stagger_places"?
plan.toml: target: yarn_m = "400 m": give metres, 0.001 to 1,000,000
plan.toml: weaving: unknown table; known are lots, braid, scheme, spinning, plying, scale, bobbins, fabric, target, orders, spun, lost, to_spin, pull_off, plied, made
"""  # fmt: skip # noqa: E501


@pytest.mark.parametrize("text", ["{}a = 1", "x = {{{}a = 1}}", "[{}a]", "[[lots]]\n{}a = 1"])
def test_a_key_of_forty_thousand_parts_is_refused_before_it_is_read(text):
    with pytest.raises(yc.PlanError, match="nested too deeply"):
        plan_from_text(text.format("a . " * 40_000))

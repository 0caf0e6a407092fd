"""The file of hands and its command: what it says, what is refused, and nothing half written."""

import pytest

import yarncolor as yc
from yarncolor.__main__ import main
from yarncolor.plan.hands import Figure, Hands
from yarncolor.planfile.hand_file import hand_text, read_hands

PLAN = """\
title = "Tide"
[[lots]]
name = "Kelp"
colour = "#4e5b31"
mass_g = 60.0
[spinning]
single_tex = 100.0
[plying]
contraction = 0.1
"""
MADE = "[made]\nlength_m = 180.0\nwashed_m = 171.0\nhours_spinning = 3.0\n"
GOOD = {
    "kind": '"yarncolor hand"',
    "format": "1",
    "yarns": '["Tide"]',
    "spin_loss": "{ value = 0.02, rests_on = 2, low = 0.01, high = 0.03 }",
}


def lines_of(**other: str) -> str:
    return "".join(f"{key} = {value}\n" for key, value in {**GOOD, **other}.items() if value)


def test_what_is_written_is_read_again(tmp_path):
    hands = Hands(
        yarns=('Tide "of" May', "Ebb \\ Flow"),
        variation=Figure(0.08123, 24, 0.065, 0.1),
        contraction=Figure(-0.01, 1),
    )
    path = tmp_path / "hand.toml"
    path.write_text(hand_text(hands), encoding="utf-8")
    again = read_hands(path)
    assert again == Hands(hands.yarns, hands.variation, None, hands.contraction, file="hand.toml")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", ["does not say what hands do; give a file that hand wrote"]),
        ('title = "Tide"', ["does not say what hands do; give a file that hand wrote"]),
        (lines_of(format="2"), ["format = 2: formats up to 1 can be read; write it anew"]),
        (lines_of(format="true"), ["format = true: formats up to 1 can be read; write it anew"]),
        (lines_of(format=""), ["format: formats up to 1 can be read; write it anew"]),
        (lines_of(yarns="3"), ["yarns = 3: give a list of names"]),
        (lines_of(spin_los="3"), ['spin_los: unknown key; did you mean "spin_loss"?']),
        (lines_of(spin_loss="0.02"), ["spin_loss = 0.02: give a table with value and rests_on"]),
        (
            lines_of(spin_loss="{ value = 2.0, rests_on = 0, lov = 1 }"),
            [
                'spin_loss: lov: unknown key; did you mean "low"?',
                "spin_loss: value = 2.0: give a share from 0 to 0.9",
                "spin_loss: rests_on = 0: give on how many it rests, 1 or more",
            ],
        ),
        (
            lines_of(variation="{ value = nan, rests_on = 4 }"),
            [
                "variation: value = nan: give a share from 0 to 1",
                "variation: rests_on = 4: give on how many it rests, 5 or more",
            ],
        ),
        (
            lines_of(spin_loss="{ value = 0.02, rests_on = 2, low = 0.01 }"),
            ["spin_loss: high: is missing; give both or none"],
        ),
        (
            lines_of(spin_loss="{ value = 0.02, rests_on = 2, low = 0.03, high = 0.04 }"),
            ["spin_loss: value = 0.02: it lies outside of low and high"],
        ),
    ],
)
def test_what_is_wrong_with_it_is_told(text, says, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "hand.toml").write_text(text, encoding="utf-8")
    (tmp_path / "plan.toml").write_text('hand = "hand.toml"\n' + PLAN, encoding="utf-8")
    with pytest.raises(yc.PlanError) as told:
        yc.read_plan("plan.toml")
    assert str(told.value).splitlines() == [f"hand.toml: {line}" for line in says]


def test_faults_of_a_plan_and_of_its_hands_are_told_together(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "hand.toml").write_text(lines_of(yarns="3"), encoding="utf-8")
    text = 'hand = "hand.toml"\n' + PLAN.replace("60.0", "-1.0")
    (tmp_path / "plan.toml").write_text(text, encoding="utf-8")
    with pytest.raises(yc.PlanError) as told:
        yc.read_plan("plan.toml")
    assert [line.partition(":")[0] for line in str(told.value).splitlines()] == [
        "plan.toml",
        "hand.toml",
    ]


def test_hands_lie_beside_the_plan_and_nowhere_else(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "plan.toml").write_text('hand = "../hand.toml"\n' + PLAN, encoding="utf-8")
    with pytest.raises(yc.PlanError) as told:
        yc.read_plan("plan.toml")
    says = 'hand = "../hand.toml": is no plain name; give that of a file beside the plan'
    assert str(told.value) == f"plan.toml: {says}"


def test_blanks_around_its_name_are_none_of_it(tmp_path):
    (tmp_path / "hand.toml").write_text(lines_of(), encoding="utf-8")
    (tmp_path / "plan.toml").write_text('hand = " hand.toml "\n' + PLAN, encoding="utf-8")
    assert yc.read_plan(tmp_path / "plan.toml").hands.spin_loss.value == 0.02


# --- the command ---------------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "tide.toml").write_text(PLAN + MADE, encoding="utf-8")
    (tmp_path / "ebb.toml").write_text(
        PLAN.replace("Tide", "Ebb") + MADE.replace("180.0", "178.0"), encoding="utf-8"
    )
    (tmp_path / "plain.toml").write_text(PLAN.replace("Tide", "Neap"), encoding="utf-8")
    return tmp_path


def test_hands_whose_plans_are_in_ounces_are_told_in_ounces(folder, capsys):
    """3 minutes a gram are 85 an ounce of 28.35 g; of unlike plans, grams."""
    for file in ("tide.toml", "ebb.toml"):
        said = f'units = "imperial"\n{(folder / file).read_text(encoding="utf-8")}'
        (folder / file).write_text(said, encoding="utf-8")
    assert main(["hand", "tide.toml", "ebb.toml", "--out", "hand.toml"]) == 0
    assert "minutes for an ounce: 85.0, by 2 yarns" in capsys.readouterr().out
    assert read_hands(folder / "hand.toml").minutes_per_g.value == pytest.approx(3.0)
    (folder / "ebb.toml").write_text(said.partition("\n")[2], encoding="utf-8")
    assert main(["hand", "tide.toml", "ebb.toml", "--out", "hand.toml"]) == 0
    assert "minutes for a gram: 3.00, by 2 yarns" in capsys.readouterr().out


def test_the_command_writes_what_a_plan_then_takes(folder, capsys):
    """60 g in 3 h are 3 minutes a gram; three plies of 20 g at 100 tex, 200 m each."""
    assert main(["hand", "tide.toml", "ebb.toml", "--out", "hand.toml"]) == 0
    printed = capsys.readouterr().out
    assert "minutes for a gram: 3.00, by 2 yarns; nine times in ten 3.00 to 3.00" in printed
    assert "unevenness" not in printed
    found = read_hands(folder / "hand.toml")
    assert found.yarns == ("Tide", "Ebb")
    assert found.contraction.value == pytest.approx(1 - 179 / 200)
    assert found.contraction.rests_on == 2
    assert found.variation is None
    assert main(["hand", "tide.toml", "--out", "hand.toml"]) == 0
    assert read_hands(folder / "hand.toml").contraction == Figure(pytest.approx(0.1), 1)


@pytest.mark.parametrize(
    ("files", "out", "says"),
    [
        ([], "hand.toml", ["FILE: is missing; give one plan file or more"]),
        (
            ["tide.toml", "tide.toml", "none.toml"],
            "hand.toml",
            [
                'none.toml: there is no such file; did you mean "neap.toml"?',
                'tide.toml: title = "Tide": tide.toml has that name too; give each yarn once',
            ],
        ),
        (
            ["plain.toml"],
            "hand.toml",
            [
                "FILE: nothing in these plans tells of your hands: say in [[spun]] what pieces "
                "weighed and measured, and in [made] what came out"
            ],
        ),
        (
            ["tide.toml"],
            "ebb.toml",
            ["ebb.toml: there is a file of that name that is none of hands; choose another"],
        ),
    ],
)
def test_what_the_command_cannot_do_is_told_and_nothing_is_written(
    files, out, says, folder, capsys
):
    before = {path: path.read_bytes() for path in folder.iterdir()}
    assert main(["hand", *files, "--out", out]) == 2
    told = capsys.readouterr().err.splitlines()
    assert [line.partition("; did you mean")[0] for line in told] == [
        line.partition("; did you mean")[0] for line in says
    ]
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


def test_notebooks_read_say_and_write_the_same(folder):
    hands = yc.record.hand(["tide.toml", "ebb.toml"])
    assert any(line.startswith("length lost in plying: ") for line in yc.record.hand_lines(hands))
    assert "Written: hand.toml" in yc.record.write_hand(["tide.toml"], "hand.toml")

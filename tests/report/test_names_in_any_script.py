"""Names in any script stand in lists and columns without moving the numbers beside them."""

from unicodedata import bidirectional

import yarncolor as yc
from tests.helpers.card_reader import answered
from tests.helpers.strategies import by_hand
from yarncolor.phrases import join_words, wide

KELP, SHELL, FOAM = "\u6606\u5e03", "\u0635\u062f\u0641", "\u041f\u0435\u043d\u0430"
PLAN = by_hand(
    {KELP: 12.0, SHELL: 12.0, FOAM: 12.0, "Dune": 12.0},
    scheme={"plies": 2},
    spun=[{"ply": 1, "row": 1}],
)


def _number_follows(text: str, name: str, number: str) -> bool:
    """Return whether left to right is said between a name from the right and a number.

    The Unicode Bidirectional Algorithm (UAX 9, rule W2 and N1) puts a number left of letters that
    are read from the right, unless a letter or mark read from the left stands between them.
    """
    between = text.split(name, 1)[1].split(number, 1)[0]
    return "L" in map(bidirectional, between)


def test_letters_take_one_column_or_two_or_none():
    """East Asian Width (UAX 11): wide letters take two; a combining accent takes none."""
    assert [wide(name) for name in (KELP, SHELL, FOAM, "e\u0301", "")] == [4, 3, 4, 1, 0]


def test_grams_stand_behind_a_name_that_is_read_from_the_right():
    assert _number_follows(join_words([f"3 g of {SHELL}", "4 g of Dune", "Foam"]), SHELL, "4")
    assert join_words(["3 g of Dune", "4 g of Kelp", "Foam"]) == "3 g of Dune, 4 g of Kelp and Foam"
    spun = PLAN | {"spun": [{"ply": 1, "row": 1}]}
    next_up = next(line for line in yc.summary_text(answered(spun)).splitlines() if "Ply 1" in line)
    assert _number_follows(next_up, SHELL, "6.0")


def test_columns_of_the_summary_stand_under_one_another():
    lines = yc.summary_text(answered(PLAN)).splitlines()
    rows = [line for line in lines if line[2:6].strip().isdigit() and "6.0 g" in line]
    assert len(rows) == 8
    assert len({wide(row.split("6.0 g")[0]) for row in rows}) == 1
    assert all(_number_follows(row, SHELL, "6.0") for row in rows if SHELL in row)

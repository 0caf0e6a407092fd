"""Names in any script stand in lists and columns without moving the numbers beside them."""

from unicodedata import bidirectional

import yarncolor as yc
from tests.helpers.card_reader import answered
from tests.helpers.strategies import by_hand
from yarncolor.phrases import isolated, join_words, wide
from yarncolor.report.card.card import card_html
from yarncolor.report.record.page import page as record_page
from yarncolor.report.record.yarns import Yarn

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


def _by_itself(page: str, name: str) -> bool:
    """Return whether a name is set apart wherever it stands in a page (UAX 9, isolates)."""
    places = [at for at in range(len(page)) if page.startswith(name, at)]
    return bool(places) and all(
        page[:at].endswith(("\u2068", ">")) and page[at + len(name) :].startswith(("\u2069", "<"))
        for at in places
    )


def test_names_from_the_right_stand_by_themselves_on_every_page():
    """In tables and sentences of notebooks, on the card, in a record."""
    found = answered(PLAN | {"title": SHELL})
    shown = (yc.show.stash, yc.show.yarn, yc.show.advice, yc.show.skeins, yc.show.weigh_out)
    pages = [show(found).html for show in shown]
    pages += [card_html(found).decode(), record_page(Yarn("shore.toml", found)).decode()]
    for page in pages:
        assert SHELL not in page or _by_itself(page, SHELL)
    assert sum(SHELL in page for page in pages) >= 4
    assert isolated(f"3 g of {SHELL} {SHELL}, 4 g") == f"3 g of \u2068{SHELL} {SHELL}\u2069, 4 g"
    assert isolated(isolated(SHELL)) == isolated(SHELL)

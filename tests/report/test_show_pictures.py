"""Pictures, stripes and sheets as a notebook shows them."""

import re

import pytest

import yarncolor as yc
from tests.helpers.drawn import HOSTILE, each_picture, opened, plan
from tests.helpers.pictures_asked import answered
from tests.helpers.strip_pictures import stash


@each_picture
def test_a_notebook_s_picture_has_its_words_and_keeps_small(picture):
    shown = yc.show.picture(plan("tideline"), picture)
    assert opened(shown.png).width == shown.width_px
    assert re.search(r"Colours?: ", shown.alt)
    assert len(shown.png) < 600_000


def test_stripes_are_told_as_a_table_with_escaped_names():
    found = answered(stash(HOSTILE), scheme={"name": "matched", "plies": 3}, target={"yarn_m": 6.0})
    told = yc.show.stripes(found)
    assert "<script" not in told.html
    assert "&lt;script" in told.html
    assert "A &amp; B" in told.html
    assert "A & B" in told.text


def test_stripes_of_a_swatch_are_those_of_the_whole_yarn():
    """Every lot is named; a gradient's first lot is not all there is."""
    found = plan("ebb")
    told = yc.show.stripes(found, most=100).text
    assert all(found.plan.names[lot] in told for lot in set(found.layout.portions.lot.tolist()))


def test_sheets_are_shown_with_their_words():
    shown = yc.show.sheet(plan("tideline"))
    assert "Tideline" in shown.alt
    to_share = yc.show.sheet(plan("tideline"), "to share")
    assert "A sheet to share of Tideline" in to_share.alt
    assert opened(to_share.png).size == (800, 1000)
    with pytest.raises(yc.PlanError, match="there are to keep, to share"):
        yc.show.sheet(plan("tideline"), "share")
    both = yc.show.comparison({"as it is": plan("tideline"), "a chain": plan("chain")})
    assert "as it is, a chain" in both.alt

"""The picture of all ways to go on is asked what it shows: one scale, and where it is off plan."""

from unittest.mock import Mock

import numpy as np

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.pictures.png import INK
from yarncolor.report.ways_on import ways_alt, ways_picture

FOUR = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0, "Dune": 30.0}
WIDE = 1000
STRIP = WIDE - 16
"""Pixels of the longest yarn: there are 8 on either side."""


def replanned(**tables):
    """Return two plies of four rows, 150 m each; row 3 of the first came out at 170 m."""
    spun = [
        {"ply": 1, "through": 2},
        {"ply": 1, "row": 3, "mass_g": 17.0},
        {"ply": 2, "through": 4},
    ]
    scheme = {"name": "matched", "plies": 2}
    data = by_hand(FOUR, scheme=scheme, plying={"contraction": 0.0}, spun=spun, **tables)
    return yc.wheel.replan(yc.answer(yc.plan_from_data(data)))


def lines(pixels: np.ndarray) -> list[tuple[int, int]]:
    """Return first and last pixel of every unbroken line of ink longer than a tick or a letter."""
    ink = (pixels == [int(INK[at : at + 2], 16) for at in (1, 3, 5)]).all(axis=2)
    found = []
    for row in ink:
        edges = np.flatnonzero(np.diff(row.astype(int), prepend=0, append=0))
        found += [(a, b - 1) for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > 20]
    return sorted(set(found))


def test_a_black_line_stands_where_a_ply_shows_another_colour_than_planned():
    """Carried on: from 300 to 320 m and from 450 to 470 m. In step: from 130 to 150 m."""
    pixels = np.asarray(ways_picture(replanned(), WIDE))
    px_per_m = STRIP / 600
    wanted = [(300, 320), (450, 470), (130, 150)]
    found = lines(pixels)
    for start_m, end_m in wanted:
        near = [
            (a, b)
            for a, b in found
            if abs(a - 8 - start_m * px_per_m) <= 2 and abs(b + 1 - 8 - end_m * px_per_m) <= 2
        ]
        assert near, (start_m, end_m)


def test_the_picture_in_words_names_every_way_and_what_it_keeps():
    told = ways_alt(replanned())
    stands = "as it stands: carry on: 97% as planned"
    assert told.startswith(f"As planned, about 600 m of yarn. {stands}")
    assert "put the next rows right (best): 98% as planned" in told


def test_names_from_right_to_left_stand_under_their_yarn_as_in_the_legend(monkeypatch):
    """Hebrew is turned round letter by letter; what a raster cannot set is called by number."""
    write = Mock()
    monkeypatch.setattr("yarncolor.pictures.page.Page.write", write)
    names = {"Rust": 30.0, "Dune": 30.0, "שלום": 30.0, "حبر": 30.0}
    data = by_hand(names, scheme={"name": "matched", "plies": 2}, plying={"contraction": 0.0})
    data["spun"] = [
        {"ply": 1, "through": 4},
        {"ply": 2, "row": 1, "mass_g": 27.0},
        {"ply": 2, "row": 2, "mass_g": 29.0},
    ]
    ways_picture(yc.wheel.replan(yc.answer(yc.plan_from_data(data))), WIDE)
    written = [call.args[1] for call in write.call_args_list]
    (takes,) = [line for line in written if "takes" in line]
    assert takes.endswith("takes 13.0 g of םולש\u200e and 13.0 g of lot 4 less")
    assert {"םולש", "lot 4"} <= set(written)

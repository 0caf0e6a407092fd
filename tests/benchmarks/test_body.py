"""The yarn as a body anew, against the stretch table of the same plan."""

from tests.helpers.sized_plans import answered, fractal_of
from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import filled_bobbins, weigh_points
from yarncolor.answers.hours import hours
from yarncolor.answers.knitted_piece import piece
from yarncolor.answers.skeins import skeins
from yarncolor.answers.spread import spread
from yarncolor.layout.layout import layout
from yarncolor.yarn import structure

TABLES = {
    "spinning": {
        "sample": {"length_m": 20.0, "mass_g": 2.2},
        "twist_angle_deg": 25.0,
        "variation": 0.08,
        "minutes_per_g": 3.0,
    },
    "plying": {"balance": "equal_factor"},
    "bobbins": {"capacity_g": 40.0, "tare_g": 61.0, "plying_capacity_g": 90.0},
    "fabric": {"stitches": 60, "rows": 400, "gauge_stitches": 22.0, "finishing_shrinkage": 0.08},
}
GROUP = "the yarn as a body, 8 lots x (1, 2, 4)"


def whole() -> Answer:
    return answered(fractal_of() | TABLES)


def body_anew(found: Answer) -> tuple:
    """Return everything physical of a plan, nothing kept from before."""
    structure.solved_yarn.cache_clear()
    laid, yarn = found.layout, structure.yarn_structure(found.plan)
    return (
        yarn.balanced_tpm,
        weigh_points(laid, filled_bobbins(laid)),
        skeins(laid),
        hours(laid),
        spread(laid, found.on_scale_g),
        piece(laid),
    )


def test_the_body_of_a_yarn(benchmark):
    benchmark.group, benchmark.extra_info["against"] = GROUP, "ours"
    found = whole()
    balanced, points, parts, takes, bands, knit = benchmark(body_anew, found)
    assert balanced["equal_factor"] > 0
    assert len(points) >= 7
    assert len(parts) >= 2
    assert takes.spinning_h > 1
    assert bands.low_m < bands.expected_m < bands.high_m
    assert knit.rows_possible > 0


def test_the_layout_it_rests_on(benchmark):
    benchmark.group, benchmark.extra_info["against"] = GROUP, "portions, strands, stretches"
    resolved = whole().resolved
    assert len(benchmark(layout, resolved).stretches.lot) > 20

"""The international yard and pound of 1959 (1 yd = 0.9144 m, 1 lb = 0.453 592 37 kg), the tex
system of ISO 1144, and what follows from both; a second opinion by pint, which has its own table.
"""

import pint
import pytest

from yarncolor.measures import IMPERIAL, METRIC

UNITS = pint.UnitRegistry()
VALUES = (0.003, 0.5, 1.0, 28.349523125, 99.95, 453.59237, 12_345.6)
KINDS = {
    "mass": ("g", "oz"),
    "length": ("m", "yard"),
    "short": ("m", "inch"),
    "far": ("m", "foot"),
    "width": ("cm", "inch"),
    "thickness": ("mm", "inch"),
    "fineness": ("m / g", "yard / lb"),
    "pace": ("min / g", "min / oz"),
}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("value", VALUES)
def test_ounces_yards_and_inches_are_those_of_another_library(kind, value):
    metric, imperial = KINDS[kind]
    other = UNITS.Quantity(value, metric).to(imperial).magnitude
    assert getattr(IMPERIAL, kind).of(value) == pytest.approx(other, rel=1e-12)


@pytest.mark.parametrize("value", VALUES)
def test_grist_and_gauge_are_those_of_another_library(value):
    grist = (UNITS.Quantity(value, "m") / UNITS.Quantity(100, "g")).to("yard / lb").magnitude
    gauge = (value / UNITS.Quantity(10, "cm")).to("1 / inch").magnitude * 4
    assert IMPERIAL.grist.of(value) == pytest.approx(grist, rel=1e-12)
    assert IMPERIAL.gauge.of(value) == pytest.approx(gauge, rel=1e-12)


@pytest.mark.parametrize("kind", [*KINDS, "grist", "gauge"])
@pytest.mark.parametrize("value", VALUES)
def test_metric_numbers_stay_themselves_to_the_last_bit(kind, value):
    assert getattr(METRIC, kind).of(value) == value


def test_the_agreement_of_1959_in_words():
    assert IMPERIAL.length(0.9144, 2) == "1.00 yd"
    assert IMPERIAL.mass(453.59237) == "16.00 oz"
    assert IMPERIAL.width(91.44) == "36.00 in"
    assert IMPERIAL.thickness(25.4) == "1.000 in"


def test_grist_by_the_tex_system_in_words():
    """500 tex are 200 m in 100 g by its definition, and 992 yd/lb: 496 054.65 over the tex."""
    assert METRIC.yarn(500) == "200 m in 100 g"
    assert IMPERIAL.yarn(500) == "992 yd/lb"
    assert METRIC.single(100) == "10.0 m to the gram"
    assert IMPERIAL.single(100) == "4961 yd to the pound"


@pytest.mark.parametrize(
    ("length_m", "metric", "imperial"),
    [
        (0, "0.0 m", "0.0 yd"),
        (0.3, "0.3 m", "11.8 in"),
        (0.9144, "0.9 m", "1.0 yd"),
        (9.144, "9.1 m", "10.0 yd"),
        (18.5, "18.5 m", "20 yd"),
        (91.44, "91 m", "100 yd"),
    ],
)
def test_a_length_as_one_says_it(length_m, metric, imperial):
    assert (METRIC.long(length_m), IMPERIAL.long(length_m)) == (metric, imperial)


OUNCE_G = 28.349523125


@pytest.mark.parametrize(
    ("measures", "step_g", "mass_g", "shown"),
    [
        (METRIC, 0.1, 12.34, "12.3"),
        (METRIC, 1, 12.34, "12"),
        (METRIC, 0.01, 12.34, "12.34"),
        (IMPERIAL, OUNCE_G / 100, 2.5 * OUNCE_G, "2.50"),
        (IMPERIAL, OUNCE_G / 10, 2.5 * OUNCE_G, "2.5"),
        (IMPERIAL, OUNCE_G / 8, 2.125 * OUNCE_G, "2.125"),
        (IMPERIAL, OUNCE_G / 16, 2.0625 * OUNCE_G, "2.0625"),
        (IMPERIAL, OUNCE_G, 3 * OUNCE_G, "3"),
        (IMPERIAL, 0.1, 100, "3.527"),
    ],
)
def test_a_weight_has_the_decimals_of_the_scale(measures, step_g, mass_g, shown):
    assert measures.on_scale(mass_g, step_g) == shown


def test_what_the_scale_does_not_show_is_said_in_its_own_steps():
    assert METRIC.seen(0.02, 0.1) == "less than 0.1 g"
    assert IMPERIAL.seen(0.1, OUNCE_G / 100) == "less than 0.01 oz"
    assert IMPERIAL.seen(OUNCE_G, OUNCE_G / 100) == "1.00 oz"


def test_net_and_empty_bobbin_add_up_as_they_are_shown():
    assert METRIC.gross("12.3", 31) == "43.3"
    assert IMPERIAL.gross("0.43", 1.2 * OUNCE_G) == "1.63"
    assert IMPERIAL.gross("0.4", 1.25 * OUNCE_G) == "1.65"

"""Files drawn from what their keys are declared to be: each is a plan, or a `PlanError`."""

import json

import pytest

import yarncolor as yc
from tests.helpers.drawn_files import Pen
from yarncolor.plan import Plan
from yarncolor.planfile.read import plan_from_text

SPOILS = (0.0, 0.02, 0.3)
ANSWERED = 20
"""One plan of so many has its whole answer made."""


def drawn(seed: int) -> str:
    return Pen(seed, SPOILS[seed % len(SPOILS)]).file()


def plan_or_none(seed: int) -> Plan | None:
    """Return the plan that a file is; None for one whose faults are told, a line for each."""
    try:
        return plan_from_text(drawn(seed), "drawn.toml")
    except yc.PlanError as error:
        return None if str(error).count("\n") == len(error.faults) - 1 else pytest.fail(str(error))


def plans(seeds: range) -> int:
    """Return how many files are plans."""
    found = [plan for plan in map(plan_or_none, seeds) if plan is not None]
    for plan in found[::ANSWERED]:
        json.loads(yc.draw.plan_json(yc.answer(plan)), parse_constant=pytest.fail)
    return len(found)


def test_a_drawn_file_is_a_plan_or_told():
    assert plans(range(1000)) > 100


@pytest.mark.thorough
@pytest.mark.parametrize("start", range(0, 100_000, 5000))
def test_each_of_a_hundred_thousand_is_a_plan_or_told(start):
    assert plans(range(start, start + 5000)) > 500


@pytest.mark.parametrize("table", ["lost", "to_spin", "pull_off", "spun"])
def test_what_is_asked_of_orders_waits_for_what_a_row_lacks(table):
    lot = '[[lots]]\nname = "Kelp"\ncolour = "#56612d"\nmass_g = 40.0\n'
    with pytest.raises(yc.PlanError, match=f"{table} 1: .* is missing"):
        plan_from_text(f"{lot}[[{table}]]\n[orders]\nclosed = true\n", "shore.toml")


def test_a_bath_out_of_grams_of_a_lot_that_is_not_there_is_told():
    bath = '{ of = "Kelp", number = 2, exhaustion = 0.5, undyed = "Fom", mass_from = "undyed" }'
    lots = '[[lots]]\nname = "Kelp"\ncolour = "#56612d"\nmass_g = 40.0\n'
    with pytest.raises(yc.PlanError, match='bath: undyed = "Fom": no lot is named'):
        plan_from_text(
            f'{lots}[[lots]]\nname = "Pale"\nmass_g = 9.0\nbath = {bath}\n', "shore.toml"
        )


@pytest.mark.parametrize("way", ["drafted", "blend"])
def test_a_lot_that_is_wrongly_mixed_and_of_such_a_bath_is_told(way):
    bath = '{ of = "Kelp", number = 2, exhaustion = 0.5, undyed = "Fom", mass_from = "undyed" }'
    lots = '[[lots]]\nname = "Kelp"\ncolour = "#56612d"\nmass_g = 40.0\n'
    pale = f'[[lots]]\nname = "Pale"\nmass_g = 9.0\nbath = {bath}\n{way} = {{ Kelp = -0.0 }}\n'
    with pytest.raises(yc.PlanError, match=way):
        plan_from_text(lots + pale, "shore.toml")

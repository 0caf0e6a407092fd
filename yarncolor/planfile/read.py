"""A plan file, opened and checked: the only way in. All faults of a file are told at once."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from yarncolor.errors import Fault, Place, PlanError, quoted
from yarncolor.plan import Plan
from yarncolor.plan.hands import Hands
from yarncolor.planfile.hand_file import read_hands
from yarncolor.planfile.toml_text import parsed, read_text
from yarncolor.planfile.unseen import unseen_in


def read_plan(path: str | Path) -> Plan:
    """Return the plan that a TOML file holds.

    Parameters
    ----------
    path : str or Path
        A plan file: TOML 1.0, UTF-8, at most 256 KiB.

    Raises
    ------
    PlanError
        With every fault of the file, one line each.
    """
    plan = plan_of_file(read_text(path), path)
    return replace(plan, kept_as=Path(path).stem)


def plan_of_file(text: str, path: str | Path) -> Plan:
    """Return the plan of a file's text, with what the file beside it says of its hands.

    Parameters
    ----------
    text : str
        What stands in the file.
    path : str or Path
        Where it is kept.

    Raises
    ------
    PlanError
        With every fault of both, one line each.
    """
    data = parsed(text, str(path))
    hands, faults = _hands_beside(data.get("hand"), Path(path))
    try:
        plan = plan_from_data(data, str(path))
    except PlanError as error:
        faults = [*error.faults, *faults]
    if faults:
        raise PlanError(faults)
    return replace(plan, hands=hands)


def hands_beside(name: str, path: Path) -> Hands | None:
    """Return what a file beside a plan says of its hands; None where there is none to be read.

    Parameters
    ----------
    name : str
        As the plan names it.
    path : Path
        The plan's file.
    """
    return _hands_beside(name, path)[0]


def _hands_beside(name: object, path: Path) -> tuple[Hands | None, list[Fault]]:
    """Return what a file beside a plan says of its hands, or what is wrong with it.

    Of one that is not there nothing is taken; the plan's assumptions say so.
    """
    if not isinstance(name, str) or not name.strip():
        return None, []
    plain = name.strip()
    if Path(plain).name != plain:
        remedy = "is no plain name; give that of a file beside the plan"
        return None, [Fault(str(path), Place(("hand",)), quoted(name), remedy)]
    beside = path.parent / plain
    try:
        return (read_hands(beside) if beside.is_file() else None), []
    except PlanError as error:
        return None, list(error.faults)


def plan_from_text(text: str, file: str = "plan") -> Plan:
    """Return the plan that the text of a plan file describes.

    Parameters
    ----------
    text : str
        TOML 1.0.
    file : str
        How faults name it.

    Raises
    ------
    PlanError
        With every fault, one line each.
    """
    return plan_from_data(parsed(text, file), file)


def plan_from_data(data: dict[str, Any], file: str = "plan") -> Plan:
    """Return the plan that the tables of a plan file describe.

    Parameters
    ----------
    data : dict
        As `tomllib` returns it: the keys of the plan file.
    file : str
        How faults name the source.

    Raises
    ------
    PlanError
        With every fault, one line each; a check that rests on a faulty value is not made.
    """
    from yarncolor.planfile.checks import check
    from yarncolor.planfile.given import GivenPlan
    from yarncolor.planfile.reading import Reading

    reading = Reading(file, data)
    given = GivenPlan.read(reading)
    check(reading, given)
    if reading.faults:
        raise PlanError(reading.in_order())
    return replace(given.plan, unseen=tuple(dict.fromkeys(unseen_in(data))))


def plan_changed(plan: Plan, data: dict[str, Any], file: str = "this change") -> Plan:
    """Return the plan of changed data, with what a plan knows beside its data: file and hands.

    Parameters
    ----------
    plan : Plan
        As it was.
    data : dict
        What it is to say.
    file : str
        How faults name the source.
    """
    found = plan_from_data(data, file)
    hands = plan.hands if found.hand == plan.hand else None
    return replace(found, kept_as=plan.kept_as, hands=hands)


def plan_as_given(text: str) -> Plan | None:
    """Return what a text says, its values not checked against each other; None for no plan."""
    from yarncolor.planfile.given import GivenPlan
    from yarncolor.planfile.reading import Reading

    try:
        reading = Reading("", parsed(text, ""))
        given = GivenPlan.read(reading)
        return None if reading.faults else given.plan
    except (TypeError, ValueError):
        return None

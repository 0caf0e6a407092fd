"""The command that looks for the best order: what is at fault, what is written."""

from dataclasses import replace
from pathlib import Path

from yarncolor.errors import Fault, PlanError, on_one_line, quoted
from yarncolor.files import write_all
from yarncolor.plan import Plan
from yarncolor.planfile.read import read_plan
from yarncolor.report.orders import orders_contents, orders_text
from yarncolor.report.orders_words import names_text
from yarncolor.report.saving import saving_faults, written_with_plan
from yarncolor.search.found import FoundOrder, FoundOrders
from yarncolor.search.looking import looked

_LONGEST = 4


def best_orders(
    file: str, take: str | None, save: str | None
) -> tuple[FoundOrders, FoundOrder | None]:
    """Return the best orders of a plan file, and the one that is to be taken.

    Parameters
    ----------
    file : str
        The plan file.
    take : str, optional
        Which of the best, from 1.
    save : str, optional
        Where its plan goes.

    Raises
    ------
    PlanError
        With every fault, one line each.
    """
    plan = read_plan(file)
    faults = saving_faults(file, take, save, "which of the best orders, from 1")
    if take and not (take.isascii() and take.isdigit() and len(take) < _LONGEST):
        faults.append(Fault("", "--take", quoted(take), "give the number of an order, from 1"))
    try:
        found = looked(plan)
    except PlanError as error:
        faults = [replace(fault, file=file) for fault in error.faults] + faults
    if faults:
        raise PlanError(faults)
    if not take:
        return found, None
    if not 1 <= int(take) <= len(found.best):
        right = f"give one of 1 to {len(found.best)}" if len(found.best) > 1 else "give 1"
        raise PlanError([Fault("", "--take", quoted(take), right)])
    return found, found.best[int(take) - 1]


def orders_files(
    found: FoundOrders, chosen: FoundOrder | None, out: str, file: str, save: str | None
) -> tuple[str, list[Path]]:
    """Write the files of a search, and the plan in the order that is taken; return what is said.

    All is made before the first file is written.

    Parameters
    ----------
    found : FoundOrders
        The best orders.
    chosen : FoundOrder or None
        The one that is taken.
    out : str
        Folder to write into.
    file, save : str
        The plan file, and where the plan in that order goes.
    """
    told, contents = orders_text(found), orders_contents(found)
    if chosen is None or save is None:
        return told, write_all(Path(out), contents)
    plan = in_that_order(read_plan(file), chosen)
    written = written_with_plan(out, contents, plan, file, save)
    taken = f"Taken: {names_text(chosen)}. The plan is saved to {on_one_line(save)}."
    return f"{told}\n{taken}", written


def in_that_order(plan: Plan, chosen: FoundOrder) -> Plan:
    """Return a plan in an order that was found, all else as it stands.

    Parameters
    ----------
    plan : Plan
        In which it was looked for.
    chosen : FoundOrder
        One of its orders.
    """
    scheme = chosen.plan.scheme
    own = replace(plan.scheme, sequence=scheme.sequence, parts=scheme.parts)
    return replace(plan, scheme=own)

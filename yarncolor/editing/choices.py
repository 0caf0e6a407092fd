"""One way of spinning a stash, as the choosers of a bench say it, and the plan that it makes."""

from dataclasses import dataclass, replace
from typing import Any

from yarncolor.defaults import CLOSING, divisions_of, plies_of, scheme_name
from yarncolor.editing.variants import AS_PLANNED, variant
from yarncolor.phrases import MIXED, WINDING_WORDS, divisions_in, divisions_text, winding_words
from yarncolor.plan import Plan
from yarncolor.plan.reference import unused_keys
from yarncolor.plan.scheme import WITHOUT_PLIES, WITHOUT_SEQUENCE


@dataclass(frozen=True)
class Choice:
    """What is chosen in one column, beside a plan that stays as it is.

    Parameters
    ----------
    scheme : str
        Its name.
    plies : int
        Strands of the yarn.
    divisions : str
        Times through on each ply, as typed: ``1, 2, 4``.
    closing : str
        Where a fractal's sequence closes.
    winding : str
        One of `WINDING_WORDS`, or that of the plan where none stands for it.
    order : str
        One of `yarncolor.editing.variants.ORDERS`.
    """

    scheme: str
    plies: int
    divisions: str
    closing: str
    winding: str
    order: str = AS_PLANNED


def choice_of(plan: Plan, order: str = AS_PLANNED) -> Choice:
    """Return the choice that a plan is, in an order that it already has.

    Parameters
    ----------
    plan : Plan
        Of any scheme.
    order : str
        What its order is called.
    """
    scheme = plan.scheme
    return Choice(
        scheme=scheme_name(scheme),
        plies=plies_of(scheme),
        divisions=divisions_text(divisions_of(scheme)),
        closing=scheme.closing or CLOSING,
        winding=winding_words(plan),
        order=order,
    )


def chosen(plan: Plan, choice: Choice) -> Plan:
    """Return the plan that a choice makes of a stash; only what differs from the plan changes.

    Parameters
    ----------
    plan : Plan
        The stash, spun in any way.
    choice : Choice
        How it is to be spun.

    Raises
    ------
    PlanError
        Where the stash cannot be spun so.
    """
    now, wound_off = choice_of(plan), None
    if choice.winding not in (now.winding, MIXED):
        wound_off = WINDING_WORDS[choice.winding]
    return variant(plan, wound_off=wound_off, order=choice.order, **_keys(choice, now))


def changed(plan: Plan, choice: Choice, key: str, value: Any) -> Choice:
    """Return a choice with one chooser changed and the others fitted to it.

    Times through follow the number of plies, and plies are the plan's again after a chain.

    Parameters
    ----------
    plan : Plan
        As it is.
    choice : Choice
        As the choosers stood.
    key : str
        Which of them is changed.
    value : Any
        What it says now.

    Raises
    ------
    PlanError
        Where the stash cannot be spun so.
    """
    asked = replace(choice, **{key: value})
    if key == "plies":
        asked = replace(asked, divisions=choice_of(plan).divisions)
    if key == "scheme" and choice.scheme == "chain":
        asked = replace(asked, plies=plies_of(plan.scheme))
    return choice_of(chosen(plan, asked), asked.order)


def idle(choice: Choice) -> set[str]:
    """Return which choosers say nothing under a choice's scheme."""
    off = {key.name for key in unused_keys(choice.scheme)} & {"divisions", "closing"}
    off |= {"plies"} if choice.scheme in WITHOUT_PLIES else set()
    return off | {"order"} if choice.scheme in WITHOUT_SEQUENCE else off


def in_few_words(choice: Choice) -> str:
    """Return a choice in a few words: ``fractal, 3 plies, reversed, wound off once``."""
    plies = f"{choice.plies} plies" if choice.plies > 1 else "one single"
    usual = {AS_PLANNED, *(words for words, wound in WINDING_WORDS.items() if not wound)}
    unusual = [words for words in (choice.order, choice.winding) if words not in usual]
    return ", ".join([choice.scheme, plies, *unusual])


def _keys(choice: Choice, now: Choice) -> dict[str, Any]:
    """Return the keys of the scheme's table in which a choice differs from the plan as it is."""
    keys: dict[str, Any] = {
        key: getattr(choice, key)
        for key in ("scheme", "plies", "closing")
        if getattr(choice, key) != getattr(now, key)
    }
    if choice.divisions != now.divisions:
        keys["divisions"] = divisions_in(choice.divisions)
    if choice.scheme == "chain":
        keys.pop("plies", None)
    return keys

"""Plans drawn from what their keys are declared to be, through every file: all of it made, and of
numbers; no library warns, none hangs, and memory does not grow from plan to plan.
"""

import gc
import json
import re
import warnings
from collections.abc import Iterator
from itertools import count, islice

import psutil
import pytest

import yarncolor as yc
from tests.helpers.drawn_files import Pen
from tests.helpers.hanging import does_not_hang
from tests.helpers.paths import TIDELINE
from yarncolor.answers.answer import Answer
from yarncolor.plan import Plan
from yarncolor.planfile.read import plan_from_text
from yarncolor.report.exports import FILES, made, told_apart

TEXTS = ("plan.json", "weigh-out.csv", "stretches.csv", "card.html", "wheel.html")
DRAWN = tuple(name for name in FILES if name not in TEXTS)
PER_PICTURE = 15
"""One plan of so many has a picture made too, each time the next of all."""

HANGS_S, GROWS_MB = 60.0, 250.0
_NO_NUMBER = re.compile(r"(?<![\w-])(?:nan|-?inf(?:inity)?)(?![\w-])", re.IGNORECASE)


def plans(first_seed: int) -> Iterator[tuple[int, Plan]]:
    """Yield those of the drawn files that are plans, each with its seed."""
    for seed in count(first_seed):
        try:
            yield seed, plan_from_text(Pen(seed, spoils=0.0).file(), "drawn.toml")
        except yc.PlanError:
            continue


def texts_of(answer: Answer, names: tuple[str, ...]) -> dict[str, str]:
    contents, faults = told_apart(made(answer, names))
    assert faults == []
    return {name: contents[name].decode() for name in names if name in TEXTS}


def no_numbers(texts: dict[str, str]) -> dict[str, int]:
    """Return how often each text says of something that it is no number: a page's script may."""
    return {name: len(_NO_NUMBER.findall(text)) for name, text in texts.items()}


@pytest.fixture(scope="module")
def usual() -> dict[str, int]:
    return no_numbers(texts_of(yc.answer(yc.read_plan(TIDELINE)), TEXTS))


def whole(plan: Plan, names: tuple[str, ...], usual: dict[str, int]) -> None:
    """Check every file of a plan, and what is said of it."""
    answer = yc.answer(plan)
    assert not _NO_NUMBER.search(yc.summary_text(answer))
    texts = texts_of(answer, names)
    assert no_numbers(texts) == usual
    json.loads(texts["plan.json"], parse_constant=pytest.fail)


def all_whole(first_seed: int, many: int, usual: dict[str, int]) -> None:
    """Check so many plans; some of each hundred after the first are compared in memory."""
    held_mb = []
    for number, (seed, plan) in enumerate(islice(plans(first_seed), many)):
        turn, rest = divmod(number + first_seed, PER_PICTURE)
        names = TEXTS if rest else (*TEXTS, DRAWN[turn % len(DRAWN)])
        with warnings.catch_warnings(), does_not_hang(HANGS_S, f"plan {seed}"):
            warnings.simplefilter("error", RuntimeWarning)
            try:
                whole(plan, names, usual)
            except Exception as error:
                error.add_note(f"plan of seed {seed}, {names[-1]}")
                raise
        if number % 50 == 49:
            gc.collect()
            held_mb.append(psutil.Process().memory_info().rss / 1e6)
    assert held_mb[-1] - held_mb[len(held_mb) // 3] < GROWS_MB


def test_every_file_of_a_drawn_plan_is_made_of_numbers(usual):
    for _, plan in islice(plans(0), 12):
        whole(plan, TEXTS, usual)


@pytest.mark.thorough
@pytest.mark.parametrize("start", range(0, 120_000, 10_000))
def test_every_file_of_three_thousand_drawn_plans_is_made_of_numbers(start, usual):
    all_whole(start, 250, usual)

"""Yarns to be remembered, read from their plan files; every fault of all of them at once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from yarncolor.answers.answer import Answer, answer
from yarncolor.answers.in_grams import in_grams
from yarncolor.errors import Fault, PlanError, on_one_line, quoted
from yarncolor.measures import METRIC, Measures
from yarncolor.phrases import title_of
from yarncolor.planfile.read import read_plan
from yarncolor.report.record.each_file import of_each_file
from yarncolor.report.record.photograph import photograph
from yarncolor.report.record.record import Record, record, record_data

ALL_YARNS = "all-yarns"
"""What the page and the picture of several yarns are called."""


@dataclass(frozen=True)
class Yarn:
    """A yarn that was made, and where its plan is kept.

    Parameters
    ----------
    file : str
        Its plan file.
    answer : Answer
        What follows from its plan, from what was spun and what came out.
    photo : bytes
        Its photograph as JPEG; empty where there is none.
    """

    file: str
    answer: Answer
    photo: bytes = b""

    @property
    def name(self) -> str:
        """What it is called among others: its title, without one its file."""
        return title_of(self.answer.plan)

    @property
    def stem(self) -> str:
        """What its page is called, without an ending."""
        return Path(self.file).stem

    @property
    def say(self) -> Measures:
        """What its masses and lengths are said in."""
        return self.answer.say

    @cached_property
    def record(self) -> Record:
        """What is remembered of it."""
        return record(self.answer, self.name)

    @cached_property
    def in_grams(self) -> "Yarn":
        """The same yarn said in grams and metres."""
        return self if self.say is METRIC else replace(self, answer=in_grams(self.answer))


def read_yarns(files: Sequence[str | Path]) -> tuple[Yarn, ...]:
    """Return the yarns of plan files, in that order.

    Parameters
    ----------
    files : sequence of str or Path
        Plan files, one at least.

    Raises
    ------
    PlanError
        With every fault of every file, one line each: of the plan, of its picture, of two plans
        of one name.
    """
    read, faults = of_each_file(files, _read)
    yarns = tuple(yarn for _, yarn in read)
    faults += _same_names(yarns)
    if faults:
        raise PlanError(faults)
    return yarns


def said_alike(yarns: Sequence[Yarn]) -> Sequence[Yarn]:
    """Return yarns said in one unit: that of their plans, grams and metres where these differ.

    In a table numbers are compared down a column, and on one scale a length is as long for all. No
    plan's unit has more right than another's then; grams and metres are those of every file.

    Parameters
    ----------
    yarns : sequence of Yarn
        One at least.
    """
    return [yarn.in_grams for yarn in yarns] if are_unlike(yarns) else yarns


def are_unlike(yarns: Sequence[Yarn]) -> bool:
    """Return whether the plans of yarns are said in different units."""
    return any(yarn.say is not yarns[0].say for yarn in yarns)


def yarns_data(yarns: Sequence[Yarn]) -> dict[str, Any]:
    """Return yarns as data, the keys of ``record.json``: its numbers and texts in grams, metres."""
    return record_data(tuple(yarn.in_grams.record for yarn in yarns))


def _read(file: str) -> Yarn:
    plan = read_plan(file)
    picture = "" if plan.made is None else plan.made.picture
    return Yarn(file, answer(plan), photograph(file, picture) if picture else b"")


def _same_names(yarns: Sequence[Yarn]) -> list[Fault]:
    """Return a fault of each plan that has the name, or the file name, of one before it."""
    names: dict[str, str] = {}
    stems = {ALL_YARNS: "all yarns"}
    faults = []
    for yarn in yarns:
        name, stem = yarn.name.casefold(), yarn.stem.casefold()
        if name in names:
            remedy = (
                f"{on_one_line(names[name])} has that name too; give each plan a title of its own"
            )
            faults.append(Fault(yarn.file, "title", quoted(yarn.name), remedy))
        elif stem in stems:
            remedy = (
                f"its page would be that of {on_one_line(stems[stem])}; give the file another name"
            )
            faults.append(Fault(yarn.file, "", "", remedy))
        names.setdefault(name, yarn.file)
        stems.setdefault(stem, yarn.file)
    return faults

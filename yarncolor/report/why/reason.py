"""Why a figure is what it is, as data, and the lines that say it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, get_args

from yarncolor.answers.answer import Answer
from yarncolor.measures import METRIC, Measures
from yarncolor.phrases import capital, join_words
from yarncolor.report.why.equation import Working

How = Literal["measured", "given", "decided", "from your hand", "reckoned", "assumed", "not said"]
"""How a thing is known of which figures are made, what is surest first."""

_MOST_HELPS = 2


@dataclass(frozen=True)
class Source:
    """A thing that figures rest on.

    Parameters
    ----------
    words : str
        What it is.
    how : How
        How it is known.
    by : str
        By what more exactly; empty where that is all.
    surer : str
        What would make it surer; empty where it is what the spinner decides.
    section : str
        Of the page, where that is typed.
    """

    words: str
    how: How
    by: str = ""
    surer: str = ""
    section: str = ""

    @property
    def line(self) -> str:
        """What it is and how it is known, in words."""
        return f"{self.words} ({self.known})"

    @property
    def known(self) -> str:
        """How it is known, in words."""
        return f"{self.how}, {self.by}" if self.by else self.how


@dataclass(frozen=True)
class Reason:
    """Why a figure is what it is.

    Parameters
    ----------
    figure : str
        What it is called.
    rests_on : tuple of Source
        What it is made of.
    workings : tuple of Working
        Its formula with this plan's numbers, once or of several alike.
    method : str
        How it is found where no one line reckons it, or what goes with the line.
    """

    figure: str
    rests_on: tuple[Source, ...]
    workings: tuple[Working, ...] = ()
    method: str = ""

    @property
    def how(self) -> How:
        """How it is known: as what it rests on where it is that itself, else reckoned."""
        is_itself = not self.workings and not self.method
        return self.rests_on[0].how if is_itself else "reckoned"

    def lines(self, measures: Measures = METRIC) -> Iterator[str]:
        """Return the formula, where the figure comes from and what would make it surer.

        Parameters
        ----------
        measures : Measures
            What the plan is said in.
        """
        yield from (one.line(self.figure, measures) for one in self.workings)
        if self.method:
            yield f"{capital(self.method)}."
        yield f"Where from: {self._from}."
        surer = "; ".join(self._surer())
        yield f"Surer: {surer or self._nothing}."

    @property
    def _nothing(self) -> str:
        """Return what is said where nothing that can be typed makes it surer."""
        is_assumed = any(one.how == "assumed" for one in self.rests_on)
        return "nothing that is asked for here" if is_assumed else "nothing; you decide it"

    @property
    def _from(self) -> str:
        if not self.workings and not self.method:
            return self.rests_on[0].known
        return f"reckoned from {join_words([one.line for one in self.rests_on])}"

    def _surer(self) -> Iterator[str]:
        """Yield what would help most: first where least is known."""
        ranked = sorted(self.rests_on, key=lambda one: get_args(How)[::-1].index(one.how))
        helps = dict.fromkeys(f"{one.surer}, in {one.section}" for one in ranked if one.surer)
        yield from list(helps)[:_MOST_HELPS]


@dataclass(frozen=True)
class Whys:
    """Reasons for the figures of a table.

    Parameters
    ----------
    heads : mapping of str to Reason
        By the head of a column, for all figures below it.
    rows : mapping of str to Reason
        By the first cell of a row.
    measures : Measures
        What the plan is said in.
    column : int
        Where the figure of such a row stands; 0 where there are several, so that its first cell
        answers for all.
    """

    heads: Mapping[str, Reason] = field(default_factory=dict)
    rows: Mapping[str, Reason] = field(default_factory=dict)
    measures: Measures = METRIC
    column: int = 1

    def __iter__(self) -> Iterator[Reason]:
        """Return every reason once."""
        each = (*self.rows.values(), *self.heads.values())
        return iter({id(one): one for one in each}.values())


NOT_ASKED = Whys()
"""Where no figure answers."""


def whys_of(
    answer: Answer,
    heads: Mapping[str, Reason] = MappingProxyType({}),
    rows: Mapping[str, Reason] = MappingProxyType({}),
    column: int = 1,
) -> Whys:
    """Return reasons for the figures of a table, told in what the plan is said in.

    Parameters
    ----------
    answer : Answer
        What follows from the plan.
    heads, rows : mapping of str to Reason
        By the head of a column, and by the first cell of a row.
    column : int
        Where the figure of such a row stands; 0 where there are several.
    """
    return Whys(heads, rows, answer.say, column)

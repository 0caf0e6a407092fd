"""Figures that stand in sentences and beside pictures: as they are seen, each with its reason."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from yarncolor.measures import Measures
from yarncolor.report.why.reason import Reason, Source
from yarncolor.said import Said, figures_in


class Seen(NamedTuple):
    """Figures of one reason, as they are seen."""

    words: str
    reason: Reason

    @property
    def heading(self) -> str:
        """What is seen, and what that is."""
        return f"{self.words.rstrip('.')}: {self.reason.figure}"


def seen_in(sentences: Iterable[Said], reasons: Mapping[str, Reason]) -> tuple[Seen, ...]:
    """Return the figures of sentences with their reasons, those of one reason together.

    Parameters
    ----------
    sentences : iterable of Said
        Their numbers are figures.
    reasons : mapping of str to Reason
        By what a figure is of.
    """
    figures = (figure for sentence in sentences for figure in figures_in(sentence))
    return together((figure.seen, reasons[figure.of]) for figure in figures)


def together(figures: Iterable[tuple[str, Reason]]) -> tuple[Seen, ...]:
    """Return figures with those of one reason together, in the order in which they are seen.

    Parameters
    ----------
    figures : iterable of (str, Reason)
        What is seen of each, and its reason.
    """
    words: dict[tuple[str, ...], dict[str, Reason]] = {}
    for seen, reason in figures:
        words.setdefault((reason.figure, *reason.lines()), {})[seen] = reason
    return tuple(Seen(", ".join(own), next(iter(own.values()))) for own in words.values())


def told_of(seen: Iterable[Seen], measures: Measures) -> list[tuple[str, list[str]]]:
    """Return what figures answer, each as its heading and its lines; what several say, once.

    Parameters
    ----------
    seen : iterable of Seen
        What is asked for.
    measures : Measures
        What the plan is said in.
    """
    figures = list(seen)
    shared: dict[str, list[int]] = {}
    for at, one in enumerate(figures):
        for line in one.reason.lines(measures):
            shared.setdefault(line, []).append(at)
    lines: dict[tuple[int, ...], list[str]] = {(at,): [] for at in range(len(figures))}
    for line, of in shared.items():
        lines.setdefault(tuple(of), []).append(line)
    return [(_heading(figures, of), own) for of, own in lines.items() if own]


def _heading(figures: list[Seen], of: tuple[int, ...]) -> str:
    """Return what stands above lines that are told once of so many figures."""
    if len(of) == 1:
        return figures[of[0]].heading
    return ", ".join(dict.fromkeys(figures[at].words for at in of))


def as_drawn(what: str) -> Reason:
    """Return why a picture shows so much of a thing: nobody has to decide it.

    Parameters
    ----------
    what : str
        That is shown.
    """
    by = "for the picture, so that it is seen whole and clear"
    return Reason(f"{what} shown", (Source(what, "decided", by),))

"""Everything a screen needs of a plan being worked on, made in one go."""

from dataclasses import dataclass

from yarncolor.advice import advice_on
from yarncolor.answers import Answer, answer
from yarncolor.display import show_advice, show_weigh_out, show_yarn
from yarncolor.editor import Editor
from yarncolor.strips import strip_alt


@dataclass(frozen=True)
class Frame:
    """One picture of the work: what to say beside what is painted.

    Parameters
    ----------
    order : tuple of int
        Which entry stands in each place.
    names : tuple of str
        The lot of each place.
    alt : str
        Text alternative of the strip.
    shares : dict of int to float
        Share of the yarn that shows so many colours.
    advice : tuple of str
        Worst first.
    yarn_html, advice_html, weigh_out_html : str
        Fragments with every name escaped.
    answer : Answer
        What all of it was made from.
    """

    order: tuple[int, ...]
    names: tuple[str, ...]
    alt: str
    shares: dict[int, float]
    advice: tuple[str, ...]
    yarn_html: str
    advice_html: str
    weigh_out_html: str
    answer: Answer


def frame(editor: Editor) -> Frame:
    """Return the frame of a plan as it stands."""
    found = answer(editor.plan)
    told = advice_on(found)
    return Frame(
        order=editor.entries,
        names=editor.names(),
        alt=strip_alt(found),
        shares=dict(enumerate(found.shares.tolist(), start=1)),
        advice=tuple(item.text for item in told),
        yarn_html=show_yarn(found).html,
        advice_html=show_advice(found).html,
        weigh_out_html=show_weigh_out(found).html,
        answer=found,
    )

"""What records say of a spinner's own hands, in words and as a file."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from yarncolor.answers.own_hand import own_hand
from yarncolor.errors import Fault, PlanError, on_one_line, quoted
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.resolved import resolve
from yarncolor.measures import METRIC, Measures
from yarncolor.phrases import counted, title_of
from yarncolor.plan.hands import FIGURES, RESTS_ON, WORDS, Figure, Hands
from yarncolor.plan.key import SHARE
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.hand_file import hand_text, is_hand_file
from yarncolor.planfile.read import read_plan
from yarncolor.planfile.save import write_text
from yarncolor.report.record.each_file import of_each_file

_NOTHING = (
    "nothing in these plans tells of your hands: say in [[spun]] what pieces weighed and measured, "
    "and in [made] what came out"
)


def read_hand(files: Sequence[str | Path]) -> Hands:
    """Return what plan files say of the hands that spun them.

    Parameters
    ----------
    files : sequence of str or Path
        Plan files, one at least.

    Raises
    ------
    PlanError
        With every fault of every file, one line each: of the plan, of two plans of one name,
        of plans that say nothing of hands.
    """
    return _told_by(_laid_out(files))


def _laid_out(files: Sequence[str | Path]) -> list[Layout]:
    every, faults = of_each_file(files, lambda file: layout(resolve(read_plan(file))))
    faults += _same_names(every)
    if faults:
        raise PlanError(faults)
    return [laid for _, laid in every]


def _told_by(every: list[Layout]) -> Hands:
    found = own_hand(every)
    if not any(found.figures()):
        raise PlanError([Fault("", "FILE", "", _NOTHING)])
    return found


def _said_in(every: list[Layout]) -> Measures:
    """Return what all plans are said in, grams and metres where they differ."""
    each = {id(laid.resolved.say): laid.resolved.say for laid in every}
    return METRIC if len(each) > 1 else next(iter(each.values()))


def _same_names(every: list[tuple[str, Layout]]) -> Iterator[Fault]:
    """Yield a fault of each yarn that has the name of one before it: none counts twice."""
    names: dict[str, str] = {}
    for file, laid in every:
        name = title_of(laid.resolved.plan)
        if name.casefold() in names:
            remedy = f"{on_one_line(names[name.casefold()])} has that name too; give each yarn once"
            yield Fault(file, "title", quoted(name), remedy)
        names.setdefault(name.casefold(), file)


def hand_lines(hands: Hands, say: Measures = METRIC) -> tuple[str, ...]:
    """Return each figure in words: what it is, its interval, on how many it rests.

    Parameters
    ----------
    hands : Hands
        What they do.
    say : Measures
        What it is said in.
    """
    return tuple(
        f"{WORDS[key] if _is_share(key) else say.pace.name}: {_text(key, one, say)}"
        for key, one in hands.figures()
    )


def _text(key: str, figure: Figure, say: Measures) -> str:
    on = counted(figure.rests_on, RESTS_ON.get(key, "yarn"))
    if figure.low is None or figure.high is None:
        return f"{_value(key, figure.value, say)}, by {on} alone"
    low, high = (_value(key, bound, say) for bound in (figure.low, figure.high))
    return f"{_value(key, figure.value, say)}, by {on}; nine times in ten {low} to {high}"


def _value(key: str, value: float, say: Measures) -> str:
    return f"{value * 100:.1f}%" if _is_share(key) else say.pace.number(value, 2)


def _is_share(key: str) -> bool:
    return KEYS[FIGURES[key], key].kind == SHARE


def hand_file(files: Sequence[str | Path], out: str | Path) -> str:
    """Write what plan files say of the hands that spun them, whole or not; return it in words.

    Parameters
    ----------
    files : sequence of str or Path
        Plan files, one at least.
    out : str or Path
        The file to write; one that says something else is left alone.
    """
    path = Path(out)
    if path.exists() and not is_hand_file(path):
        remedy = "there is a file of that name that is none of hands; choose another"
        raise PlanError([Fault(str(out), "", "", remedy)])
    every = _laid_out(files)
    found = _told_by(every)
    write_text(path, hand_text(found))
    head = f"What your hands do, by {counted(len(found.yarns), 'yarn')}"
    lines = "\n".join(f"  {line}" for line in hand_lines(found, _said_in(every)))
    written = f"Written: {on_one_line(str(out))}."
    return f"{head}\n{lines}\n{written} A plan takes from it with hand = {quoted(path.name)}."

"""What records say of a spinner's own hands, in words and as a file."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from yarncolor.answers.own_hand import own_hand
from yarncolor.errors import Fault, PlanError, on_one_line, quoted
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.resolved import resolve
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
    every, faults = of_each_file(files, lambda file: layout(resolve(read_plan(file))))
    faults += _same_names(every)
    if faults:
        raise PlanError(faults)
    found = own_hand([laid for _, laid in every])
    if not any(found.figures()):
        raise PlanError([Fault("", "FILE", "", _NOTHING)])
    return found


def _same_names(every: list[tuple[str, Layout]]) -> Iterator[Fault]:
    """Yield a fault of each yarn that has the name of one before it: none counts twice."""
    names: dict[str, str] = {}
    for file, laid in every:
        name = title_of(laid.resolved.plan)
        if name.casefold() in names:
            remedy = f"{on_one_line(names[name.casefold()])} has that name too; give each yarn once"
            yield Fault(file, "title", quoted(name), remedy)
        names.setdefault(name.casefold(), file)


def hand_lines(hands: Hands) -> tuple[str, ...]:
    """Return each figure in words: what it is, its interval, on how many it rests."""
    return tuple(f"{WORDS[key]}: {_text(key, one)}" for key, one in hands.figures())


def _text(key: str, figure: Figure) -> str:
    on = counted(figure.rests_on, RESTS_ON.get(key, "yarn"))
    if figure.low is None or figure.high is None:
        return f"{_value(key, figure.value)}, by {on} alone"
    low, high = (_value(key, bound) for bound in (figure.low, figure.high))
    return f"{_value(key, figure.value)}, by {on}; nine times in ten {low} to {high}"


def _value(key: str, value: float) -> str:
    declared = KEYS[FIGURES[key], key]
    return f"{value * 100:.1f}%" if declared.kind == SHARE else f"{value:.2f}"


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
    found = read_hand(files)
    write_text(path, hand_text(found))
    head = f"What your hands do, by {counted(len(found.yarns), 'yarn')}"
    lines = "\n".join(f"  {line}" for line in hand_lines(found))
    written = f"Written: {on_one_line(str(out))}."
    return f"{head}\n{lines}\n{written} A plan takes from it with hand = {quoted(path.name)}."

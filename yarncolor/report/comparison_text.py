"""What differs between yarns, in sentences: true, the weightiest first, silent on what is equal."""

from collections.abc import Callable, Iterator

from yarncolor.answers.answer import Answer
from yarncolor.errors import on_one_line
from yarncolor.phrases import join_words, percent
from yarncolor.report.comparison import Comparison, comparison, left_words, lots_words

Yarns = dict[str, Comparison]
"""Numbers of each plan by what it is called."""

_COUNTS = ("no", "one", "two", "three", "four", "five", "six")
_TIMES = ("never", "once", "twice")
_LEAST_SHARE, _LEAST_G, _NOTHING = 0.01, 0.1, 1e-9


def difference_sentences(plans: dict[str, Answer]) -> tuple[str, ...]:
    """Return what differs between plans, a sentence each, what matters most first.

    How much is matched comes first, then how many colours lie side by side, how loud they are,
    what is left over, length, thickness, how often the yarn changes, and where it begins and
    ends. What differs by less than would be seen in print is not told; equal plans give nothing.

    Parameters
    ----------
    plans : dict of str to Answer
        Each plan under what it is called.
    """
    yarns = {called(name): comparison(answer) for name, answer in plans.items()}
    return tuple(sentence for tell in _TOLD for sentence in tell(yarns))


def called(name: str) -> str:
    """Return a plan's name as it stands in a sentence: in quotes, unless it is one letter."""
    name = on_one_line(name)
    return name if len(name) == 1 else f"“{name}”"


def _matched(yarns: Yarns) -> Iterator[str]:
    yield from _by_share(yarns, lambda yarn: yarn.share_of(1), ("is matched", "are matched"))


def _most_colours(yarns: Yarns) -> Iterator[str]:
    """Yield who shows the most colours; two say no more than what is matched does."""
    most = max(yarn.most_colours for yarn in yarns.values())
    count = _COUNTS[most] if most < len(_COUNTS) else str(most)
    if most > 2:
        what = f"{count} colours side by side"
        words = (f"shows {what}", f"show {what}")
        yield from _by_share(yarns, lambda yarn: yarn.share_of(most), words)


def _loud(yarns: Yarns) -> Iterator[str]:
    verbs = ("marls loudly", "marl loudly")
    louder = list(_by_share(yarns, lambda yarn: yarn.loud_share, verbs))
    yield from louder or _loudest(yarns)


def _loudest(yarns: Yarns) -> Iterator[str]:
    """Yield each yarn's loudest marl where the words for them differ."""
    words = {
        name: f"{yarn.loudest} ({join_words(list(yarn.loudest_lots))})" if yarn.loudest else "none"
        for name, yarn in yarns.items()
    }
    if len({yarn.loudest for yarn in yarns.values()}) > 1:
        each = "; ".join(f"of {join_words(names)}: {said}" for names, said in _groups(words))
        yield f"The loudest marl {each}."


def _left(yarns: Yarns) -> Iterator[str]:
    lots = {lot for yarn in yarns.values() for lot in yarn.left_g}
    apart = (_span([yarn.left_g.get(lot, 0.0) for yarn in yarns.values()]) for lot in lots)
    if max(apart, default=0.0) >= _LEAST_G:
        (names, said), *others = _groups({at: left_words(it) for at, it in yarns.items()})
        if others:
            leaves = "leaves" if len(names) == 1 else "leave"
            yield _sentence([f"{join_words(names)} {leaves} {said} over", *_short(others)])


def _length(yarns: Yarns) -> Iterator[str]:
    longest_m = max(yarn.length_m for yarn in yarns.values())
    least_m = (1.0 if longest_m >= 20 else 0.1) - _NOTHING
    by_m = {name: longest_m - yarn.length_m for name, yarn in yarns.items()}
    about = max(yarn.about for yarn in yarns.values())
    say = next(iter(yarns.values())).say
    less = {
        name: f"{about}{say.long(short_m)}" for name, short_m in by_m.items() if short_m >= least_m
    }
    longest = [name for name in yarns if name not in less]
    if not less:
        return
    if len(yarns) == 2:
        (other, by), (name,) = *less.items(), longest
        yield f"The yarn of {name} is {by} longer than that of {other}."
        return
    is_longest = "The yarn of {} is" if len(longest) == 1 else "The yarns of {} are"
    shorter = [f"{join_words(names)} {_has(names)} {by} less" for names, by in _groups(less)]
    first = is_longest.format(join_words(longest))
    yield f"{first} the longest, {about}{say.long(longest_m)}; {'; '.join(shorter)}."


def _thick(yarns: Yarns) -> Iterator[str]:
    words = {name: f"{yarn.wpi:.0f}" for name, yarn in yarns.items()}
    if _span([yarn.wpi for yarn in yarns.values()]) >= 1:
        yield from _each(words, ("wraps", "wrap"), " to the inch", " to the inch")
    if len({yarn.called for yarn in yarns.values()}) > 1:
        classes = _groups({name: yarn.called for name, yarn in yarns.items()})
        (names, first), *others = classes
        would = f"{join_words(names)} would be {first}"
        yield f"In a shop {_sentence([would, *_short(others)])}"


def _changes(yarns: Yarns) -> Iterator[str]:
    words = {name: _times(yarn.changes) for name, yarn in yarns.items()}
    yield from _each(words, ("changes", "change"), " along its length", " along their length")


def _ends(yarns: Yarns) -> Iterator[str]:
    words = {
        name: f"from {lots_words(yarn.begins)} to {lots_words(yarn.ends)}"
        for name, yarn in yarns.items()
    }
    plied = "As plied, "
    yield from (plied + sentence for sentence in _each(words, ("goes", "go")))


_TOLD: tuple[Callable[[Yarns], Iterator[str]], ...] = (
    _matched,
    _most_colours,
    _loud,
    _left,
    _length,
    _thick,
    _changes,
    _ends,
)
"""What is told, the weightiest first."""


def _by_share(
    yarns: Yarns, share_of: Callable[[Comparison], float], verbs: tuple[str, str]
) -> Iterator[str]:
    """Yield over how much of its length each yarn does something, where that differs."""
    shares = {name: share_of(yarn) for name, yarn in yarns.items()}
    if _span(list(shares.values())) >= _LEAST_SHARE:
        words = {name: _over(share) for name, share in shares.items()}
        yield from _each(words, verbs, " of its length", " of their length")


def _over(share: float) -> str:
    if share in (0, 1):
        return "all along" if share else "nowhere"
    return f"over {percent(share)}"


def _times(count: int) -> str:
    return _TIMES[count] if count < len(_TIMES) else f"{count} times"


def _each(
    words: dict[str, str], verbs: tuple[str, str], its: str = "", their: str = ""
) -> Iterator[str]:
    """Yield what each yarn does, verb first and once: equal ones together, none where all are.

    ``its`` and ``their`` stand once, behind the first words that end in a number.
    """
    groups = _groups(words)
    if len(groups) < 2:
        return
    parts, tail = [], True
    for number, (names, said) in enumerate(groups):
        verb = "" if number else f"{verbs[len(names) > 1]} "
        counted = tail and any(letter.isdigit() for letter in said)
        tail = tail and not counted
        behind = (their if len(names) > 1 else its) if counted else ""
        parts.append(f"{join_words(names)} {verb}{said}{behind}")
    yield _sentence(parts)


def _groups(words: dict[str, str]) -> list[tuple[list[str], str]]:
    """Return which names have the same words, in the order of the plans."""
    return [
        ([name for name in words if words[name] == said], said)
        for said in dict.fromkeys(words.values())
    ]


def _short(groups: list[tuple[list[str], str]]) -> list[str]:
    return [f"{join_words(names)} {said}" for names, said in groups]


def _sentence(parts: list[str]) -> str:
    return f"{', '.join(parts)}."


def _has(names: list[str]) -> str:
    return "has" if len(names) == 1 else "have"


def _span(values: list[float]) -> float:
    """Return by how much values differ, less the smallest error of arithmetic."""
    return max(values) - min(values) + _NOTHING

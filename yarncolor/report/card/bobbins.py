"""The card's bobbins: groups of rows up to each stop-and-weigh point, and how each comes off."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from markupsafe import Markup

from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin as FilledBobbin
from yarncolor.layout.portions import NO_PLACE
from yarncolor.measures import Measures
from yarncolor.phrases import direction, hours_text, turns
from yarncolor.report.card.rows import HeapLine, Row, heaps_of, is_band, rows_of
from yarncolor.report.card.sentences import OrderSentences
from yarncolor.report.card.weights import Weight, bobbins_of, full_bobbins, weight_after
from yarncolor.report.wheel_words import left_out_words, lying_words
from yarncolor.yarn.structure import says_direction

Bar = tuple[tuple[int, float, float], ...]
"""The runs of a single as they are drawn: lot, start and width, both in per mille."""
_MOST_RUNS_DRAWN = 400
_ONCE = {1: "once", 2: "twice"}


@dataclass(frozen=True)
class Group:
    """Rows up to a stop-and-weigh point: one time through, or the band that closes once.

    ``left_out`` says "before" or "after" which rows the closing lot's last place is left out;
    ``full`` are the bobbins that are full before the group ends, by the place of the row.
    """

    heading: str
    rows: tuple[Row, ...]
    left_out: str
    stop: Weight
    full: dict[int, list[Weight]]

    @property
    def is_spun(self) -> bool:
        """Whether all of it lies on the bobbin already."""
        return all(row.is_spun for row in self.rows)


@dataclass(frozen=True)
class Bobbin:
    """One single, in spinning order, with what the page of its bobbin says of it."""

    number: int
    times: str
    is_reversed: bool
    first: int
    last: int
    last_spun_first: bool
    winding: str
    twist: str
    direction: str
    strands: int
    fills: tuple[int, ...]
    comes_off: tuple[int, ...]
    empty: tuple[tuple[int, str], ...]
    single: str
    takes: str
    weigh: str
    length: str
    heaps: tuple[HeapLine, ...]
    groups: tuple[Group, ...]
    bar: Bar
    closes: Markup
    left_out: Markup
    lies: str
    never_spun: str

    @property
    def spun_how(self) -> tuple[str, str]:
        """Which way and how tight: the same for singles that are spun alike."""
        return self.direction, self.twist

    @property
    def off_first(self) -> int:
        """The lot that comes off first in plying."""
        return self.last if self.last_spun_first else self.first

    @property
    def off_last(self) -> int:
        """The lot that comes off last."""
        return self.first if self.last_spun_first else self.last


def bobbins(answer: Answer) -> list[Bobbin]:
    """Return every bobbin of a plan, in order."""
    return [_bobbin(answer, k) for k in range(len(answer.resolved.tex))]


def _sentences(answer: Answer, k: int) -> OrderSentences:
    draft, planned = answer.resolved.scheme_input, answer.layout.planned
    return OrderSentences(
        closing=draft.closing,
        closing_lot=answer.plan.names[draft.lot[0]] if draft.closes else None,
        repeats=len(np.unique(planned.repeat[planned.of_ply(k)])),
        is_reversed=_is_reversed(answer, k),
        turns_back=draft.scheme.name == "mirrored",
        copies=draft.scheme.copies,
    )


def _bobbin(answer: Answer, k: int) -> Bobbin:
    filled, portions = answer.resolved, answer.layout.portions
    own, wound = portions.of_ply(k), int(filled.wound_off[k])
    fills, say = bobbins_of(answer, k), _sentences(answer, k)
    to_spin = answer.layout.to_spin[own]
    return Bobbin(
        number=k + 1,
        times=say.of_each_copy(_times_through(answer, k)),
        is_reversed=say.is_reversed,
        first=int(portions.lot[own.start]),
        last=int(portions.lot[own.stop - 1]),
        last_spun_first=wound % 2 == 0,
        winding=_ONCE.get(wound, f"{wound} times") if wound else "",
        twist=_twist(answer, k),
        direction=_direction(answer, k),
        strands=int(filled.yarn.strands[k]),
        fills=tuple(bobbin.number for bobbin in fills),
        comes_off=tuple(bobbin.number for bobbin in sorted(fills, key=lambda one: one.comes_off)),
        empty=_empty(fills, answer.say),
        single=_single(answer, k),
        takes=_takes(answer, own),
        weigh=answer.say.on_scale(answer.put_g[own][to_spin].sum(), filled.step_g)
        if to_spin.any()
        else "",
        length=answer.say.long(_to_spin_m(answer, k)),
        heaps=tuple(heaps_of(answer, k)),
        groups=tuple(_groups(answer, k, say)),
        bar=_bar(answer, k),
        closes=say.closes,
        left_out=say.left_out if say.closing_lot else Markup(),
        lies=lying_words(answer, k),
        never_spun=left_out_words(answer, k),
    )


def _to_spin_m(answer: Answer, k: int) -> float:
    """Return how much single of a ply is to be spun."""
    portions, own = answer.layout.portions, answer.layout.portions.of_ply(k)
    to_spin = answer.layout.to_spin[own]
    all_of_it = bool(to_spin.all())
    return float(portions.single_m[k] if all_of_it else portions.length_m[own][to_spin].sum())


def _times_through(answer: Answer, k: int) -> str:
    """Return how the sequence lies on a ply, in words; nothing for the user's own portions."""
    scheme, portions = answer.resolved.scheme, answer.layout.portions
    if scheme.name == "fractal" and scheme.divisions is not None:
        return _repeat_words(scheme.divisions[k])
    own = portions.of_ply(k)
    if scheme.name == "mixed":
        return _own_times(answer, k)
    if scheme.name == "fade":
        return f"{_times(scheme.times[k])} through each side"
    alone = portions.place[own][0] == NO_PLACE
    words = {"free": "", "shuffled": "in the order drawn", "mirrored": "there and back"}
    words["stripes"] = "stripe by stripe"
    return words.get(scheme.name or "", "one lot alone" if alone else "once through")


def _own_times(answer: Answer, k: int) -> str:
    """Return how a ply of a mixed yarn runs through what it holds alone."""
    own, planned = answer.resolved.scheme.ply[k], answer.layout.planned
    if len(set(planned.lot[planned.of_ply(k)].tolist())) == 1:
        return "one lot alone"
    through = _repeat_words(own.times or 1)
    return f"its own order, {through}{', in reverse' * own.reversed}"


def _repeat_words(times: int | tuple[float, ...]) -> str:
    """Return how often a sequence is run through: ``twice through``, or its repeats' sizes."""
    if isinstance(times, int):
        return f"{_times(times)} through"
    return f"{len(times)} times through, sizes {' : '.join(f'{size:g}' for size in times)}"


def _times(count: int) -> str:
    return _ONCE.get(count, f"{count} times")


def _is_reversed(answer: Answer, k: int) -> bool:
    scheme = answer.resolved.scheme
    return k + 1 in scheme.reversed_plies or (scheme.name == "flipped" and k % 2 == 1)


def _groups(answer: Answer, k: int, say: OrderSentences) -> list[Group]:
    portions, own = answer.layout.portions, answer.layout.portions.of_ply(k)
    rows, band = rows_of(answer, k, say), is_band(answer, k)
    side = _sides(answer, k)
    turns = portions.begins_pass[own][1:] | (np.diff(band) != 0) | (np.diff(side) != 0)
    edges = [0, *(np.flatnonzero(turns) + 1).tolist(), len(rows)]
    filled = full_bobbins(answer, k)
    starts = band[edges[:-1]]
    copies = portions.copy[own][edges[:-1]]
    headings = _headings(answer, k, starts, portions.repeat[own][edges[:-1]])
    if answer.resolved.scheme.name == "fade":
        words = ("first side", "second side")
        headings = [(words[side[at]], turn) for at, (_, turn) in zip(edges, headings, strict=False)]
    left_out = _left_out(answer, k, starts, copies)
    return [
        Group(
            heading=say.heading(*headings[at], int(copies[at])),
            rows=tuple(rows[low:high]),
            left_out=left_out[at],
            stop=weight_after(answer, own.start + high - 1),
            full={rows[at].at: filled.get(own.start + at, []) for at in range(low, high)},
        )
        for at, (low, high) in enumerate(pairwise(edges))
    ]


def _sides(answer: Answer, k: int) -> np.ndarray:
    """Return on which side of a fade each row of a ply is: 0 or 1; 0 for every other scheme."""
    portions, scheme = answer.layout.portions, answer.resolved.scheme
    place = portions.place[portions.of_ply(k)]
    return ((place > len(scheme.from_)) & (scheme.name == "fade")).astype(int)


def _twist(answer: Answer, k: int) -> str:
    twist = answer.resolved.yarn.twist_tpm
    return "" if twist is None else turns(float(twist[k]))


def _direction(answer: Answer, k: int) -> str:
    """Return which way the single is spun, where the plan says so."""
    if not says_direction(answer.plan):
        return ""
    return direction(answer.resolved.yarn.directions[k])


def _empty(fills: list[FilledBobbin], say: Measures) -> tuple[tuple[int, str], ...]:
    """Return the number of each bobbin and what it weighs empty, "" where that is not known."""
    return tuple((one.number, "" if one.tare_g is None else say.tare(one.tare_g)) for one in fills)


def _single(answer: Answer, k: int) -> str:
    """Return how thick the single is and how it is drafted, for the wheel."""
    yarn, spinning = answer.resolved.yarn, answer.plan.spinning
    tex = float(yarn.strand_tex[k])
    text = f"{answer.say.single(tex)}, about {yarn.wpi(tex):.0f} wraps to the inch"
    if spinning.drive_ratio is None or yarn.twist_tpm is None:
        return text
    draft_cm = float(spinning.drive_ratio / yarn.twist_tpm[k] * 100)
    return f"{text}; draft {answer.say.width(draft_cm)} for each treadle"


def _takes(answer: Answer, own: slice) -> str:
    portion_h, to_spin = answer.hours.portion_h, answer.layout.to_spin[own]
    if portion_h is None or not to_spin.any():
        return ""
    return hours_text(float(portion_h[own][to_spin].sum()))


def _headings(
    answer: Answer, k: int, band: np.ndarray, repeat: np.ndarray
) -> list[tuple[str, int]]:
    """Return what each group is called, and the how-manieth time through it is as planned."""
    if answer.resolved.scheme.name == "mirrored":
        return [("there" if at == 1 else "back", at) for at in repeat.tolist()]
    planned = answer.layout.planned
    in_order = list(dict.fromkeys(planned.repeat[planned.of_ply(k)].tolist()))
    word = "time" if len(band) > 1 and len(in_order) > 1 else ""
    numbers = [in_order.index(at) + 1 for at in repeat.tolist()]
    return [("band" if last else word, at) for last, at in zip(band, numbers, strict=True)]


def _left_out(answer: Answer, k: int, band: np.ndarray, copy: np.ndarray) -> list[str]:
    """Return where each group leaves the closing lot out: "before", "after" its rows, or ""."""
    way = answer.resolved.scheme_input.closing
    if way == "drop":
        return ["before" if _is_reversed(answer, k) else "after"] * len(band)
    own = np.flatnonzero(~band) if way in ("tail", "share") else np.zeros(0, dtype=int)
    meets_another = own[:-1][np.diff(copy[own]) == 0]
    return ["after" if at in meets_another else "" for at in range(len(band))]


def _bar(answer: Answer, k: int) -> Bar:
    these = answer.runs
    own = np.flatnonzero(these.ply == k)
    if len(own) > _MOST_RUNS_DRAWN:
        return ()
    edges = np.append(0.0, these.end_m[own]) / answer.layout.portions.single_m[k] * 1000
    start, width = np.round(edges[:-1], 2).tolist(), np.round(np.diff(edges), 2).tolist()
    return tuple(zip(these.lot[own].tolist(), start, width, strict=True))

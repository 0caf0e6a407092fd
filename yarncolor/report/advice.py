"""What the spinner should know, worst first, in a spinner's words."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.by_hand import ByScale, nearest_rolags, rolags_to_divide
from yarncolor.answers.closing_costs import ClosingCost
from yarncolor.answers.fibre import missing, used_of_lots_g
from yarncolor.answers.guessed_thickness import about, if_single_is
from yarncolor.answers.leftovers import Leftover, left_on_bobbins_m
from yarncolor.answers.near_twins import Twins, lost_to_other_eyes, near_twins, unsure_contrasts
from yarncolor.answers.runs import at_fault
from yarncolor.colour.colour_vision import DEFICIENCIES
from yarncolor.defaults import sequence_of, to_divide_g
from yarncolor.editing.merging import are_side_by_side
from yarncolor.layout.layout import drawn_off_g, used_g
from yarncolor.layout.turned_round import put_right_by_winding
from yarncolor.measures import Measure, Measures
from yarncolor.phrases import (
    CLOSING_WORDS,
    EYES,
    capital,
    in_fractions,
    join_first,
    join_words,
    plies_words,
)
from yarncolor.plan import REVERSIBLE, Lot, Plan
from yarncolor.report import (
    bobbin_advice,
    braid_advice,
    scheme_advice,
    stripe_advice,
    wheel_advice,
    yarn_advice,
)
from yarncolor.report.drift_words import drift_advice
from yarncolor.report.unlike_plies import unlike_plies
from yarncolor.report.ways import Merge, Part, Recount, Told, Way, turned_round, wound_off

MOST_PAIRS = 4
_WHOLE = 1e-6
Said = str | tuple[str, tuple[Way, ...]] | Told
"""What to know; with ranked ways to mend it; with those that the words tell of."""


WAYS = "What mends it, best first:"
"""What a lead ends with that ranked ways follow upon."""


@dataclass(frozen=True)
class Advice:
    """One thing the spinner should know.

    Parameters
    ----------
    kind : str
        What it is about, for other programs.
    lead : str
        What to know.
    ways : tuple of Way
        Ways to mend it, best first, where they are ranked.
    taken : tuple of Way
        Ways to mend it that the lead tells of, and that can be taken at a bench.
    """

    kind: str
    lead: str
    ways: tuple[Way, ...] = ()
    taken: tuple[Way, ...] = ()

    @property
    def remedies(self) -> tuple[Way, ...]:
        """Every way that can be taken at a bench, best first."""
        return (*self.ways, *self.taken)

    @property
    def text(self) -> str:
        """All of it in one paragraph."""
        if not self.ways:
            return self.lead
        numbered = [
            f"({number}) {way.choice} ({way.key}): {way.cost}"
            for number, way in enumerate(self.ways, 1)
        ]
        return f"{self.lead} {'; '.join(numbered)}."


def advice_on(answer: Answer) -> list[Advice]:
    """Return everything a spinner should know of a plan, worst first."""
    return [_advice(kind, said) for kind, tell in KINDS.items() for said in tell(answer)]


def no_advice(answer: Answer) -> str:
    """Return what is said where there is no advice: of a yarn that is a guess, that it is one."""
    hangs_on = if_single_is(answer)
    if not hangs_on:
        return "Nothing to mend."
    return f"No fault shows, {hangs_on}; say how thick it is, and this is looked at again."


def _advice(kind: str, said: Said) -> Advice:
    return Advice(kind, said) if isinstance(said, str) else Advice(kind, *said)


def _mixed_winding(answer: Answer) -> Iterator[Said]:
    times, reversed_plies = answer.resolved.wound_off, answer.resolved.scheme.reversed_plies
    if answer.resolved.scheme_input.striped is not None:
        return
    turned = times % 2
    reverse = np.isin(np.arange(1, len(turned) + 1), reversed_plies)
    if answer.layout.wheel is not None:
        reverse[put_right_by_winding(answer.layout.wheel, times)] ^= True
    mended = (turned != reverse).all() or (turned == reverse).all()
    if turned.all() or not turned.any() or mended:
        return
    odd = plies_words(np.flatnonzero(turned))
    one = turned.sum() == 1
    told = (
        f"{capital(odd)} {'is' if one else 'are'} wound off and the others are not, so "
        f"{'it runs' if one else 'they run'} backwards against the rest. Wind off all bobbins or "
        f"none, wind {'that one' if one else 'those'} off once more, or spin "
        f"{'that ply' if one else 'those plies'} in reverse order."
    )
    turned_plies = {*reversed_plies} ^ {int(ply) + 1 for ply in np.flatnonzero(turned)}
    ways = [
        wound_off("wind off all bobbins", 1),
        wound_off("wind off none", 0),
        wound_off(f"wind {odd} off once more", (times + turned).tolist()),
    ]
    if answer.resolved.scheme.name in REVERSIBLE:
        ways.append(turned_round(f"spin {odd} in reverse order", sorted(turned_plies)))
    yield told, (), tuple(ways)


def _doubled_run(answer: Answer) -> Iterator[tuple[str, tuple[Way, ...]]]:
    wrong = np.flatnonzero(at_fault(answer.runs, answer.layout))
    if not len(wrong):
        return
    worst = wrong[np.argmax(answer.runs.ratio[wrong])]
    lot = answer.plan.names[answer.runs.lot[worst]]
    length_m = answer.runs.end_m[worst] - answer.runs.start_m[worst]
    meets = ": the sequence closes on it, so the end of one repeat meets the start of the next"
    ways = tuple(_way(cost, lot, answer.say) for cost in answer.closing_costs if cost.mends)
    none = f"No way of closing mends that: give {lot} less fibre, or another place."
    if answer.layout.wheel is not None and not answer.closing_costs:
        none = "With what is spun already, another way of closing comes too late."
    yield (
        (
            f"{lot} runs on for {about(answer)}{answer.say.length(length_m)} "
            f"on ply {answer.runs.ply[worst] + 1}, "
            f"{answer.runs.ratio[worst]:.1f} times as long as the usual run there"
            f"{meets if answer.runs.pieces[worst] > 1 else ''}. {WAYS if ways else none}"
        ),
        ways,
    )


_HANDS = {
    "tail": ", leaving the last place out where repeats meet",
    "share": ", one piece before each repeat and one at the end",
    "halve": " of each repeat",
    "drop": " of every repeat",
    "swap": " wherever a repeat meets the next",
}


def _way(way: ClosingCost, lot: str, say: Measures) -> Way:
    """Return a way of closing in the chooser's words, and what it costs."""
    over = f"{say.hardly(way.left_over_g)} of {lot} stay over"
    parts = [
        over if way.left_over_g else "nothing stays over",
        f"plies alike over {way.matched:.0%} of the yarn",
    ]
    if way.shifted_m:
        moved = say.length(way.shifted_m)
        parts.append(f"repeats begin up to {moved} of single off their place")
    parts.append(
        "hands can divide the fibre without a scale" if way.by_hand else "it takes a scale"
    )
    words = f"{CLOSING_WORDS[way.closing]}{_HANDS.get(way.closing, '')}"
    change = (("scheme", "closing", way.closing),)
    return Way(words, way.closing, ", ".join(parts), change)


def _runs_out(answer: Answer) -> Iterator[str]:
    left = left_on_bobbins_m(answer.layout)
    if not left.any():
        return
    first = plies_words(np.flatnonzero(left == 0))
    run_out = "ends" if (left == 0).sum() == 1 else "end"
    for k in np.flatnonzero(left):
        own = [one for one in answer.leftovers if one.on_bobbin and one.on_bobbin.ply == k]
        grams = sum(item.mass_g for item in own)
        end = "spun first" if answer.resolved.wound_off[k] % 2 == 0 else "spun last"
        yield (
            f"The plies do not run out together: when {first} {run_out}, ply {k + 1} still has "
            f"{about(answer)}{answer.say.length(left[k])} ({answer.say.mass(grams)}), "
            f"what was {end}: {_colours(own, answer)}."
        )


def _short_of_target(answer: Answer) -> Iterator[str]:
    short, names = missing(answer), answer.plan.names
    if short:
        lots = join_words(
            [f"{answer.say.mass(lack.mass_g)} of {names[lack.lot]}" for lack in short]
        )
        yield (
            f"The stash gives {1 / answer.layout.target_ratio:.0%} of the yarn that is wanted. "
            f"Missing, before carding: {lots}."
        )


def _left_over(answer: Answer) -> Iterator[str]:
    used = used_g(answer.layout)
    drawn_g = drawn_off_g(answer.layout)
    never = [item for item in answer.leftovers if item.on_bobbin is None and used[item.lot]]
    left = [replace(item, mass_g=item.mass_g - drawn_g[item.lot]) for item in never]
    own = [item for item in left if item.mass_g > _WHOLE]
    if own:
        yield f"Never spun, left in the drawer: {_colours(own, answer)}."


def _heap(answer: Answer) -> Iterator[str]:
    heaps = [heap.lot for single in answer.weigh_out for heap in single.heaps]
    if heaps:
        lots = join_words([answer.plan.names[lot] for lot in dict.fromkeys(heaps)])
        yield (
            f"Some portions of {lots} are below two steps of the scale "
            f"({answer.say.step(answer.resolved.step_g)} each). Weigh each heap whole "
            "and divide it by hand, as the weigh-out says."
        )


def _rolags(answer: Answer) -> Iterator[Said]:
    portions, to_divide = answer.layout.portions, answer.resolved.to_divide_g
    by_scale = np.array([isinstance(divided, ByScale) for divided in answer.by_hand])
    for at, lot in enumerate(answer.plan.lots):
        own = (portions.lot == at) & answer.layout.to_spin
        count = rolags_to_divide(answer.resolved, at)
        if count is None or not by_scale[own].any():
            continue
        shares = np.unique(portions.mass_g[own] / to_divide[at])
        near = nearest_rolags(count, shares)
        would = f"{near} would, the nearest number that does" if near else "no near number does"
        rolags = f"{in_fractions(count)} rolags of {lot.name}"
        told = f"{rolags} do not divide by hand over its portions; {would}."
        of_all = (near or 0) * (lot.rolags or 0) / count
        yield told, (), tuple(_recounted(lot, of_all, answer.say.mass))


def _recounted(lot: Lot, rolags: float, mass: Measure) -> Iterator[Way]:
    """Yield carding a lot into so many rolags, where they are whole: a part is kept back else."""
    if round(rolags) and abs(rolags - round(rolags)) < _WHOLE:
        each = f"{mass.of(lot.mass_g / round(rolags)):.3g} {mass.unit} each"
        choice = f"card {lot.name} into {round(rolags)} rolags, {each}"
        yield Way(choice, of_lots=Recount(lot.name, round(rolags)))


def _unused_lot(answer: Answer) -> Iterator[str]:
    unused = np.flatnonzero(used_of_lots_g(answer) == 0)
    if len(unused):
        yield f"Never used: {join_words([answer.plan.names[lot] for lot in unused])}."


def _near_twins(answer: Answer) -> Iterator[Said]:
    pairs = near_twins(answer)
    for pass_for_one, told, mend in _OF_NEAR_TWINS:
        these = [twins for twins in pairs if twins.pass_for_one == pass_for_one]
        ways = [way for twins in these[:MOST_PAIRS] for way in _of_twins(twins, answer.plan)]
        if these:
            yield f"{told}: {_paired(these, answer)}. {mend}", (), tuple(ways)


_OF_NEAR_TWINS = (
    (True, "Alike, to pass for one in the yarn", "Merge them, or part them in the order."),
    (False, "Close, and hard to tell apart in thin stripes", "Part them in the order."),
)
"""Whether they pass for one, what they are, and what to do."""


def _of_twins(twins: Twins, plan: Plan) -> Iterator[Way]:
    """Yield making one of two lots that pass for one and are no lot's part, and parting them."""
    both = (plan.lots[twins.one], plan.lots[twins.other])
    if any(lot.on_braid for lot in both):
        return
    gone, kept = sorted(both, key=lambda lot: lot.mass_g)
    used = {name for lot in plan.lots for name in lot.made_from}
    if twins.pass_for_one and not (kept.made_from or gone.made_from or gone.name in used):
        yield Way(f"merge {gone.name} into {kept.name}", of_lots=Merge(kept.name, gone.name))
    order = sequence_of(plan.scheme, plan.names, to_divide_g(plan))
    if are_side_by_side(order, kept.name, gone.name):
        choice = f"part {kept.name} and {gone.name} in the order"
        yield Way(choice, of_lots=Part(kept.name, gone.name))


def _unsure(answer: Answer) -> Iterator[str]:
    pairs = unsure_contrasts(answer)
    if pairs:
        yield (
            f"Closer in colour than a photograph can tell: {_paired(pairs, answer)}. Lay the fibre "
            "side by side in daylight before you count on that contrast."
        )


def _lost_stripe(answer: Answer) -> Iterator[str]:
    for eyes in DEFICIENCIES:
        pairs = [twins for twins in lost_to_other_eyes(answer) if twins.eyes == eyes]
        if pairs:
            paired = _paired(pairs, answer)
            yield f"To {EYES[eyes]} hardly a stripe is left between {paired}."


def _paired(pairs: list[Twins], answer: Answer) -> str:
    names = answer.plan.names
    named = [f"{names[twins.one]} and {names[twins.other]}" for twins in pairs[:MOST_PAIRS]]
    more = f"; and {len(pairs) - MOST_PAIRS} more pairs" if len(pairs) > MOST_PAIRS else ""
    return "; ".join(named) + more


def _colours(own: list[Leftover], answer: Answer) -> str:
    grams: dict[int, float] = {}
    for item in own:
        grams[item.lot] = grams.get(item.lot, 0.0) + item.mass_g
    return join_words(
        [f"{answer.say.mass(mass)} of {answer.plan.names[lot]}" for lot, mass in grams.items()]
    )


def _unseen(answer: Answer) -> Iterator[str]:
    if answer.plan.unseen:
        texts = join_first([f"“{text}”" for text in answer.plan.unseen], MOST_PAIRS)
        yield f"Characters that cannot be seen were left out of {texts}; nothing is amiss."


KINDS: dict[str, Callable[[Answer], Iterator[Any]]] = {
    "mixed_winding": _mixed_winding,
    "wrong_twist": yarn_advice.wrong_twist,
    "few_bobbins": bobbin_advice.few_bobbins,
    **wheel_advice.KINDS,
    "doubled_run": _doubled_run,
    "runs_out": _runs_out,
    "short_of_target": _short_of_target,
    **stripe_advice.KINDS,
    **braid_advice.KINDS,
    "short_of_piece": yarn_advice.short_of_piece,
    "steep_twist": yarn_advice.steep_twist,
    "unlike_plies": unlike_plies,
    "hours": yarn_advice.implausible_hours,
    "full_bobbin": bobbin_advice.full_bobbins,
    "skeins": bobbin_advice.several_skeins,
    "balance": yarn_advice.out_of_balance,
    "uneven": yarn_advice.uneven,
    "drift": drift_advice,
    "moisture": yarn_advice.moisture,
    "gauge": yarn_advice.gauge,
    "mostly_unspun": scheme_advice.mostly_unspun,
    "fades_backwards": scheme_advice.fades_backwards,
    "left_over": _left_over,
    "heap": _heap,
    "rolags": _rolags,
    "unused_lot": _unused_lot,
    "near_twins": _near_twins,
    "unsure": _unsure,
    "lost_stripe": _lost_stripe,
    "unseen": _unseen,
}
"""Every kind of advice, worst first, with what tells it."""

"""Advice on bobbins and skeins: too few, too full, and where to break the yarn."""

from collections.abc import Iterator

from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin
from yarncolor.answers.guessed_thickness import about
from yarncolor.answers.skeins import Skein
from yarncolor.phrases import capital, join_words
from yarncolor.plan import REVERSIBLE
from yarncolor.report.ways import Told, Way, turned_round, wound_off

MOST_NAMED = 6


def few_bobbins(answer: Answer) -> Iterator[str | Told]:
    """Yield the ways out where the wheel has fewer bobbins than the plan needs at once."""
    need = answer.bobbins_needed
    count = need.count
    if count is None or not need.is_short:
        return
    ply_on = " and 1 to ply on" if need.plying else ""
    begin = (
        f"To ply straight from them {need.at_once} bobbins are needed, {need.full} full{ply_on}; "
        f"{_fit(count)} the wheel."
    )
    missing = need.at_once - count
    some = "one single" if missing == 1 else f"{missing} bobbins of single"
    them = "it" if missing == 1 else "them"
    if answer.resolved.yarn.plies == 1:
        yield (
            f"The single fills {need.full} bobbins; {_fit(count)} the wheel. Wind each full "
            "bobbin off into a skein before you spin the next."
        )
    elif answer.resolved.is_chain or need.full == 1:
        told = (
            f"{begin} Wind the single off on something else: once turns its colours round, twice "
            "brings them back."
        )
        yield told, (), (wound_off("wind off once", 1), wound_off("wind off twice", 2))
    else:
        told = (
            f"{begin} Either (1) wind every single off once, on balls or other bobbins: the yarn "
            "then begins with what was spun first; or (2) borrow "
            f"{missing} more; or (3) wind {some} off twice, or spin {them} in reverse order. A "
            "single wound off just once, alone, runs backwards against the rest."
        )
        yield told, (), tuple(_with_few(answer, missing))


def _with_few(answer: Answer, missing: int) -> Iterator[Way]:
    """Yield the ways of a yarn of several singles: the first ones are taken where some will do."""
    yield wound_off("wind every single off once", 1)
    more = "one more bobbin" if missing == 1 else f"{missing} more bobbins"
    at_once = answer.bobbins_needed.at_once
    yield Way(f"borrow {more}", change=(("bobbins", "count", at_once),))
    times, plies = answer.resolved.wound_off.tolist(), len(answer.resolved.wound_off)
    first = [ply for ply in range(plies) if not times[ply]][:missing]
    named = join_words([f"ply {ply + 1}" for ply in first])
    for off, word in ((2, "twice"), (1, "once")):
        wound = [off if ply in first else times[ply] for ply in range(plies)]
        if off == 2:
            yield wound_off(f"wind {named} off {word}", wound)
        elif answer.resolved.scheme.name in REVERSIBLE:
            scheme = answer.resolved.scheme.reversed_plies
            reverse = sorted({*scheme} ^ {ply + 1 for ply in first})
            choice = f"wind {named} off once, spun in reverse order"
            yield turned_round(choice, reverse, wound_off=tuple(wound))


def _fit(count: int) -> str:
    return "1 fits" if count == 1 else f"{count} fit"


def full_bobbins(answer: Answer) -> Iterator[str]:
    """Yield where plies fill several bobbins: where to change, and which comes off first."""
    several = [bobbin for bobbin in answer.bobbins if bobbin.of > 1]
    plies = list(dict.fromkeys(bobbin.ply for bobbin in several))
    if not plies:
        return
    single = answer.resolved.is_chain or answer.resolved.yarn.plies == 1
    filling = [
        f"{'the single' if single else f'ply {ply + 1}'} "
        f"(change {_changes(answer, [item for item in several if item.ply == ply])})"
        for ply in plies[:MOST_NAMED]
    ]
    capacity_g = answer.plan.bobbins.capacity_g
    each = "" if capacity_g is None else f" of {answer.say.mass.given(capacity_g)}"
    fill = "fills" if len(plies) == 1 else "fill"
    yield (
        f"{capital(join_words(filling))} {fill} several bobbins{each}. "
        f"{' '.join(_coming_off(answer, plies))}".strip()
    )


def _coming_off(answer: Answer, plies: list[int]) -> Iterator[str]:
    """Yield which bobbin of a ply comes off first: the one filled last, or first if turned."""
    if answer.resolved.yarn.plies == 1:
        return
    turned = answer.resolved.wound_off % 2
    for odd, first, then in ((0, "last", "the one before"), (1, "first", "the next")):
        own = [ply for ply in plies if turned[ply] == odd]
        if own:
            of = (
                "" if len(own) == len(plies) else f" of {join_words([f'ply {k + 1}' for k in own])}"
            )
            yield f"In plying, the bobbin{of} filled {first} comes off first, then {then}."


def _changes(answer: Answer, own: list[Bobbin]) -> str:
    """Return after which rows the bobbins of one ply are full."""
    portions, names = answer.layout.portions, answer.plan.names
    changes = []
    for bobbin in [bobbin for bobbin in own if bobbin.strand == 0][:-1]:
        name, row = names[portions.lot[bobbin.last]], answer.layout.row[bobbin.last]
        where = f"row {row}" if row else "the piece too many"
        changes.append(f"{'after' if bobbin.ends_with_portion else 'within'} {where}, {name}")
    more = f"; and {len(changes) - MOST_NAMED} times more" if len(changes) > MOST_NAMED else ""
    return "; ".join(changes[:MOST_NAMED]) + more


def several_skeins(answer: Answer) -> Iterator[str]:
    """Yield where to break a yarn that is too much for the plying bobbin, or of several alike."""
    parts = answer.skeins
    if len(parts) == 1:
        return
    places = [_break(answer, part) for part in parts[:-1][:MOST_NAMED]]
    rest = len(parts) - 1 - MOST_NAMED
    more = f", and {rest} times more" if rest > 0 else ""
    breaks = "; ".join(places)
    copies = sum(part.ends_copy for part in parts)
    if copies == 1:
        why = f"The yarn fills the plying bobbin {len(parts)} times"
    elif copies == len(parts):
        why = f"The yarn is for {copies} alike, a skein for each"
    else:
        why = f"The yarn is for {copies} alike, and the plying bobbin fills {len(parts)} times"
    of_one = " of the same one" if copies > 1 else ""
    then = f"knit on from the far end of one skein into the near end of the next{of_one}"
    ends = "Tag both ends." if copies == len(parts) else f"Tag both ends; {then}."
    yield f"{why}: break it {breaks}{more}. {ends}"


def _break(answer: Answer, part: Skein) -> str:
    plies = answer.resolved.yarn.plies
    place = f"at {about(answer)}{answer.say.length(part.end_m)}"
    if part.ends_copy:
        return f"{place}, where one of them ends"
    if not part.plies_changing:
        return f"{place}, where no ply changes"
    many = (
        "all plies change"
        if part.plies_changing == plies
        else f"{part.plies_changing} plies change"
    )
    return f"{place}, where {'one ply changes' if part.plies_changing == 1 else many}"

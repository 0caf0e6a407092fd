"""Advice on bobbins and skeins: too few, too full, and where to break the yarn."""

from collections.abc import Iterator

from yarncolor.answers import Answer
from yarncolor.bobbins import Bobbin, bobbins_needed, filled_bobbins
from yarncolor.numbers_said import listed
from yarncolor.skeins import Skein, skeins

_MOST_NAMED = 6


def few_bobbins(found: Answer) -> Iterator[str]:
    """Yield the ways out where the wheel has fewer bobbins than the plan needs at once."""
    need = bobbins_needed(found.layout)
    if not need.is_short:
        return
    one = found.settled.is_chain or need.full == 1
    ply_on = " and 1 to ply on" if need.plying else ""
    begin = (
        f"{need.at_once} bobbins are needed at once, {need.full} full{ply_on}; {_fit(need.count)}"
    )
    if one:
        yield (
            f"{begin} the wheel. Wind the single off on something else: once turns its colours "
            "round, twice brings them back. Say in the plan how often."
        )
        return
    free = need.at_once - need.count
    some = "one single" if free == 1 else f"{free} singles"
    them, they = ("it", "it") if free == 1 else ("them", "they")
    yield (
        f"{begin} the wheel. Wind off every single once on balls or other bobbins before plying, "
        "or none; wound off once, the yarn begins with what was spun first: say so in the plan. "
        f"To wind off {some} alone, wind {them} off twice, or spin {them} in reverse order: wound "
        f"off just once, {they} would run backwards against the rest."
    )


def _fit(count: int) -> str:
    return "1 fits" if count == 1 else f"{count} fit"


def full_bobbins(found: Answer) -> Iterator[str]:
    """Yield where plies fill several bobbins: where to change, and which comes off first."""
    several = [bobbin for bobbin in filled_bobbins(found.layout) if bobbin.of > 1]
    plies = list(dict.fromkeys(bobbin.ply for bobbin in several))
    if not plies:
        return
    told = [
        f"ply {ply + 1} (change {_changes(found, [item for item in several if item.ply == ply])})"
        for ply in plies[:_MOST_NAMED]
    ]
    text = listed(told)
    yield (
        f"{text[0].upper()}{text[1:]} {'fills' if len(plies) == 1 else 'fill'} several bobbins of "
        f"{found.plan.bobbins.capacity_g:g} g. {' '.join(_coming_off(found, plies))}"
    )


def _coming_off(found: Answer, plies: list[int]) -> Iterator[str]:
    """Yield which bobbin of a ply comes off first: the one filled last, or first if turned."""
    turned = found.settled.wound_off % 2
    for odd, first, then in ((0, "last", "the one before"), (1, "first", "the next")):
        own = [ply for ply in plies if turned[ply] == odd]
        if own:
            of = "" if len(own) == len(plies) else f" of {listed([f'ply {k + 1}' for k in own])}"
            yield f"In plying, the bobbin{of} filled {first} comes off first, then {then}."


def _changes(found: Answer, own: list[Bobbin]) -> str:
    """Return after which rows the bobbins of one ply are full."""
    portions, names = found.layout.portions, found.plan.names
    first = portions.of_ply(own[0].ply).start
    told = []
    for bobbin in [bobbin for bobbin in own if bobbin.strand == 0][:-1]:
        name, row = names[portions.lot[bobbin.last]], bobbin.last - first + 1
        told.append(f"{'after' if bobbin.ends_with_portion else 'within'} row {row}, {name}")
    more = "; and so on" if len(told) > _MOST_NAMED else ""
    return "; ".join(told[:_MOST_NAMED]) + more


def several_skeins(found: Answer) -> Iterator[str]:
    """Yield where to break a yarn that is too much for the plying bobbin."""
    parts = skeins(found.layout)
    if len(parts) == 1:
        return
    told = [_break(found, part) for part in parts[:-1][:_MOST_NAMED]]
    more = ", and so on" if len(parts) - 1 > _MOST_NAMED else ""
    yield (
        f"The yarn fills the plying bobbin {len(parts)} times: break it {listed(told)}{more}. Tag "
        "both ends; knit on from the far end of one skein into the near end of the next."
    )


def _break(found: Answer, part: Skein) -> str:
    plies = found.settled.physics.plies
    if not part.plies_changing:
        return f"at {part.end_m:.1f} m, where no ply changes"
    many = (
        "all plies change"
        if part.plies_changing == plies
        else f"{part.plies_changing} plies change"
    )
    return f"at {part.end_m:.1f} m, where {'one ply changes' if part.plies_changing == 1 else many}"

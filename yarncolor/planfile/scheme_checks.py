"""Checks of the scheme: its plies, the lots that it names, and how many portions it makes."""

from collections.abc import Iterator

from yarncolor.defaults import PIECES, divisions_of, plies_of, scheme_name, times_of
from yarncolor.errors import Path, suggestion
from yarncolor.plan import REVERSIBLE, OwnPly, Scheme, Stripe
from yarncolor.plan.key import attribute_of
from yarncolor.plan.limits import MOST_LOTS_AND_STEPS, MOST_PORTIONS
from yarncolor.plan.scheme import OWN_SEQUENCE
from yarncolor.planfile.given import GivenLot
from yarncolor.planfile.lot_checks import names_are_good
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import EACH_PLY, PORTIONS, STRIPES, KeyName, Remedy, lacking, predicate, said

_COUNTED = (
    *("sequence", "divisions", "pieces", "blend_steps", "copies"),
    *("ply", "from", "to", "times"),
)


def faults(reading: Reading, lots: tuple[GivenLot, ...], scheme: Scheme) -> FaultIterator:
    """Return place and remedy of each fault of the scheme.

    Parameters
    ----------
    reading : Reading
        The file being read.
    lots : tuple of GivenLot
        As given.
    scheme : Scheme
        As given.
    """
    if not reading.is_bad("scheme", "name"):
        yield from _scheme(reading, lots, scheme)
    yield from _count(reading, lots, scheme)


def plies_are_good(reading: Reading, scheme: Scheme) -> bool:
    """Return whether nothing is at fault that the number of plies rests on.

    Parameters
    ----------
    reading : Reading
        The file being read.
    scheme : Scheme
        As given.
    """
    instead = () if scheme.plies else ("divisions", "portions", "ply", "stripes")
    return not reading.any_bad(("scheme",), ("name", "plies", *instead))


def so_many(count: int, things: str, each: str) -> str:
    """Return what would be right where things are counted: one for each of something.

    Parameters
    ----------
    count : int
        How many are right.
    things : str
        Of what.
    each : str
        What there is one for.
    """
    if count == 1:
        return f"give one, for the one {each}"
    return f"give {count} {things}, one for each {each}"


def _scheme(reading: Reading, lots: tuple[GivenLot, ...], scheme: Scheme) -> FaultIterator:
    name = scheme_name(scheme)
    stripes = () if reading.is_bad("scheme", "stripes") else scheme.stripes
    if name == "chain" and scheme.plies not in (None, 3):
        yield ("scheme", "plies"), "a chain has 3 strands; leave plies out"
    if scheme.reversed_plies and name not in REVERSIBLE:
        able = f"{', '.join(REVERSIBLE[:-1])} and {REVERSIBLE[-1]}"
        wrong = f"only {able} take reversed plies, not {name}; leave them out"
        yield ("scheme", "reversed_plies"), wrong
    if name == "free" and not scheme.portions and not reading.is_bad("scheme", "portions"):
        remedy = predicate("are missing; a free scheme needs {portions}", portions=PORTIONS)
        yield ("scheme", "portions"), remedy
    if name == "mixed" and not scheme.ply and not reading.is_bad("scheme", "ply"):
        remedy = predicate("is missing; a mixed scheme needs {plies}", plies=EACH_PLY)
        yield ("scheme", "ply"), remedy
    if name == "fade":
        yield from _sides(reading, scheme)
    if name == "stripes" and not scheme.stripes and not reading.is_bad("scheme", "stripes"):
        remedy = predicate("are missing; a scheme of stripes needs {stripes}", stripes=STRIPES)
        yield ("scheme", "stripes"), remedy
    if plies_are_good(reading, scheme):
        yield from _of_plies(reading, scheme, name)
    own_plies = scheme.ply if name == "mixed" and not reading.is_bad("scheme", "ply") else ()
    if names_are_good(reading, lots):
        yield from _named_lots(reading, scheme, stripes, [lot.name for lot in lots])
    yield from _own_parts(own_plies)
    if lots or scheme.sequence:
        yield from _parts(reading, scheme, lots)


def _of_plies(reading: Reading, scheme: Scheme, name: str) -> FaultIterator:
    plies = plies_of(scheme)
    if name == "fractal" and scheme.divisions and len(scheme.divisions) != plies:
        yield ("scheme", "divisions"), so_many(plies, "entries", "ply")
    listed = {"reversed_plies": name in REVERSIBLE, "solid_plies": name == "solid"}
    for key in (key for key, counts in listed.items() if counts):
        numbers = getattr(scheme, key) or ()
        if max(numbers, default=1) > plies or len(set(numbers)) < len(numbers):
            yield ("scheme", key), f"give different plies from 1 to {plies}"
    if name == "solid" and set(scheme.solid_plies or (1,)) >= set(range(1, plies + 1)):
        yield _not_solid(scheme, plies)
    if name == "free" and scheme.portions and not reading.is_bad("scheme", "portions"):
        yield from _free_plies(scheme, plies)
    if name == "mixed" and scheme.ply and not reading.is_bad("scheme", "ply"):
        yield from _mixed_plies(scheme, plies)
    if name == "stripes" and not reading.is_bad("scheme", "stripes"):
        for at, stripe in enumerate(scheme.stripes):
            if stripe.lots and len(stripe.lots) != plies:
                yield ("scheme", "stripes", at, "lots"), so_many(plies, "lots", "ply")


def _not_solid(scheme: Scheme, plies: int) -> tuple[Path, Remedy]:
    if plies == 1:
        return ("scheme", "plies"), "a solid scheme has at least 2 plies"
    key = "solid_plies" if scheme.solid_plies else "plies"
    return ("scheme", key), f"leave at least one of the {plies} plies to the other lots"


def _free_plies(scheme: Scheme, plies: int) -> FaultIterator:
    named = {portion.ply for portion in scheme.portions}
    empty = [str(ply) for ply in range(1, plies + 1) if ply not in named]
    if empty:
        which = f"plies {', '.join(empty)} have" if len(empty) > 1 else f"ply {empty[0]} has"
        yield ("scheme", "portions"), f"{which} none; give each ply a portion"
    if max(named) > plies:
        yield ("scheme", "plies"), f"a portion is for ply {max(named)}; give as many plies"


def _mixed_plies(scheme: Scheme, plies: int) -> FaultIterator:
    laid_out = len(scheme.ply)
    if laid_out > plies:
        wrong = f"{laid_out} plies are laid out; leave plies out, or give {laid_out}"
        yield ("scheme", "plies"), wrong
    elif laid_out < plies:
        empty = [str(ply) for ply in range(laid_out + 1, plies + 1)]
        which = f"plies {', '.join(empty)} have" if len(empty) > 1 else f"ply {empty[0]} has"
        yield ("scheme", "ply"), said(f"{which} none; give {{plies}}", plies=EACH_PLY)


def _own_parts(plies: tuple[OwnPly, ...]) -> FaultIterator:
    for at, own in enumerate(plies):
        if own.parts is None:
            continue
        if len(own.parts) != len(own.sequence):
            remedy = so_many(len(own.sequence), "numbers", "place of the ply")
            yield ("scheme", "ply", at, "parts"), remedy
        elif not any(own.parts):
            yield ("scheme", "ply", at, "parts"), "give parts to a place, so that the ply has any"


def _sides(reading: Reading, scheme: Scheme) -> FaultIterator:
    for key, when in (("from", "first"), ("to", "last")):
        if not getattr(scheme, attribute_of(key)) and not reading.is_bad("scheme", key):
            needed = f"the lots that are spun {when}"
            yield ("scheme", key), lacking(needed, f"is missing; give {needed}")
    if reading.any_bad(("scheme",), ("from", "to")):
        return
    for at, name in enumerate(scheme.to or ()):
        if name in (scheme.from_ or ()):
            remedy = said(
                "stands in {first} too; a lot stands on one side of a fade alone",
                first=KeyName("scheme", "from"),
            )
            yield ("scheme", "to", at), remedy


def _named_lots(
    reading: Reading, scheme: Scheme, stripes: tuple[Stripe, ...], names: list[str]
) -> FaultIterator:
    named: list[tuple[Path, str]] = [
        ((key, at), name)
        for key in ("sequence", "from", "to")
        for at, name in enumerate(getattr(scheme, attribute_of(key)) or ())
    ]
    if not reading.is_bad("scheme", "ply"):
        named += [
            (("ply", ply, "sequence", at), name)
            for ply, own in enumerate(scheme.ply)
            for at, name in enumerate(own.sequence)
        ]
    if scheme.solid_lot is not None:
        named.append((("solid_lot",), scheme.solid_lot))
    if not reading.is_bad("scheme", "portions"):
        portions = enumerate(scheme.portions)
        named += [(("portions", at, "lot"), portion.lot) for at, portion in portions]
    named += [place for at, stripe in enumerate(stripes) for place in _lots_of_stripe(at, stripe)]
    for path, name in named:
        if name not in names:
            close = suggestion(name, names) or "; name a lot of the stash"
            yield ("scheme", *path), f"no lot has that name{close}"


def _lots_of_stripe(at: int, stripe: Stripe) -> Iterator[tuple[Path, str]]:
    if stripe.lot is not None:
        yield ("stripes", at, "lot"), stripe.lot
    for ply, name in enumerate(stripe.lots or ()):
        yield ("stripes", at, "lots", ply), name


def _parts(reading: Reading, scheme: Scheme, lots: tuple[GivenLot, ...]) -> FaultIterator:
    if scheme.parts is None or scheme_name(scheme) in OWN_SEQUENCE:
        return
    if reading.any_bad(("scheme",), ("sequence", "solid_lot")):
        return
    places = _places(scheme, lots)
    if len(scheme.parts) != places:
        yield ("scheme", "parts"), so_many(places, "numbers", "place of the sequence")


def _places(scheme: Scheme, lots: tuple[GivenLot, ...]) -> int:
    if scheme_name(scheme) in OWN_SEQUENCE:
        return len(scheme.sides)
    if scheme.sequence:
        return len(scheme.sequence)
    return len(lots) - (scheme_name(scheme) == "solid")


def _count(reading: Reading, lots: tuple[GivenLot, ...], scheme: Scheme) -> FaultIterator:
    bad = reading.any_bad(("scheme",), _COUNTED)
    if bad or not lots or not plies_are_good(reading, scheme):
        return
    made = (scheme.blend_steps or 0) * (_places(scheme, lots) - 1)
    if scheme_name(scheme) == "gradient" and made + len(lots) > MOST_LOTS_AND_STEPS:
        remedy = f"makes {made:,} blends; lots and blends are at most {MOST_LOTS_AND_STEPS:,}"
        yield ("scheme", "blend_steps"), remedy
        return
    each = _portions(scheme, _places(scheme, lots), len(set(scheme.sequence or range(len(lots)))))
    count = each * (scheme.copies or 1)
    if count > MOST_PORTIONS:
        yield ("scheme",), f"makes {count:,} portions; at most {MOST_PORTIONS:,} can be planned"


def _repeats(division: int | tuple[float, ...]) -> int:
    return division if isinstance(division, int) else len(division)


def _portions(scheme: Scheme, places: int, lots: int) -> int:
    name = scheme_name(scheme)
    if name in ("free", "stripes"):
        return len(scheme.portions if name == "free" else scheme.stripes)
    if name == "fractal":
        return places * sum(map(_repeats, divisions_of(scheme)))
    if name == "mixed":
        return sum(2 * len(own.sequence) * _repeats(own.times or 1) for own in scheme.ply)
    if name == "fade":
        times = times_of(scheme)
        return places * (sum(times) if len(times) > 1 else times[0] * plies_of(scheme))
    if name == "shuffled":
        return lots * (scheme.pieces or PIECES) * plies_of(scheme)
    if name == "gradient":
        places += (scheme.blend_steps or 0) * (places - 1)
    return places * plies_of(scheme) * (2 if name == "mirrored" else 1)

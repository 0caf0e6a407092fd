"""What lies on the bobbins stays what it is when the plan changes under it.

An entry such as ``row = 3`` says what went in by what the plan asks for there. Where a change asks
for another lot or other grams, the entry says its own from then on, and ``through`` is cut up as
far as that needs.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import isclose

from yarncolor.editing.at_the_wheel_pieces import PieceKey, keys_of_pieces, pieces_on, with_pieces
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plan, Spun
from yarncolor.plan.limits import LEAST_PORTION_G

_DECIMALS = 12
_SAME = 1e-9
_Pieces = list[list[Spun]]
"""What lies on each ply's bobbin."""


def stated(plan: Plan) -> Plan:
    """Return the plan whose pieces on the bobbins all say their lot and grams themselves.

    Grams that a length or a weight on the scale tells are left to it.
    """
    laid = _laid(plan) if _is_at_wheel(plan) else None
    return plan if laid is None else _with_all(plan, _stated(plan, laid))


def with_spun_kept(before: Plan, after: Plan, begun: Plan | None = None) -> Plan:
    """Return a changed plan on whose bobbins lies what lay there before.

    Pieces whose rows ask for the same as before stay as they were said. Where rows that were spun
    are gone nothing is put right: the plan's faults tell of them.

    Parameters
    ----------
    before : Plan
        As it was.
    after : Plan
        As it is to be. Where it says otherwise what was spun, as when a lot is renamed, that holds.
    begun : Plan, optional
        Where the change began, if it is one of many; else as it was before.
    """
    if not _is_at_wheel(before) or before.before_the_wheel == after.before_the_wheel:
        return after
    source = before if after.spun == before.spun else after
    laid = _laid(source)
    if laid is None:
        return after
    said, told = begun or before, _stated(source, laid)
    short = [_as_said(pieces, said) for pieces in told]
    found = _laid(_with_all(after, short))
    if found is None:
        return after
    kept = [_kept(found, k, *pieces) for k, pieces in enumerate(zip(told, short, strict=True))]
    counts = (len(pieces_on(said, ply)) for ply, _ in enumerate(told, 1))
    to_say = [*map(_to_say, counts, kept, short)]
    return _with_all(replace(after, spun=said.spun), to_say)


def _to_say(named: int, kept: list[Spun], short: list[Spun]) -> list[Spun]:
    """Return pieces without rows that need no entry, since plying has begun and all are spun."""
    return kept[:named] if kept == short else kept


def newly_stated(before: Plan, after: Plan) -> tuple[PieceKey, ...]:
    """Return the pieces of which a plan says lot or grams, and the one before it did not.

    Parameters
    ----------
    before, after : Plan
        One after the other.
    """
    if before.spun == after.spun:
        return ()
    plies = sorted({one.ply for one in after.spun})
    return tuple(key for ply in plies for key in _newly_stated(before, after, ply))


def _newly_stated(before: Plan, after: Plan, ply: int) -> Iterator[PieceKey]:
    was, now = _by_key(before, ply), pieces_on(after, ply)
    for key, one in zip(keys_of_pieces(now), now, strict=True):
        old = was.get(key, Spun(ply, key.row))
        if (one.lot and not old.lot) or (one.mass_g and not old.mass_g):
            yield key


def _by_key(plan: Plan, ply: int) -> dict[PieceKey, Spun]:
    pieces = pieces_on(plan, ply)
    return dict(zip(keys_of_pieces(pieces), pieces, strict=True))


def _is_at_wheel(plan: Plan) -> bool:
    return bool(plan.spun) or plan.plied is not None


def _laid(plan: Plan) -> Layout | None:
    """Return a plan laid out with all that was spun; None where it says nothing, or wrong things.

    What is drawn off a bobbin was spun all the same.
    """
    laid = layout(resolve(replace(plan, pull_off=())))
    return None if laid.wheel is None else laid


def _with_all(plan: Plan, pieces: _Pieces) -> Plan:
    for ply, own in enumerate(pieces, 1):
        plan = with_pieces(plan, ply, own)
    return plan


def _stated(plan: Plan, laid: Layout) -> _Pieces:
    return [[*_stated_of(plan, laid, k)] for k in range(len(laid.resolved.tex))]


def _stated_of(plan: Plan, laid: Layout, k: int) -> Iterator[Spun]:
    pieces, start = _lying(plan, laid, k), laid.portions.of_ply(k).start
    left, names = set(_told_by_lengths_or_scale(pieces)), laid.resolved.plan.names
    for at, piece in enumerate(pieces):
        mass_g = round(float(laid.portions.mass_g[start + at]), _DECIMALS)
        own_g = piece.mass_g or (mass_g if at not in left and mass_g >= LEAST_PORTION_G else None)
        yield replace(piece, lot=names[laid.portions.lot[start + at]], mass_g=own_g)


def _lying(plan: Plan, laid: Layout, k: int) -> list[Spun]:
    """Return what lies on a ply's bobbin; where plying has begun all its rows do."""
    pieces, own = pieces_on(plan, k + 1), laid.portions.of_ply(k)
    rest = range(own.start + len(pieces), own.stop) if plan.plied is not None else ()
    return [*pieces, *(Spun(k + 1, int(laid.row[at]) or None) for at in rest)]


def _told_by_lengths_or_scale(pieces: Sequence[Spun]) -> Iterator[int]:
    """Yield the pieces whose grams are left to what was measured.

    Of pieces that share what the scale showed the last without grams and length is left, so that
    the weight goes on telling the rest; where some have lengths, those are.
    """
    for own, is_read in _weighings(pieces):
        silent = [at for at in own if pieces[at].mass_g is None]
        measured = [at for at in silent if pieces[at].length_m is not None]
        is_whole = all(pieces[at].length_m is not None for at in own)
        yield from silent[-1:] if is_read and (is_whole or not measured) else measured


def _weighings(pieces: Sequence[Spun]) -> Iterator[tuple[list[int], bool]]:
    """Yield the pieces between one weighing of a bobbin and the next, and whether there is one."""
    own, bobbin = list[int](), 1
    for at, piece in enumerate(pieces):
        if piece.bobbin is not None and piece.bobbin != bobbin:
            yield own, False
            own, bobbin = [], piece.bobbin
        own.append(at)
        if piece.gross_g is not None:
            yield own, True
            own = []
    yield own, False


def _as_said(pieces: Sequence[Spun], plan: Plan) -> list[Spun]:
    """Return pieces of one ply with no more said of each than a plan says of it."""
    if not pieces:
        return []
    was = _by_key(plan, pieces[0].ply)
    keys = keys_of_pieces(pieces)
    return [_no_more(one, was.get(key)) for key, one in zip(keys, pieces, strict=True)]


def _no_more(piece: Spun, said: Spun | None) -> Spun:
    if said is None:
        return replace(piece, lot=None, mass_g=None) if piece.row else piece
    return replace(piece, lot=said.lot and piece.lot, mass_g=said.mass_g and piece.mass_g)


def _kept(found: Layout, k: int, told: list[Spun], short: list[Spun]) -> list[Spun]:
    """Return pieces that say lot or grams where their rows ask for others by now."""
    start, names = found.portions.of_ply(k).start, found.resolved.plan.names
    lots = [names[lot] for lot in found.portions.lot[start : start + len(told)]]
    others = _other_grams(told, found.portions.mass_g[start : start + len(told)].tolist())
    return [
        replace(
            piece,
            lot=one.lot if one.lot != lot else piece.lot,
            mass_g=one.mass_g if at in others else piece.mass_g,
        )
        for at, (one, piece, lot) in enumerate(zip(told, short, lots, strict=True))
    ]


def _other_grams(told: Sequence[Spun], mass_g: Sequence[float]) -> set[int]:
    """Return the pieces of other grams than they are told to have; of a weighing, all or none."""
    others = {
        at
        for at, (one, now_g) in enumerate(zip(told, mass_g, strict=True))
        if one.mass_g and not isclose(one.mass_g, now_g, rel_tol=_SAME)
    }
    for own, is_read in _weighings(told):
        if is_read and others & {*own}:
            others |= {*own}
    return others

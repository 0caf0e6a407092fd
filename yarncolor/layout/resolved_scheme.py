"""A scheme with nothing left open: what a plan gives of it, and what is usual for the rest."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import (
    BLEND_STEPS,
    CLOSING,
    COPIES,
    LOOP_M,
    PIECES,
    RANDOM_SEED,
    REPEAT,
    SOLID_PLIES,
    STAGGER_PLACES,
    divisions_of,
    given_or,
    plies_of,
    scheme_name,
    sequence_of,
    solid_lot_of,
    times_of,
)
from yarncolor.plan import FreePortion, OwnPly, Scheme, Stripe


@dataclass(frozen=True)
class ResolvedScheme:
    """A scheme with every option settled; fields as in `Scheme`, those of other schemes too."""

    name: str
    plies: int
    sequence: tuple[str, ...]
    reversed_plies: tuple[int, ...]
    divisions: tuple[int | tuple[float, ...], ...]
    closing: str
    copies: int
    stagger_places: float
    blend_steps: int
    solid_plies: tuple[int, ...]
    solid_lot: str
    random_seed: int
    pieces: int
    loop_m: float
    portions: tuple[FreePortion, ...]
    ply: tuple[OwnPly, ...]
    from_: tuple[str, ...]
    times: tuple[int, ...]
    stripes: tuple[Stripe, ...]
    repeat: bool

    @property
    def is_carded(self) -> bool:
        """Whether blends are carded between the neighbours of a gradient."""
        return self.name == "gradient" and self.blend_steps > 0


def resolve_scheme(
    given: Scheme, names: Sequence[str], to_divide_g: NDArray[np.float64]
) -> ResolvedScheme:
    """Return a scheme with every option settled.

    Parameters
    ----------
    given : Scheme
        As the plan gives it.
    names : sequence of str
        Of all lots, in the order of the file.
    to_divide_g : (lots,) array
        What each lot has to divide: the plain lot of a solid scheme is that with most.
    """
    return ResolvedScheme(
        name=scheme_name(given),
        plies=plies_of(given),
        sequence=sequence_of(given, names, to_divide_g),
        reversed_plies=given.reversed_plies,
        divisions=divisions_of(given),
        closing=given_or(given.closing, CLOSING),
        copies=given_or(given.copies, COPIES),
        stagger_places=given_or(given.stagger_places, STAGGER_PLACES),
        blend_steps=given_or(given.blend_steps, BLEND_STEPS),
        solid_plies=given_or(given.solid_plies, SOLID_PLIES),
        solid_lot=solid_lot_of(given, names, to_divide_g),
        random_seed=given_or(given.random_seed, RANDOM_SEED),
        pieces=given_or(given.pieces, PIECES),
        loop_m=given_or(given.loop_m, LOOP_M),
        portions=given.portions,
        ply=given.ply,
        from_=given.from_ or (),
        times=times_of(given),
        stripes=given.stripes,
        repeat=given_or(given.repeat, REPEAT),
    )

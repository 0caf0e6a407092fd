"""A plan with everything that it does not say filled in, and said in words."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.defaults import (
    BLEND_STEPS,
    CLOSING,
    LOOP_M,
    LOSS,
    PIECES,
    RANDOM_SEED,
    SCHEME,
    SOLID_PLIES,
    STAGGER_PLACES,
    STEP_G,
    WOUND_OFF,
    divisions_of,
    place_masses_g,
    plies_of,
    sequence_of,
    solid_lot_of,
    to_divide_g,
)
from yarncolor.layout.carded_steps import with_carded_steps
from yarncolor.layout.schemes import SchemeInput, closes
from yarncolor.plan import Lot, Plan, Scheme
from yarncolor.yarn.assumptions import assumed_of_yarn
from yarncolor.yarn.given import per_ply
from yarncolor.yarn.structure import YarnStructure, yarn_structure


@dataclass(frozen=True)
class ResolvedPlan:
    """A plan with every default filled in, as the model works on it.

    Parameters
    ----------
    plan : Plan
        As given, its scheme with every option of that scheme settled, its lots with those that
        a gradient's steps make.
    scheme_input : SchemeInput
        What the scheme works on.
    yarn : YarnStructure
        How the yarn is built.
    to_divide_g : (lots,) array
        Grams of each lot after reserve and carding.
    wound_off : (singles,) int array
        How often each single is wound off before plying.
    card_loss, spin_loss : float
        Shares of mass lost.
    step_g : float
        What the scale can show.
    assumptions : tuple of str
        What was filled in, in words.
    """

    plan: Plan
    scheme_input: SchemeInput
    yarn: YarnStructure
    to_divide_g: np.ndarray
    wound_off: np.ndarray
    card_loss: float
    spin_loss: float
    step_g: float
    assumptions: tuple[str, ...]

    @property
    def scheme(self) -> Scheme:
        """The scheme with its options settled."""
        return self.plan.scheme

    @property
    def tex(self) -> np.ndarray:
        """Linear density of each ply as spun: (singles,); one for a chain."""
        return self.yarn.tex

    @property
    def contraction(self) -> float:
        """Share of length lost in plying."""
        return self.yarn.contraction

    @property
    def is_chain(self) -> bool:
        """Whether one single is folded in three."""
        return self.scheme.name == "chain"


def resolve(plan: Plan) -> ResolvedPlan:
    """Return a plan with every default filled in and said."""
    said: list[str] = []
    scheme = _settled_scheme(plan, said)
    to_divide = to_divide_g(plan)
    lot = np.array([plan.names.index(name) for name in scheme.sequence], dtype=int)
    mass = place_masses_g(scheme, lot, to_divide)
    yarn = yarn_structure(plan)
    tex = yarn.tex
    used = mass > 0
    said += [
        f"place {at + 1} of the sequence ({scheme.sequence[at]}) has 0 g and is left out"
        for at in np.flatnonzero(~used)
    ]
    draft = SchemeInput(
        lot=lot[used],
        place=np.flatnonzero(used) + 1,
        mass_g=mass[used],
        ply_share=tex / tex.sum(),
        options=scheme,
        names=plan.names,
        to_divide_g=to_divide,
    )
    said += _closing_said(plan.scheme, draft)
    card_loss = _or(plan.spinning.card_loss, LOSS, "card_loss", said)
    made: tuple[Lot, ...] = ()
    if scheme.name == "gradient" and scheme.blend_steps:
        draft, made = with_carded_steps(draft, card_loss)
    return ResolvedPlan(
        plan=replace(plan, scheme=scheme, lots=(*plan.lots, *made)),
        scheme_input=draft,
        yarn=yarn,
        to_divide_g=draft.to_divide_g,
        wound_off=per_ply(
            _or(plan.plying.wound_off, WOUND_OFF, "wound_off", said), len(tex)
        ).astype(int),
        card_loss=card_loss,
        spin_loss=_or(plan.spinning.spin_loss, LOSS, "spin_loss", said),
        step_g=_or(plan.scale.step_g, STEP_G, "step_g", said),
        assumptions=(*said, *assumed_of_yarn(plan, yarn)),
    )


_WORDS = {
    "name": "scheme: {}",
    "plies": "plies: {}",
    "divisions": "times through the sequence on each ply: {}",
    "stagger_places": "each ply starts {:g} place on from the one before",
    "blend_steps": "carded blends between neighbours: {}",
    "solid_plies": "the solid ply: {}",
    "solid_lot": "the lot of the solid ply: {}",
    "random_seed": "seed of the shuffle: {}",
    "pieces": "pieces of each lot on each ply: {}",
    "loop_m": "longest third of a chain-ply loop: {:g} m",
    "sequence": "order of the lots: {}",
    "wound_off": "plied straight from the bobbins",
    "card_loss": "nothing lost in carding",
    "spin_loss": "nothing lost in spinning",
    "step_g": "the scale shows {:g} g",
}
_OPTIONS = {
    "fractal": ("divisions",),
    "staggered": ("stagger_places",),
    "gradient": ("blend_steps",),
    "solid": ("solid_plies", "solid_lot"),
    "chain": ("loop_m",),
    "shuffled": ("random_seed", "pieces"),
    "free": ("portions",),
}
_ANY_SCHEME = ("name", "plies", "reversed_plies", "sequence", "parts", "closing")


def _settled_scheme(plan: Plan, said: list[str]) -> Scheme:
    given, names, to_divide = plan.scheme, plan.names, to_divide_g(plan)
    name = _or(given.name, SCHEME, "name", said)
    values = {
        "plies": plies_of(given),
        "divisions": divisions_of(given),
        "sequence": sequence_of(given, names, to_divide),
        "stagger_places": STAGGER_PLACES,
        "blend_steps": BLEND_STEPS,
        "solid_plies": SOLID_PLIES,
        "solid_lot": solid_lot_of(given, names, to_divide),
        "random_seed": RANDOM_SEED,
        "pieces": PIECES,
        "loop_m": LOOP_M,
    }
    of_scheme = (
        *(() if name in ("chain", "free") else ("plies", "sequence")),
        *_OPTIONS.get(name, ()),
    )
    if len(values["sequence"]) == 1:
        of_scheme = tuple(key for key in of_scheme if key != "sequence")
    settled_values = {
        key: _or(getattr(given, key), value, key, said if key in of_scheme else [])
        for key, value in values.items()
    }
    if name == "free":
        settled_values |= {"sequence": (), "parts": None}
    said += _unused_options(given, name)
    return replace(given, name=name, closing=given.closing or CLOSING, **settled_values)


def _unused_options(given: Scheme, name: str) -> list[str]:
    used = (*_ANY_SCHEME, *_OPTIONS.get(name, ()))
    if name == "free":
        used = tuple(key for key in used if key not in ("sequence", "parts"))
    every = {key for keys in _OPTIONS.values() for key in keys} | {"sequence", "parts"}
    return [
        f"{key} says nothing to the scheme {name}"
        for key in sorted(every)
        if getattr(given, key) not in (None, ()) and key not in used
    ]


def _closing_said(given: Scheme, draft: SchemeInput) -> list[str]:
    applies = draft.options.name == "fractal" and closes(draft.lot)
    if given.closing is None:
        return ["where the sequence closes on its first lot, both pieces are spun: keep"] * applies
    why = "closing says nothing here: only a fractal that ends on the lot it began with closes"
    return [] if applies else [why]


def _or(given: object, default: object, key: str, said: list[str]) -> object:
    if given is not None:
        return given
    shown = ", ".join(map(_plainly, default)) if isinstance(default, tuple) else default
    said.append(_WORDS[key].format(shown))
    return default


def _plainly(item: object) -> str:
    return f"({', '.join(f'{size:g}' for size in item)})" if isinstance(item, tuple) else str(item)

"""Valid plans drawn at random, for every scheme of the table, and small ones made by hand."""

from hypothesis import strategies as st

import yarncolor as yc
from yarncolor.layout.schemes import SCHEMES
from yarncolor.plan import REVERSIBLE
from yarncolor.plan.scheme import WITHOUT_SEQUENCE

NAMES = ("Kelp", "Foam", "Wrack", "Dune", "Gorse", "Slate", "Plum", "Chalk")
COLOURS = (
    *("#56612d", "#dcdad0", "#3b2f2a", "#c9b48a"),
    *("#e0b020", "#4a5866", "#5b2a4f", "#f4f1e8"),
)
CLOSINGS = ("keep", "tail", "share", "halve", "drop", "swap")
EVERY_SCHEME = tuple(SCHEMES)
DIVIDING = tuple(name for name in SCHEMES if name != "stripes")
"""Schemes that divide what there is; stripes take what their rows need."""
ORDERED = tuple(name for name in SCHEMES if name not in WITHOUT_SEQUENCE)

hundredths = st.integers(40, 20_000).map(lambda number: number / 100)
shares = st.sampled_from((0.0, 0.03, 0.125, 1 / 3))


def answered(data: dict) -> dict:
    """Return the answer to a plan's data, as it stands in ``plan.json`` but for the advice."""
    return yc.to_dict(yc.answer(yc.plan_from_data(data)))


def advised(data: dict) -> list[tuple[str, str]]:
    """Return kind and text of each advice on a plan's data."""
    return [(item.kind, item.text) for item in yc.advice_on(yc.answer(yc.plan_from_data(data)))]


def by_hand(masses_g: dict[str, float], **tables: dict) -> dict:
    """Return a plan's data with lots of so many grams; other tables as they are given."""
    lots = [
        {"name": name, "mass_g": mass, "colour": colour}
        for (name, mass), colour in zip(masses_g.items(), COLOURS, strict=False)
    ]
    return {"lots": lots, **tables}


def laid(data: dict, *keys: str) -> list[list]:
    """Return, ply by ply in spinning order, each portion's lot and grams, or the keys named."""
    keys = keys or ("lot", "mass_g")
    return [
        [tuple(portion[key] for key in keys) for portion in single["portions"]]
        for single in answered(data)["singles"]
    ]


def bare_scheme(name: str, names: list[str], plies: int = 3) -> dict:
    """Return the table of a scheme that says as little as it may of lots of these names."""
    own = {
        "mixed": {"ply": [{"sequence": names}] * plies},
        "fade": {"from": names[:1], "to": names[1:]},
        "free": {
            "portions": [{"ply": ply + 1, "lot": names[0], "mass_g": 1.0} for ply in range(plies)]
        },
    }
    return {"name": name, **own.get(name, {})}


@st.composite
def stash(draw, least: int, most: int = 8) -> list[dict]:
    """Draw lots of unequal masses, some with a reserve."""
    return [
        {
            "name": NAMES[at],
            "colour": COLOURS[at],
            "mass_g": mass,
            "reserve_g": mass * draw(st.sampled_from((0.0, 0.0, 0.25))),
        }
        for at, mass in enumerate(draw(st.lists(hundredths, min_size=least, max_size=most)))
    ]


@st.composite
def sequences(draw, names: list[str]) -> dict:
    """Draw a sequence with its parts; it often closes on its first lot and repeats lots."""
    sequence = draw(st.lists(st.sampled_from(names), min_size=1, max_size=6))
    if draw(st.booleans()):
        sequence.append(sequence[0])
    table = {"sequence": sequence}
    if draw(st.booleans()):
        rest = st.lists(st.integers(0, 4), min_size=len(sequence) - 1, max_size=len(sequence) - 1)
        table["parts"] = [draw(st.integers(1, 4)), *draw(rest)]
    return table


def _fractal(plies: int) -> st.SearchStrategy[dict]:
    sizes = st.lists(st.integers(1, 5).map(float), min_size=1, max_size=5)
    division = st.one_of(st.integers(1, 9), st.sampled_from((1, 2, 4)), sizes)
    return st.fixed_dictionaries(
        {
            "divisions": st.lists(division, min_size=plies, max_size=plies),
            "closing": st.sampled_from(CLOSINGS),
        }
    )


def _solid(plies: int) -> st.SearchStrategy[dict]:
    some = st.lists(st.integers(1, plies), min_size=1, max_size=plies - 1, unique=True)
    return st.fixed_dictionaries({"solid_plies": some, "solid_lot": st.just(NAMES[0])})


def _options(name: str, plies: int) -> st.SearchStrategy[dict]:
    """Return a strategy of a scheme's own keys; a scheme that has none takes none."""
    if name in _OF_PLIES:
        return _OF_PLIES[name](plies)
    return st.fixed_dictionaries(_OPTIONS.get(name, {}))


_OF_PLIES = {"fractal": _fractal, "solid": _solid}
_OPTIONS = {
    "staggered": {"stagger_places": st.integers(0, 9).map(lambda halves: halves / 2)},
    "gradient": {"blend_steps": st.integers(0, 3)},
    "chain": {"loop_m": st.sampled_from((0.01, 0.07, 0.3, 1.0, 9.5, 25.0))},
    "shuffled": {"random_seed": st.integers(0, 99), "pieces": st.integers(1, 5)},
}


@st.composite
def _own_plies(draw, names: list[str], plies: int) -> list[dict]:
    """Draw what each ply of a mixed scheme holds."""
    sizes = st.one_of(st.integers(1, 4), st.lists(st.integers(1, 5).map(float), min_size=1))
    halves = st.integers(0, 9).map(lambda number: number / 2)
    options = st.fixed_dictionaries(
        {}, optional={"times": sizes, "reversed": st.booleans(), "start_at": halves}
    )
    return [draw(sequences(names)) | draw(options) for _ in range(plies)]


@st.composite
def _sides(draw, names: list[str], plies: int) -> dict:
    """Draw the two sides of a fade, and how often each ply runs through them."""
    side = draw(st.integers(1, len(names) - 1))
    times = draw(_one_or_each(st.integers(1, 4), plies))
    return {"from": names[:side], "to": names[side:], "times": times}


@st.composite
def _portions(draw, lots: list[dict], plies: int, card_loss: float) -> list[dict]:
    """Draw a free scheme's portions, which together draw on each lot no more than there is."""
    drawn = [
        (ply + 1, lot["name"], draw(st.integers(1, 9)))
        for ply in range(plies)
        for lot in draw(st.lists(st.sampled_from(lots), min_size=1, max_size=5))
    ]
    gram = {}
    for lot in lots:
        weight = sum(weight for _, name, weight in drawn if name == lot["name"])
        to_divide = (lot["mass_g"] - lot["reserve_g"]) * (1 - card_loss)
        gram[lot["name"]] = to_divide / (weight + draw(st.integers(0, 3)) or 1)
    return [{"ply": ply, "lot": name, "mass_g": gram[name] * weight} for ply, name, weight in drawn]


@st.composite
def plan_data(
    draw, name: str, *, lots: int | None = None, in_order: bool = False, alike: bool = False
) -> dict:
    """Draw a whole plan of one scheme.

    `lots` fixes their number, `in_order` leaves out reversed plies, and `alike` winds all
    bobbins off the same number of times.
    """
    stashed = draw(stash(lots or (2 if name in ("solid", "fade") else 1), lots or 8))
    plies = 3 if name == "chain" else draw(st.integers(2 if name == "solid" else 1, 6))
    singles = 1 if name == "chain" else plies
    card_loss = draw(shares)
    scheme = {"name": name} | ({} if name == "chain" else {"plies": plies})
    fabric = {}
    if name == "free":
        scheme["portions"] = draw(_portions(stashed, plies, card_loss))
    elif name == "mixed":
        scheme["ply"] = draw(_own_plies([lot["name"] for lot in stashed], plies))
    elif name == "fade":
        scheme |= draw(_sides([lot["name"] for lot in stashed], plies))
    elif name == "stripes":
        scheme |= draw(_stripes([lot["name"] for lot in stashed], plies))
        fabric = {"fabric": draw(fabrics)}
        for lot in stashed:
            lot["mass_g"] += 50
    else:
        names = [lot["name"] for lot in stashed]
        scheme |= draw(sequences(names[1:] if name == "solid" else names))
    scheme |= draw(_options(name, plies))
    if name in REVERSIBLE and not in_order:
        scheme["reversed_plies"] = draw(st.lists(st.integers(1, plies), max_size=2, unique=True))
    return {
        "lots": stashed,
        "scheme": scheme,
        "spinning": {
            "single_tex": draw(_one_or_each(st.integers(40, 900).map(float), singles)),
            "card_loss": card_loss,
            "spin_loss": draw(shares),
        },
        "plying": {
            "wound_off": draw(wound if alike else _one_or_each(wound, singles)),
            "contraction": draw(st.sampled_from((-0.1, 0.0, 0.04, 0.3))),
        },
        "scale": {"step_g": draw(st.sampled_from((0.01, 0.1, 0.5, 1.0, 5.0)))},
        **draw(targets),
        **fabric,
    }


@st.composite
def _stripes(draw, names: list[str], plies: int) -> dict:
    """Draw stripes of a lot or of one for each ply, narrow enough for what there is of each lot."""
    each = st.lists(st.sampled_from(names), min_size=plies, max_size=plies)
    lots = st.one_of(
        st.sampled_from(names).map(lambda lot: {"lot": lot}), each.map(lambda lots: {"lots": lots})
    )
    rows = st.integers(1, 2).map(lambda rows: {"rows": rows})
    stripe = st.tuples(rows, lots).map(lambda pair: pair[0] | pair[1])
    stripes = draw(st.lists(stripe, min_size=1, max_size=6))
    return {"stripes": stripes, "repeat": draw(st.booleans())}


fabrics = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(("flat", "round", "triangle")),
        "stitches": st.integers(1, 2),
        "rows": st.integers(1, 60),
        "gauge_stitches": st.sampled_from((4, 4.5)),
    }
)
"""Narrow pieces, their rows known."""
wound = st.integers(0, 3)
targets = st.one_of(
    st.just({}),
    st.integers(1, 2000).map(lambda metres: {"target": {"yarn_m": float(metres)}}),
    st.integers(1, 500).map(lambda grams: {"target": {"yarn_g": float(grams)}}),
)


def _one_or_each(one: st.SearchStrategy, singles: int) -> st.SearchStrategy:
    return st.one_of(one, st.lists(one, min_size=singles, max_size=singles))

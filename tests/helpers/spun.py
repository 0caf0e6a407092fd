"""What was spun, drawn at random for a plan, and what lies on a bobbin, worked out by hand."""

from hypothesis import strategies as st

from tests.helpers.strategies import answered

TARE_G = 60.0
grams = st.integers(1, 900).map(lambda hundredths: hundredths / 100)
lengths = st.integers(1, 9000).map(lambda centimetres: centimetres / 100)


def rows_of(found: dict) -> list[list[dict]]:
    """Return, ply by ply, the rows of an answer without anything spun."""
    return [single["portions"] for single in found["singles"]]


@st.composite
def spun_entries(draw, found: dict, *, extra: bool = True, measured: bool = True) -> list[dict]:
    """Draw what was spun of a plan whose bobbins weigh `TARE_G` empty: entries of all plies.

    Parameters
    ----------
    found : dict
        The plan's answer without anything spun.
    extra : bool
        Whether pieces too many, other lots and rows left out are among it.
    measured : bool
        Whether grams, lengths, samples and readings are among it.
    """
    names = [lot["name"] for lot in found["lots"]]
    plies = [
        draw(_of_ply(ply, rows, names if extra else [], measured))
        for ply, rows in enumerate(rows_of(found), 1)
    ]
    return draw(interleaved(plies))


@st.composite
def interleaved(draw, plies: list[list[dict]]) -> list[dict]:
    """Draw an order of all entries in which those of one ply keep theirs."""
    turns = draw(st.permutations([ply for ply, own in enumerate(plies) for _ in own]))
    left = [iter(own) for own in plies]
    return [next(left[ply]) for ply in turns]


@st.composite
def _of_ply(draw, ply: int, rows: list[dict], names: list[str], measured: bool) -> list[dict]:
    entries, scale = [], _Scale()
    order = list(range(1, draw(st.integers(0, len(rows))) + 1))
    if names and len(order) > 1 and draw(st.booleans()):
        order = draw(st.permutations(order))
    through = 0
    for row in order:
        kind = draw(st.sampled_from(("row", "row", "through", "left out", "extra")))
        if kind == "left out" and names:
            continue
        if kind == "through":
            through = max(through, row)
            entries.append({"ply": ply, "through": row})
            scale.add(None)
            continue
        if row > through:
            entries.append(draw(_piece({"ply": ply, "row": row}, names, measured, scale)))
        if kind == "extra" and names:
            piece = {"ply": ply, "lot": draw(st.sampled_from(names)), "mass_g": draw(grams)}
            entries.append(draw(_piece(piece, [], measured, scale)))
    return _once_each(entries)


def _once_each(entries: list[dict]) -> list[dict]:
    """Return entries without those that name a row which another names already."""
    kept, named, through = [], set(), 0
    for one in entries:
        row = one.get("row")
        if row is not None and (row in named or row <= through):
            continue
        named.add(row)
        through = max(through, one.get("through", 0))
        kept.append(one)
    return kept


class _Scale:
    """A bobbin that gets heavier: readings that leave something for every piece."""

    def __init__(self) -> None:
        self.gross_g, self.stated_g = TARE_G, 0.0

    def add(self, mass_g: float | None) -> None:
        self.stated_g += mass_g or 0.0

    def read(self, more_g: float) -> float:
        self.gross_g += round(self.stated_g + more_g, 2)
        self.stated_g = 0.0
        return round(self.gross_g, 2)


@st.composite
def _piece(draw, entry: dict, names: list[str], measured: bool, scale: _Scale) -> dict:
    if names and draw(st.integers(0, 4)) == 0:
        entry["lot"] = draw(st.sampled_from(names))
    if measured:
        for key, values in (("mass_g", grams), ("length_m", lengths)):
            if key not in entry and draw(st.integers(0, 3)) == 0:
                entry[key] = draw(values)
        scale.add(entry.get("mass_g"))
        if draw(st.integers(0, 4)) == 0:
            entry["sample"] = {"length_m": draw(lengths), "mass_g": draw(grams)}
        if draw(st.integers(0, 4)) == 0:
            entry["gross_g"] = scale.read(draw(grams))
    return entry


def with_bobbins(data: dict) -> dict:
    """Return a plan's data with bobbins of `TARE_G`."""
    return data | {"bobbins": data.get("bobbins", {}) | {"tare_g": TARE_G}}


def planned(data: dict) -> dict:
    """Return the answer to a plan's data without anything spun."""
    return answered({key: value for key, value in data.items() if key not in ("spun", "plied")})

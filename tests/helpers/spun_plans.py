"""Plans of which something is spun, drawn at random for every scheme."""

from hypothesis import strategies as st

from tests.helpers.strategies import answered, plan_data

strays = st.sampled_from((0.6, 0.9, 1.0, 1.1, 1.5))


@st.composite
def spun_plans(draw, scheme: str) -> dict:
    """Draw a plan's data with rows as planned, too heavy, too long, left out, and too many."""
    data = draw(plan_data(scheme))
    data.pop("target", None)
    singles = answered(data)["singles"]
    names = [lot["name"] for lot in data["lots"]]
    spun = []
    for single in singles:
        spun += draw(_of_ply(single, names))
    if not spun:
        spun = [{"ply": 1, "row": 1}]
    return data | {"spun": spun}


@st.composite
def _of_ply(draw, single: dict, names: list[str]) -> list[dict]:
    rows, ply = single["portions"], single["ply"]
    count = draw(st.one_of(st.just(len(rows)), st.integers(0, len(rows))))
    entries = [draw(_entry(ply, row, rows[row - 1], names)) for row in range(1, count + 1)]
    entries = [entry for entry in entries if entry]
    if draw(st.integers(0, 3)) == 0:
        mean_g = single["mass_g"] / len(rows)
        extra = {"ply": ply, "lot": draw(st.sampled_from(names)), "mass_g": mean_g}
        entries.insert(draw(st.integers(0, len(entries))), extra)
    return entries


@st.composite
def _entry(draw, ply: int, row: int, planned: dict, names: list[str]) -> dict | None:
    kind = draw(st.sampled_from(("plain",) * 4 + ("mass", "length", "lot", "none")))
    if kind == "none":
        return None
    entry = {"ply": ply, "row": row}
    if kind == "mass":
        entry["mass_g"] = max(planned["mass_g"] * draw(strays), 1e-3)
    elif kind == "length":
        entry["length_m"] = max((planned["end_m"] - planned["start_m"]) * draw(strays), 1e-3)
    elif kind == "lot":
        entry["lot"] = draw(st.sampled_from(names))
    return entry

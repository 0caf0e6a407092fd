"""What lies on one bobbin, reckoned piece by piece in exact fractions: grams, metres, grist."""

from fractions import Fraction

from tests.helpers.spun import TARE_G


def named_pieces(entries: list[dict], rows: list[dict]) -> list[dict]:
    """Return what is said of each piece of one ply, core first, with the grams of its row."""
    pieces, named = [], set()
    mean_g = sum(Fraction(row["mass_g"]) for row in rows) / len(rows)
    for one in entries:
        if "through" in one:
            new = [row for row in range(1, one["through"] + 1) if row not in named]
            pieces += [{"row": row} for row in new]
            named.update(new)
        else:
            pieces.append(dict(one))
            named.add(one.get("row"))
    for piece in pieces:
        row = piece.get("row")
        piece["share_g"] = Fraction(rows[row - 1]["mass_g"]) if row else mean_g
    return pieces


def reckoned(entries: list[dict], rows: list[dict], planned_tex: float, spin_loss: float):
    """Return the pieces of a ply with ``grams`` and ``metres``, its measured tex and that in force.

    One strand, one bobbin of `TARE_G`; the measured tex is None where nothing was measured.
    """
    pieces, kept = named_pieces(entries, rows), 1 - Fraction(spin_loss)
    measures = [*_weighed_by_readings(pieces, kept), *_measured_alone(pieces, kept)]
    net_g, length_m = (sum(each) for each in zip(*measures, strict=True)) if measures else (0, 1)
    measured = 1000 * net_g / length_m if measures else None
    tex = measured if len(measures) > 2 else Fraction(planned_tex)
    for one in pieces:
        said_m = Fraction(one["length_m"]) if "length_m" in one else None
        if one["grams"] is None:
            one["grams"] = one["share_g"] if said_m is None else said_m * tex / 1000 / kept
        one["metres"] = one["grams"] * kept * 1000 / tex if said_m is None else said_m
    return pieces, measured, tex


def _weighed_by_readings(pieces: list[dict], kept: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Give pieces their grams; return grams of single and metres of readings that measure."""
    measures, since, gross_g = [], [], Fraction(TARE_G)
    for piece in pieces:
        piece["grams"] = Fraction(piece["mass_g"]) if "mass_g" in piece else None
        since.append(piece)
        if "gross_g" not in piece:
            continue
        net_g, gross_g = Fraction(piece["gross_g"]) - gross_g, Fraction(piece["gross_g"])
        others = [one for one in since if one["grams"] is None]
        rest_g = net_g / kept - sum(one["grams"] for one in since if one["grams"] is not None)
        if others and all("length_m" in one for one in since):
            measures.append((net_g, sum(Fraction(one["length_m"]) for one in since)))
            for one in since:
                one["told"] = True
        for one in others:
            one["grams"] = rest_g * one["share_g"] / sum(each["share_g"] for each in others)
        since = []
    return measures


def _measured_alone(pieces: list[dict], kept: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Return grams of single and metres of pieces that state both, and of samples."""
    both = [one for one in pieces if {"length_m", "mass_g"} <= set(one) and "told" not in one]
    samples = [one["sample"] for one in pieces if "sample" in one]
    return [
        *((Fraction(one["mass_g"]) * kept, Fraction(one["length_m"])) for one in both),
        *((Fraction(one["mass_g"]), Fraction(one["length_m"])) for one in samples),
    ]

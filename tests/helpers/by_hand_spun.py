"""What lies on the bobbins and how to go on, told a second time piece by piece, with loops.

Everything is in plain numbers and dicts; one strand a ply, bobbins of one weight.
"""

Piece = dict
"""``ply``, ``row`` (None: a piece too many), ``after`` (the row it belongs to), ``lot``,
``grams``, ``metres``, ``spun``, and what its entry says."""


def entries_of(spun: list[dict], ply: int) -> list[dict]:
    """Return what is said of each piece of a ply, core first, with its bobbin."""
    told, named, bobbin = [], set(), 1
    for one in spun:
        if one["ply"] != ply:
            continue
        bobbin = one.get("bobbin", bobbin)
        rows = [one.get("row")]
        if "through" in one:
            rows = [row for row in range(1, one["through"] + 1) if row not in named]
        for row in rows:
            named.add(row)
            said = {key: one[key] for key in _SAID if key in one}
            told.append(said | {"row": row, "bobbin": bobbin})
    return told


_SAID = ("lot", "mass_g", "length_m", "gross_g", "sample")


def lying(data: dict, rows: list[dict], ply: int, planned_tex: float) -> dict:
    """Return what lies on one ply's bobbins: ``pieces``, ``measured_tex``, ``tex``, ``loss``.

    Parameters
    ----------
    data : dict
        The plan, with what was spun.
    rows : list of dict
        That ply's rows as planned: lot, mass_g, start_m, end_m.
    ply : int
        From 1.
    planned_tex : float
        Grams of a kilometre of its single, as planned.
    """
    kept = 1 - data["spinning"]["spin_loss"]
    told = entries_of(data.get("spun", []), ply)
    mean_g = sum(row["mass_g"] for row in rows) / len(rows)
    for one in told:
        one["share"] = rows[one["row"] - 1]["mass_g"] if one["row"] else mean_g
        one["grams"] = one.get("mass_g")
    measures, compared = _read(told, data.get("bobbins", {}).get("tare_g", 0.0), kept)
    for one in told:
        if "mass_g" in one and "length_m" in one and not one.get("counted"):
            measures.append((one["mass_g"] * kept, one["length_m"]))
        if "sample" in one:
            measures.append((one["sample"]["mass_g"], one["sample"]["length_m"]))
    measured = None
    if measures:
        measured = 1000 * sum(grams for grams, _ in measures) / sum(m for _, m in measures)
    tex = measured if len(measures) >= 3 else planned_tex
    highest = max((one["row"] or 0 for one in told), default=0)
    named = {one["row"] for one in told}
    pieces = [_piece(one, rows, tex, kept) | {"spun": True} for one in told]
    to_spin = range(highest + 1, len(rows) + 1)
    pieces += [_piece({"row": row}, rows, tex, kept) | {"spun": False} for row in to_spin]
    after = 0
    for one in pieces:
        after = one["row"] or after
        one |= {"ply": ply, "after": after}
    gained, stated = (sum(each) for each in zip(*compared, strict=True)) if compared else (0, 0)
    return {
        "pieces": pieces,
        "measured_tex": measured,
        "tex": tex,
        "loss": 1 - gained / stated if stated else None,
        "left_out": [row for row in range(1, highest + 1) if row not in named],
        "highest": highest,
    }


def _read(told: list[dict], tare_g: float, kept: float):
    measures, compared, since, before_g, bobbin = [], [], [], tare_g, None
    for one in told:
        if one["bobbin"] != bobbin:
            since, before_g, bobbin = [], tare_g, one["bobbin"]
        since.append(one)
        if "gross_g" not in one:
            continue
        net_g, before_g = one["gross_g"] - before_g, one["gross_g"]
        others = [each for each in since if "mass_g" not in each]
        stated_g = sum(each["mass_g"] for each in since if "mass_g" in each)
        if not others:
            compared.append((net_g, stated_g))
        for each in others:
            parts = sum(other["share"] for other in others)
            each["grams"] = (net_g / kept - stated_g) * each["share"] / parts
        if others and all("length_m" in each for each in since):
            measures.append((net_g, sum(each["length_m"] for each in since)))
            for each in since:
                each["counted"] = True
        since = []
    return measures, compared


def _piece(one: dict, rows: list[dict], tex: float, kept: float) -> Piece:
    planned = rows[one["row"] - 1] if one["row"] else {}
    grams, metres = one.get("grams"), one.get("length_m")
    if grams is None:
        grams = planned["mass_g"] if metres is None else metres * tex / 1000 / kept
    if metres is None:
        metres = grams * kept * 1000 / tex
    lot = one.get("lot", planned.get("lot"))
    return {"row": one["row"], "lot": lot, "grams": grams, "metres": metres}


# --- going on --------------------------------------------------------------------------------


class Ply:
    """One ply as planned and as it stands, for the ways to go on."""

    def __init__(self, rows: list[dict], found: dict, wound_off: int, kept: float) -> None:
        self.lots = [row["lot"] for row in rows]
        self.grams = [row["mass_g"] for row in rows]
        self.p = [row["end_m"] - row["start_m"] for row in rows]
        self.pieces, self.tex, self.h = found["pieces"], found["tex"], found["highest"]
        self.left_out, self.kept, self.odd = found["left_out"], kept, wound_off % 2 == 1
        self.finished = all(one["spun"] for one in self.pieces)
        self.changes = [j for j in range(1, len(rows)) if self.lots[j - 1] != self.lots[j]]

    def planned_to(self, j: int) -> float:
        return sum(self.p[:j])

    def lies_to(self, j: int, pieces: list[Piece] | None = None) -> float:
        pieces = self.pieces if pieces is None else pieces
        last = max((i for i, one in enumerate(pieces, 1) if one["after"] <= j), default=0)
        return sum(one["metres"] for one in pieces[:last])

    @property
    def spun_m(self) -> float:
        return sum(one["metres"] for one in self.pieces if one["spun"])

    def correction(self) -> float:
        if self.odd:
            return self.planned_to(self.h) - self.spun_m
        sigmas = [
            (self.spun_m - self.lies_to(j)) - (self.planned_to(self.h) - self.planned_to(j))
            for j in self.changes
            if j <= self.h
        ]
        tried = [0.0] + [-sigma for sigma in sigmas]
        worth = {c: sum(abs(sigma + c) for sigma in sigmas) for c in tried}
        least = min(worth.values())
        near = 1e-9 * sum(self.p) * (1 + len(sigmas))
        return min((c for c in tried if worth[c] <= least + near), key=abs)

    def shift(self, pieces: list[Piece]) -> float:
        whole, now = sum(self.p), sum(one["metres"] for one in pieces)
        worst = 0.0
        for j in self.changes:
            was, lies = self.planned_to(j), self.lies_to(j, pieces)
            if not self.odd:
                was, lies = whole - was, now - lies
            worst = max(worst, abs(lies - was))
        return worst

    def comes_off(self, lots: list[tuple[str, float]]) -> list[tuple[float, str]]:
        at, ends = 0.0, []
        for lot, metres in lots if self.odd else lots[::-1]:
            at += metres
            ends.append((at, lot))
        return ends


def scaled(one: Piece, metres: float) -> Piece:
    return one | {"metres": metres, "grams": one["grams"] * metres / one["metres"]}


def in_step(ply: Ply) -> list[Piece]:
    if ply.finished:
        return ply.pieces
    c, pieces, added = ply.correction(), [], False
    for one in ply.pieces:
        metres = one["metres"]
        if not one["spun"]:
            metres = ply.p[one["row"] - 1]
            if c > 0 and not added:
                metres, added = metres + c, True
            elif c < 0:
                gone = min(metres, -c)
                metres, c = metres - gone, c + gone
        pieces.append(scaled(one, metres))
    return [one for one in pieces if one["metres"] > 1e-9 * sum(ply.p)]


def run_out(ply: Ply, plies: list[Ply]) -> list[Piece]:
    end = min((other.spun_m for other in plies if other.finished), default=sum(ply.p))
    if ply.finished or ply.spun_m >= end:
        return ply.pieces
    to_spin = sum(one["metres"] for one in ply.pieces if not one["spun"])
    factor = (end - ply.spun_m) / to_spin
    return [one if one["spun"] else scaled(one, one["metres"] * factor) for one in ply.pieces]


def by_grist(ply: Ply, factor: float | None) -> list[Piece]:
    """Return a ply whose grams still to spin are spun to other metres, all alike."""
    return [one if one["spun"] else one | {"metres": one["metres"] * factor} for one in ply.pieces]


def pull_off(ply: Ply) -> tuple[list[Piece], float]:
    drawn = max(0.0, -ply.correction()) if ply.finished and not ply.odd else 0.0
    pieces, left = [], drawn
    for one in reversed(ply.pieces):
        gone = min(left, one["metres"])
        left -= gone
        pieces.append(scaled(one, one["metres"] - gone))
    return [one for one in reversed(pieces) if one["metres"] > 1e-12], drawn


def make_up(ply: Ply, least_g: float) -> list[Piece]:
    extra = []
    for row, grams in enumerate(ply.grams, 1):
        there = [one["grams"] for one in ply.pieces if one["row"] == row]
        lacks = grams - there[0] if there else grams
        if lacks > least_g:
            extra.append((row, lacks))
    spun = [one for one in ply.pieces if one["spun"]]
    after = spun[-1]["after"] if spun else 0
    new = [
        {
            "ply": ply.pieces[0]["ply"] if ply.pieces else 0,
            "row": None,
            "after": after,
            "lot": ply.lots[row - 1],
            "grams": lacks,
            "metres": lacks * ply.kept * 1000 / ply.tex,
            "spun": False,
        }
        for row, lacks in extra
    ]
    return spun + new + [one for one in ply.pieces if not one["spun"]]


def as_planned(plies: list[Ply], choice: list[list[Piece]]) -> float:
    """Return the share of the planned yarn's metres at which plies show what was planned there."""
    old = [ply.comes_off(list(zip(ply.lots, ply.p, strict=True))) for ply in plies]
    new = [
        ply.comes_off([(one["lot"], one["metres"]) for one in pieces])
        for ply, pieces in zip(plies, choice, strict=True)
    ]
    planned_m = min(ends[-1][0] for ends in old)
    reach = min(planned_m, *(ends[-1][0] for ends in new))
    kept = 0.0
    for was, now in zip(old, new, strict=True):
        at, i, k = 0.0, 0, 0
        while at < reach and i < len(was) and k < len(now):
            to = min(was[i][0], now[k][0], reach)
            if was[i][1] == now[k][1]:
                kept += max(0.0, to - at)
            at = max(at, to)
            i, k = i + (was[i][0] <= at), k + (now[k][0] <= at)
    return kept / (len(plies) * planned_m)


def factor(before: list[Piece], after: list[Piece]) -> float | None:
    now, then = (
        sum(one["metres"] for one in pieces if not one["spun"]) for pieces in (before, after)
    )
    return then / now if now else None


def more_g(before: list[list[Piece]], after: list[list[Piece]]) -> dict[str, float]:
    """Return by lot what the rows to spin take more after than before."""
    found: dict[str, float] = {}
    for sign, plies in ((-1, before), (1, after)):
        for one in (each for pieces in plies for each in pieces):
            if not one["spun"]:
                found[one["lot"]] = found.get(one["lot"], 0.0) + sign * one["grams"]
    return found


def ways(plies: list[Ply]) -> dict[str, list[list[Piece]]]:
    """Return each way to go on but `follow`: the pieces of every ply."""
    least_g = 1e-8 * sum(sum(ply.grams) for ply in plies)
    return {
        "carry_on": [ply.pieces for ply in plies],
        "in_step": [in_step(ply) for ply in plies],
        "run_out": [run_out(ply, plies) for ply in plies],
        "pull_off": [pull_off(ply)[0] for ply in plies],
        "make_up": [make_up(ply, least_g) for ply in plies],
    }

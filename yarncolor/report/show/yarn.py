"""The yarn as a thing, as a notebook shows it: drawing, counts, what is known, twist, air."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import metres_hang
from yarncolor.measures import Measure, Measures
from yarncolor.phrases import join_words, turns
from yarncolor.pictures.cross_section import WIDTH_PX, yarn_alt, yarn_png
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.fragment import Fragment, Picture, below, sentences, table
from yarncolor.report.show.markup import Html, joined, paragraphs
from yarncolor.report.why.reason import NOT_ASKED, Whys
from yarncolor.report.why.seen import seen_in
from yarncolor.report.why.twist import balance_whys, over_twist_whys
from yarncolor.report.why.yarn import (
    counts_whys,
    known_whys,
    moisture_whys,
    other_air_reasons,
)
from yarncolor.report.yarn_advice import moisture_told
from yarncolor.report.yarn_as_dict import yarn_dict
from yarncolor.units import tpi
from yarncolor.yarn.balance import WORDS
from yarncolor.yarn.linear_density import SYSTEMS, from_tex
from yarncolor.yarn.over_twist import over_twisted
from yarncolor.yarn.regain import REGAINS, mass_at_regain_g
from yarncolor.yarn.structure import YarnStructure
from yarncolor.yarn.wraps import wraps_by_convention

_KNOWN = {
    "designation": ("as mills write it", ""),
    "designation_in_full": ("as mills write it, with its twists", ""),
    "m_per_100g": ("grist of the yarn", "m in 100 g"),
    "wpi": ("wraps to the inch", ""),
    "diameter_mm": ("thickness on a ruler", "mm"),
    "single_diameter_mm": ("thickness of a single in the twist", "mm"),
    "helix_angle_deg": ("angle of the plies", "°"),
    "pitch_mm": ("one turn of the ply twist", "mm"),
    "contraction": ("length lost in plying", "%"),
    "length_m": ("length as plied", "m"),
    "length_low_m": ("nine yarns of ten are between", "m"),
    "length_high_m": ("and", "m"),
    "rested_length_m": ("length when rested", "m"),
    "finished_length_m": ("length when washed", "m"),
    "hours": ("hours at the wheel", "h"),
}
_WHOLE_FROM = 999.5
"""From here on three digits would be told with a power of ten."""

_DENSITIES = {
    "packed_density_g_per_cm3": "density in the twist",
    "relaxed_density_g_per_cm3": "density as wrapped on a ruler",
}
_ROOMS = {
    "bone dry": 0.0,
    "a dry, heated room, roughly": 0.10,
    "an ordinary room, roughly": 0.15,
    "a damp room, roughly": 0.20,
    "as much as wool takes before it feels wet, roughly": 0.30,
}
_EXCESSES = (-0.1, 0.0, 0.05, 0.1, 0.2, 0.4)


def show_drawing(answer: Answer) -> Picture:
    """Return the yarn drawn large: a cut through it, its side, and a single, at one scale."""
    return Picture(yarn_png(answer), yarn_alt(answer), WIDTH_PX)


def show_counts(answer: Answer, explained: bool = False) -> Fragment:
    """Return the grist of single, yarn as plied and yarn washed in every system, and the wraps.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    yarn = answer.resolved.yarn
    columns = (yarn.strand_tex[0], answer.layout.yarn_tex, answer.layout.finished_tex)
    rows = [
        (system, *(_counted(from_tex(float(tex), system)) for tex in columns)) for system in SYSTEMS
    ]
    wraps = (yarn.wpi(float(tex)) for tex in columns)
    rows.append(("wraps to the inch, as you wrap", *(f"{wrap:.0f}" for wrap in wraps)))
    for way in wraps_by_convention(1.0):
        wraps = (wraps_by_convention(float(tex))[way] for tex in columns)
        rows.append((f"wraps to the inch, {way} way", *(f"{wrap:.0f}" for wrap in wraps)))
    head = ("", "single of ply 1", "yarn as plied", "yarn washed")
    whys = counts_whys(answer) if explained else NOT_ASKED
    return table(f"grist in every system{metres_hang(answer)}", head, rows, whys)


def show_known(answer: Answer, explained: bool = False) -> Fragment:
    """Return the yarn's numbers, each with how it is known: given, measured, derived, assumed.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    numbers = yarn_dict(answer)
    rows = [
        (words, _in_units(numbers[key], unit, answer.say), numbers["source"][key])
        for key, (words, unit) in _KNOWN.items()
        if numbers[key] is not None
    ]
    yarn, source = answer.resolved.yarn, numbers["source"]
    grist = answer.say.grist
    each = dict.fromkeys(grist.number(1e5 / float(tex), 0) for tex in yarn.strand_tex)
    single = f"{join_words(list(each))} {grist.unit}"
    rows.insert(0, ("grist of the singles", single, source["single_tex"]))
    if yarn.contraction_band is not None:
        low, high = (f"{share:.1%}" for share in yarn.contraction_band)
        rows.append(("length lost in plying, between", f"{low} and {high}", "derived"))
    between = answer.matched_band
    if between is not None:
        rows.append(("matched, nine of ten", f"{between[0]:.0%} to {between[1]:.0%}", "derived"))
    for key, words in _DENSITIES.items():
        rows.append((words, f"{getattr(yarn, key):.3g} g/cm³", source[key]))
    head, whys = ("", "", "how it is known"), known_whys(answer) if explained else NOT_ASKED
    return table(f"what is known, and how{metres_hang(answer)}", head, rows, whys)


def show_twist(answer: Answer, explained: bool = False) -> Fragment:
    """Return ply twist by each criterion of balance, and what over-twisted singles would do.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    yarn = answer.resolved.yarn
    single = yarn.mean_single
    if single is None or not yarn.balanced_tpm:
        opposed = single is None or single.opposed
        text = "Give the singles a twist, and ply them, to see what balances."
        if not opposed:
            text = "Nothing balances while some singles are spun the way the yarn is plied."
        return sentences(text)
    balance = [
        (
            WORDS[name],
            f"{tpi(twist):.1f}",
            f"{twist:.0f}",
            f"{twist / single.twist_tpm:.0%}",
        )
        for name, twist in yarn.balanced_tpm.items()
    ]
    head = ("for a balanced yarn", "turns to the inch", "to the metre", "of the singles' twist")
    by_rule = table("ply twist", head, balance, balance_whys(answer) if explained else NOT_ASKED)
    if yarn.helix_angle_deg is None or yarn.ply_twist_tpm is None:
        return by_rule
    whys = over_twist_whys(answer, _EXCESSES[-1]) if explained else NOT_ASKED
    return below(by_rule, _over_twisted(yarn, yarn.ply_twist_tpm, whys))


def show_moisture(answer: Answer, regain: float = 0.16, explained: bool = False) -> Fragment:
    """Return what the yarn weighs in other air; its metres stay.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    regain : float
        Water over dry mass on the day of weighing out, where the plan does not say; 0.16 is an
        ordinary room.
    explained : bool
        Whether figures answer why.
    """
    day = answer.plan.scale.regain if answer.plan.scale.regain is not None else regain
    whole = answer.layout.yarn_g
    agreed = {f"the trade's figure: {name}": at for name, at in REGAINS.items() if "wool" in name}
    airs = {"as weighed out": day, **_ROOMS, **agreed}
    rows = [
        (
            name,
            f"{at:.1%}",
            answer.say.mass(mass_at_regain_g(whole, day, at)),
            f"{mass_at_regain_g(1, day, at) - 1:+.1%}",
        )
        for name, at in airs.items()
    ]
    shown = table(
        "what this yarn weighs in dry and in damp air",
        ("", "water beside bone-dry wool", "weighs", "difference"),
        rows,
        moisture_whys(answer, day, [*airs.values()][-1]) if explained else NOT_ASKED,
    )
    told = list(moisture_told(answer))
    advice = [str(one) for one in told]
    seen = seen_in(told, other_air_reasons(answer)) if explained else ()
    why = asked_together(seen, "lots weighed in different air", answer.say)
    html = joined((Html(shown.html), paragraphs(advice), why))
    return Fragment(html, "\n".join([shown.text, *advice]))


def _over_twisted(yarn: YarnStructure, ply_twist_tpm: float, whys: Whys) -> Fragment:
    rows = []
    for excess in _EXCESSES:
        over = over_twisted(yarn, excess)
        if over is None:
            continue
        low, high = over.balanced_tpm
        verdict = "balanced" if low <= ply_twist_tpm <= high else "lively"
        rows.append(
            (
                f"{excess:+.0%}" if excess else "as planned",
                turns(over.twist_tpm).split()[0],
                f"{over.angle_deg:.0f}°",
                f"{over.single_length - 1:+.1%}",
                f"{over.yarn_length - 1:+.1%}",
                f"{tpi(low):.1f} to {tpi(high):.1f}",
                verdict,
            )
        )
    head = (
        *("singles' twist", "turns to the inch", "angle", "single's length", "yarn's length"),
        *("balanced by", f"with {tpi(ply_twist_tpm):.1f}"),
    )
    return table("if the singles get another twist than planned", head, rows, whys)


def _in_units(value: float | str, unit: str, say: Measures) -> str:
    if isinstance(value, str):
        return value
    if unit == "%":
        return f"{value:.1%}"
    if unit == "m":
        return say.length(value, 0)
    own: Measure = {"mm": say.thickness, "m in 100 g": say.grist}.get(unit, Measure(unit))
    said = own.of(value)
    return f"{said:{'.3g' if said < _WHOLE_FROM else '.0f'}} {own.unit}".strip()


def _counted(count: float) -> str:
    return f"{count:,.0f}" if count >= 1000 else f"{count:.4g}"

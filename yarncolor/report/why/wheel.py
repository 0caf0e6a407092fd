"""Why bobbins, weights, skeins and hours are what they are."""

from collections.abc import Iterator
from dataclasses import replace

from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin
from yarncolor.defaults import plying_tare_g
from yarncolor.layout.along_single import keeps_grist
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source, Whys, whys_of
from yarncolor.report.why.weighing import first_weighed

_FROM_SCALE = (
    "what left the scale for it, row by row, less what is lost in spinning, and shared among the "
    "strands that lie side by side"
)
_LAST_FIRST = "what was filled last comes off first; wound off once, what was filled first"
_FEWEST = (
    "as few bobbins as what one holds allows, each changed where a portion ends; straight from "
    "the bobbins all full ones are in use at once"
)
_BREAKS = (
    "as few skeins as the plying bobbin allows, broken where as many plies as possible change, "
    "and as even as that lets them be"
)
_ON_SCALE = (
    "what there is of the lot, shared over its places and plies by the scheme, then rounded so "
    "that the scale can show every row and the sum stays"
)
_ALIKE = "the least and the most that one portion of the ply takes, by the line below of its weight"


def weigh_out_whys(answer: Answer) -> Whys:
    """Return the reasons for what is weighed for each bobbin."""
    masses, lost = sources.masses(answer), sources.card_loss(answer)
    scheme, step = sources.order(answer), sources.step(answer)
    known = (masses, scheme, step, lost)
    weigh = Reason("what to weigh", known, first_weighed(answer), _ON_SCALE)
    hand = (
        "which part of its lot the portion is, or how many rolags, to the nearest that hands find"
    )
    on_bobbin = (masses, scheme, sources.spin_loss(answer))
    return whys_of(
        answer,
        heads={
            "weigh": weigh,
            "by hand": Reason("by hand", (masses, scheme), (), hand),
            "on bobbin": Reason("on the bobbin", on_bobbin, (), _FROM_SCALE),
        },
    )


def bobbins_whys(answer: Answer) -> Whys:
    """Return the reasons for what each bobbin holds and weighs, and how many there must be."""
    need, first = answer.bobbins_needed, answer.bobbins[0]
    held, winding = sources.bobbins(answer), sources.winding(answer)
    count = {"bobbins_full": need.full, "bobbins_plying": need.plying}
    return whys_of(
        answer,
        heads={
            "bobbin": Reason(
                "bobbins needed at once", (held, winding), (Working(by.BOBBINS, count),), _FEWEST
            ),
            "holds": Reason("which ply", (sources.order(answer),), (), "in the order of spinning"),
            "single": Reason("single", _spun(answer), _single(answer, first), _of_first(answer)),
            **_weights(answer, first, first.end_m),
            "comes off": Reason("when it comes off", (winding, held), (), _LAST_FIRST),
        },
    )


def points_whys(answer: Answer) -> Whys:
    """Return the reasons for where to stop and weigh, and for what bobbins weigh then."""
    point = answer.weigh_points[0]
    where = "where a repeat of the sequence ends, and where a bobbin is full"
    place = Reason("where to stop", (sources.order(answer), sources.bobbins(answer)), (), where)
    heads = dict.fromkeys(("bobbin", "of", "after row"), place)
    return whys_of(answer, heads={**heads, **_weights(answer, point.bobbin, point.at_m)})


def skeins_whys(answer: Answer) -> Whys:
    """Return the reasons for where the yarn is broken, and for what skeins weigh."""
    skein, bobbin = answer.skeins[0], sources.plying_bobbin(answer)
    makes = (bobbin, *_spun(answer), sources.length_lost(answer))
    long = {"length_m": skein.end_m - skein.start_m, "linear_density_tex": answer.layout.yarn_tex}
    place = Reason("skeins", makes, _skeins(answer), _BREAKS)
    tare = sources.tare(answer, "plying_tare_g")
    return whys_of(
        answer,
        heads={
            "skein": place,
            f"{answer.say.length.plural} of yarn": place,
            "weighs": Reason("skein 1 weighs", makes, (Working(by.WEIGHS, long),)),
            "with the bobbin": Reason(
                "skein 1", (tare, *makes), _gross(skein.mass_g, plying_tare_g(answer.plan))
            ),
        },
    )


def _skeins(answer: Answer) -> tuple[Working, ...]:
    """Return how many skeins the plying bobbin makes of one yarn; nothing where it holds all."""
    capacity_g, along = answer.plan.bobbins.plying_capacity_g, answer.layout.stretches
    if capacity_g is None or len(along.copy_ends_m):
        return ()
    values = {
        "yarn_m": along.yarn_m,
        "linear_density_tex": answer.layout.yarn_tex,
        "capacity_g": capacity_g,
    }
    return (Working(by.SKEINS, values),)


def hours_whys(answer: Answer) -> Whys:
    """Return the reasons for hours at the wheel, by ply and in all."""
    pace, yarn, plying_h = _pace(answer), answer.resolved.yarn, answer.hours.plying_h
    plies = {f"ply {k + 1}": _ply_hours(answer, k) for k in range(len(yarn.tex))}
    rows = {**plies, "spinning in all": Reason("spinning", pace, (), "all plies together")}
    if plying_h is not None:
        rows["plying"] = plying_hours(answer)
        rows["the job"] = job_hours(answer)
    return whys_of(
        answer,
        rows=rows,
        heads={
            "portions": Reason("portions", (sources.order(answer),), (), "rows of the ply"),
            "each portion": Reason("each portion", pace, (), _ALIKE),
        },
        column=0,
    )


def job_hours(answer: Answer) -> Reason:
    """Return why the whole job takes so long."""
    takes, pace = answer.hours, _pace(answer)
    if takes.spinning_h is None or takes.plying_h is None:
        return replace(spinning_hours(answer), method="plying is not in it")
    both = {"spinning_h": takes.spinning_h, "plying_h": takes.plying_h}
    known = sources.unlike((*pace, *_plying_pace(answer)))
    return Reason("the job", known, (Working(by.JOB, both),))


def spinning_hours(answer: Answer) -> Reason:
    """Return why spinning takes so long, ply by ply."""
    plies = range(len(answer.resolved.yarn.tex))
    each = tuple(_spinning(answer, k) for k in plies) if answer.hours.spinning_h else ()
    return Reason("spinning", _pace(answer), each, "all plies together")


def plying_hours(answer: Answer) -> Reason:
    """Return why plying takes so long."""
    line = () if answer.hours.plying_h is None else (_plying(answer),)
    return Reason("plying", _plying_pace(answer), line)


def _pace(answer: Answer) -> tuple[Source, ...]:
    if answer.hours.source == "given":
        return (*sources.pace(answer), sources.masses(answer))
    return (*sources.pace(answer), sources.single_twist(answer), *_spun(answer))


def _plying_pace(answer: Answer) -> tuple[Source, ...]:
    twist, lost = sources.ply_twist(answer), sources.length_lost(answer)
    return (*sources.plying_pace(answer), twist, *_spun(answer), lost)


def _ply_hours(answer: Answer, ply: int) -> Reason:
    working = (_spinning(answer, ply),) if answer.hours.source else ()
    return Reason("spinning", _pace(answer), working)


def by_treadles(answer: Answer) -> Iterator[Working]:
    """Yield how long each ply takes by treadling, ratio and twist, whatever else is said."""
    yield from (_treadled(answer, ply) for ply in range(len(answer.resolved.yarn.tex)))


def _spinning(answer: Answer, ply: int) -> Working:
    spinning, portions = answer.plan.spinning, answer.layout.portions
    if spinning.minutes_per_g is None:
        return _treadled(answer, ply)
    spun_g = float(portions.mass_g[portions.of_ply(ply)].sum())
    values = {"spun_g": spun_g, "minutes_per_g": spinning.minutes_per_g}
    return Working(by.BY_GRAMS, values, f"ply {ply + 1}")


def _treadled(answer: Answer, ply: int) -> Working:
    spinning, yarn, portions = answer.plan.spinning, answer.resolved.yarn, answer.layout.portions
    own, of = portions.of_ply(ply), f"ply {ply + 1}"
    twist_tpm = 0.0 if yarn.twist_tpm is None else float(yarn.twist_tpm[ply])
    turned_m = float(portions.length_m[own].sum()) * int(yarn.strands[ply])
    values = {
        "length_m": turned_m,
        "twist_tpm": twist_tpm,
        "treadles_per_min": spinning.treadles_per_min or 0.0,
        "drive_ratio": spinning.drive_ratio or 0.0,
    }
    return Working(by.BY_TREADLES, values, of)


def _plying(answer: Answer) -> Working:
    spinning, plying = answer.plan.spinning, answer.plan.plying
    values = {
        "length_m": answer.lengths.plied_m,
        "ply_twist_tpm": answer.resolved.yarn.ply_twist_tpm or 0.0,
        "treadles_per_min": plying.treadles_per_min or spinning.treadles_per_min or 0.0,
        "drive_ratio": plying.drive_ratio or spinning.drive_ratio or 0.0,
    }
    return Working(by.PLYING_TIME, values)


def _spun(answer: Answer) -> tuple[Source, ...]:
    """Return what metres of single rest on."""
    return (sources.grist(answer), sources.masses(answer), sources.spin_loss(answer))


def _single(answer: Answer, bobbin: Bobbin) -> tuple[Working, ...]:
    """Return the metres on a bobbin from grams, where all is spun as planned and one holds it."""
    portions, ply, resolved = answer.layout.portions, bobbin.ply, answer.resolved
    if bobbin.of > 1 or not keeps_grist(portions, ply, resolved.tex[ply]):
        return ()
    values = {
        "spun_g": float(portions.mass_g[portions.of_ply(ply)].sum()),
        "spin_loss": resolved.spin_loss,
        "linear_density_tex": float(resolved.tex[ply]),
    }
    return (Working(by.SPUN, values, "bobbin 1"),)


def _of_first(answer: Answer) -> str:
    if _single(answer, answer.bobbins[0]):
        return ""
    return "each portion is its weight, less what is lost in spinning, over its own thickness"


def _weights(answer: Answer, bobbin: Bobbin, at_m: float) -> dict[str, Reason]:
    masses, lost, tare = (sources.masses(answer), sources.spin_loss(answer), sources.tare(answer))
    net_g = float(answer.on_bobbins.at_g(bobbin, at_m))
    both = _gross(net_g, bobbin.tare_g)
    return {
        "spun on it": Reason("spun on it", (masses, lost), (), _FROM_SCALE),
        "with the bobbin": Reason("with the bobbin", (tare, masses, lost), both),
    }


def _gross(net_g: float, tare_g: float | None) -> tuple[Working, ...]:
    """Return a weight with its bobbin; nothing where the empty one is not known."""
    if tare_g is None:
        return ()
    return (Working(by.WITH_BOBBIN, {"mass_g": net_g, "tare_g": tare_g}),)

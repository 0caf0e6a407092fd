"""Why it is told so how the yarn is built, wound, plied and knitted."""

from collections.abc import Iterator

from yarncolor.answers.answer import Answer
from yarncolor.answers.hours import FASTEST_RPM
from yarncolor.layout.layout import used_g
from yarncolor.report.bobbin_advice import MOST_NAMED
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_advice as told_by
from yarncolor.report.why import sources
from yarncolor.report.why.advice_colours import more
from yarncolor.report.why.equation import Working
from yarncolor.report.why.fabric import fabric_whys, fibre_whys, piece_reasons
from yarncolor.report.why.hands import hands_reasons, helps_whys, portion_strays
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.twist import balance_whys, length_lost, ply_twist_sources
from yarncolor.report.why.wheel import bobbins_whys, by_treadles, skeins_whys, spinning_hours
from yarncolor.report.why.yarn import known_whys, other_air_reasons
from yarncolor.report.why.yarn_sentences import fibre_angle
from yarncolor.report.yarn_advice import MOST_NAMED as MOST_LOTS
from yarncolor.units import diameter_mm
from yarncolor.yarn.knitting import LOOSEST, TIGHTEST
from yarncolor.yarn.twist import STEEPEST_VALID_DEG

_TURNED = "wound off an odd number of times, a single runs the other way"
_LAST_FIRST = "straight from a bobbin, what was spun last comes off first"
_SAME_WAY = "plied the way it was spun, a single gains twist; plied the other way, it loses some"
_EARLY = "the mean of the shortest single of many yarns that are spun so"
_HOLDS = f"up to {STEEPEST_VALID_DEG:.0f}°, since fibres slip and singles kink beyond"
_FORMULAS = Source("how far the formulas hold", "assumed", _HOLDS)
_FEET = Source(
    "how fast feet drive a flyer",
    "assumed",
    f"{FASTEST_RPM:,.0f} turns a minute at most, by common practice",
)
_TIGHTNESS = Source(
    "tightness that is usual", "assumed", f"{LOOSEST:.0f} to {TIGHTEST:.0f}, as fabrics measure"
)
_PLAIN = "rows of plain knitting over its stitches, as swatches have them"


def winding_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a single is told to run backwards."""
    known = (sources.winding(answer), sources.order(answer))
    yield Reason("which way a single runs", known, (), _TURNED)


def fade_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a fade is told to run backwards."""
    known = (sources.winding(answer), sources.order(answer))
    yield Reason("which end comes first", known, (), _LAST_FIRST)


def way_told(answer: Answer) -> Iterator[Reason]:
    """Yield why the way of twist is told to be wrong."""
    single = sources.of_key(answer, "spinning", "direction", "the way the singles are spun")
    ply = sources.of_key(answer, "plying", "direction", "the way the yarn is plied")
    yield Reason("way of twist", (single, ply), (), _SAME_WAY)


def few_told(answer: Answer) -> Iterator[Reason]:
    """Yield why so many bobbins are needed at once, and how many lack."""
    need = answer.bobbins_needed
    there = sources.of_key(answer, "bobbins", "count", "bobbins there are")
    needed = bobbins_whys(answer).heads["bobbin"]
    yield needed
    values = {"bobbins_at_once": need.at_once, "bobbins_there": need.count or 0}
    lacks = Working(told_by.TO_BORROW, values)
    yield Reason("bobbins that lack", (there, *needed.rests_on), (lacks,))
    yield Reason("bobbins there are", (there,))


def full_told(answer: Answer) -> Iterator[Reason]:
    """Yield why bobbins are told to be full."""
    yield bobbins_whys(answer).heads["bobbin"]
    yield Reason("what a bobbin holds", (sources.bobbins(answer),))


def skeins_told(answer: Answer) -> Iterator[Reason]:
    """Yield why the yarn is broken where it is."""
    skein = skeins_whys(answer).heads["skein"]
    yield skein
    capacity_g, tex = answer.plan.bobbins.plying_capacity_g, answer.layout.yarn_tex
    values = {"capacity_g": capacity_g or 0.0, "linear_density_tex": tex}
    full = (Working(told_by.FULL, values),) if capacity_g else ()
    counted = more(len(answer.skeins) - 1, MOST_NAMED, "places to break it")
    yield Reason("yarn on a full plying bobbin", skein.rests_on, (*full, *counted))


def piece_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a piece takes more than there is, and what lacks for it."""
    knit = answer.piece
    if knit is None:
        return
    reasons = piece_reasons(answer, knit)
    yield from (reasons[of] for of in ("needs", "rows_possible", "rows"))
    yield fabric_whys(answer, knit).rows["washed yarn there is"]
    yarn_m, used = answer.layout.stretches.yarn_m, used_g(answer.layout)
    wanted_m, card_loss = knit.all_plied_m or 0.0, answer.resolved.card_loss
    values = {"wanted_m": wanted_m, "yarn_m": yarn_m, "card_loss": card_loss}
    lines = tuple(
        Working(told_by.LACKS_FOR_IT, {"spun_g": float(mass_g), **values}, name)
        for name, mass_g in zip(answer.plan.names, used, strict=True)
        if mass_g and wanted_m > yarn_m
    )
    known = fibre_whys(answer, knit).heads["to card for it"].rests_on
    yield Reason("fibre for the rest", known, (*lines, *more(len(lines), MOST_LOTS, "lots")))


def steep_told(answer: Answer) -> Iterator[Reason]:
    """Yield why twist is told to be steep."""
    yield fibre_angle(answer)
    reasons = known_whys(answer).rows
    if "angle of the plies" in reasons:
        yield reasons["angle of the plies"]
    yield Reason("where the formulas end", (_FORMULAS,))


def unlike_told(answer: Answer) -> Iterator[Reason]:
    """Yield why plies take up unlike lengths, and which would wind round another."""
    lost = answer.resolved.yarn.contractions
    longer = {"least_lost": float(lost.min()), "most_lost": float(lost.max())}
    yield length_lost(answer)[0]
    line = (Working(told_by.LONGER_BY, longer),)
    yield Reason("how much longer", length_lost(answer)[0].rests_on, line)
    yield known_whys(answer).rows["thickness of a single in the twist"]


def hours_told(answer: Answer) -> Iterator[Reason]:
    """Yield why hours are told to be hardly so."""
    known = (*sources.pace(answer), sources.single_twist(answer), _FEET)
    yield Reason("turns of the flyer", known, tuple(_flyer(answer)), "the fastest of these")
    yield spinning_hours(answer)
    yield Reason("all plies together", sources.pace(answer), tuple(_all_by_grams(answer)))
    if answer.hours.two_stories_h is not None:
        treadled = (*sources.treadled(answer), sources.single_twist(answer))
        each = tuple(by_treadles(answer))
        yield Reason("by treadling", treadled, (*each, *_all_treadled(each)), "all plies together")


def _all_by_grams(answer: Answer) -> Iterator[Working]:
    """Yield how long all grams take, where the plan says how long one does."""
    minutes = answer.plan.spinning.minutes_per_g
    if minutes is not None:
        spun_g = float(answer.layout.portions.mass_g.sum())
        yield Working(by.BY_GRAMS, {"spun_g": spun_g, "minutes_per_g": minutes})


def _all_treadled(each: tuple[Working, ...]) -> Iterator[Working]:
    """Yield how long plies take together that are all spun with as much twist."""
    if len({line.values["twist_tpm"] for line in each}) == 1 and len(each) > 1:
        length_m = sum(line.values["length_m"] for line in each)
        yield Working(each[0].equation, {**each[0].values, "length_m": length_m}, "all plies")


def _flyer(answer: Answer) -> Iterator[Working]:
    """Yield how fast the flyer turns by each way that a plan says it."""
    spinning, plying, yarn = answer.plan.spinning, answer.plan.plying, answer.resolved.yarn
    own = {"treadles_per_min": spinning.treadles_per_min, "drive_ratio": spinning.drive_ratio}
    plied = {key: getattr(plying, key) or mine for key, mine in own.items()}
    for values, of in ((own, "spinning"), (plied, "plying")):
        known = {key: value for key, value in values.items() if value is not None}
        if len(known) == len(values):
            yield Working(told_by.FLYER, known, of)
    if spinning.minutes_per_g is None or yarn.twist_tpm is None:
        return
    pace = {"minutes_per_g": spinning.minutes_per_g}
    each = dict.fromkeys(zip(yarn.strand_tex.tolist(), yarn.twist_tpm.tolist(), strict=True))
    for tex, tpm in each:
        values_by_g = {"linear_density_tex": tex, **pace, "twist_tpm": tpm}
        yield Working(told_by.FLYER_BY_GRAMS, values_by_g, "by your pace")


def balance_told(answer: Answer) -> Iterator[Reason]:
    """Yield why the ply twist is told to be out of balance."""
    yield Reason("ply twist", (sources.ply_twist(answer),))
    for words, reason in balance_whys(answer).rows.items():
        yield Reason(words, ply_twist_sources(answer), reason.workings, reason.method)


def uneven_told(answer: Answer) -> Iterator[Reason]:
    """Yield why one single is told to run out early."""
    bands, yarn_m = answer.spread, answer.layout.stretches.yarn_m
    if bands is None:
        return
    short = Working(by.SHORT, {"planned_m": yarn_m, "spun_m": bands.expected_m})
    known = (sources.evenness(answer), sources.masses(answer), sources.grist(answer))
    yield Reason("how much shorter", known, (*portion_strays(answer), short), _EARLY)
    yield Reason(
        "single left on each bobbin",
        known,
        (),
        "what each single has beyond the shortest, in the mean",
    )


def drift_told(answer: Answer) -> Iterator[Reason]:
    """Yield why stripes are told to be missed, and why something helps."""
    found = answer.drift_at_hand
    if found is None:
        return
    reasons = hands_reasons(answer, found)
    yield from (reasons[of] for of in ("stripes", "matched", "matched_planned"))
    if found.helps:
        helps = helps_whys(answer, found).heads
        yield from (helps[of] for of in ("won", "work"))


def air_told(answer: Answer) -> Iterator[Reason]:
    """Yield why lots that were weighed in other air would weigh something else."""
    yield from other_air_reasons(answer).values()


def gauge_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a fabric is told to be unusual."""
    knit = answer.piece
    if knit is None:
        return
    rows, yarn = fabric_whys(answer, knit).rows, answer.resolved.yarn
    yield Reason("stitches", (sources.gauge(answer),))
    yield rows["how tight, in numbers (tightness factor)"]
    yield Reason("what is usual", (_TIGHTNESS,))
    yield rows["yarn in a stitch"]
    wide_mm = diameter_mm(answer.layout.finished_tex, yarn.packed_density_g_per_cm3)
    thick = (sources.grist(answer), sources.packed_density(answer))
    yield Reason("where a stitch jams", thick, (Working(told_by.JAMS, {"diameter_mm": wide_mm}),))
    density = {"stitches_per_10cm": knit.gauge_stitches, "rows_per_10cm": knit.gauge_rows}
    yield Reason(
        "yarn in a stitch by the gauge", (sources.gauge(answer),), (Working(by.LOOP, density),)
    )
    yield Reason("rows for a stitch", (sources.gauge(answer),), (), _PLAIN)

"""A formula as one line, and what is put into it: as data, beside the function that reckons it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from yarncolor.measures import METRIC, Measure, Measures
from yarncolor.units import MM_PER_INCH

_WHOLE_FROM = 1000
_SHARE = "%"


@dataclass(frozen=True)
class Quantity:
    """What stands in a slot of a formula: what it is called, and its unit; % for a share."""

    words: str
    unit: str = ""


@dataclass(frozen=True)
class Equation:
    """A formula in one line.

    Parameters
    ----------
    of : callable
        What reckons it: it takes the slots of the text by name.
    text : str
        The line, with a slot in braces for each number that is put in.
    unit : str
        Of what comes out; % for a share.
    """

    of: Callable[..., float]
    text: str
    unit: str = ""


@dataclass(frozen=True)
class Working:
    """A formula with the numbers of one plan in it.

    Parameters
    ----------
    equation : Equation
        The formula.
    values : mapping of str to float
        What is put into each of its slots; a share from 0 to 1.
    of : str
        Of which of several it is told, as ply 2; empty for one alone.
    figure : str
        What is reckoned, where that is not the figure that is asked for but goes into it.
    """

    equation: Equation
    values: Mapping[str, float]
    of: str = ""
    figure: str = ""

    @property
    def result(self) -> float:
        """What comes out, as the function of the formula has it."""
        return float(self.equation.of(**self.values))

    def line(self, figure: str, measures: Measures = METRIC) -> str:
        """Return the formula with its numbers, and what comes out.

        Parameters
        ----------
        figure : str
            What is reckoned.
        measures : Measures
            What the plan is said in; formulas themselves are in metric units.
        """
        slots = {name: _slot(name, value) for name, value in self.values.items()}
        name = self.figure or figure
        called = f"{name}, {self.of}," if self.of else name
        result, unit = self.result, self.equation.unit
        also = _also(result, unit, measures)
        return f"{called} = {self.equation.text.format(**slots)} = {told(result, unit)}{also}"


def told(value: float, unit: str) -> str:
    """Return a number with its unit, to four figures.

    Parameters
    ----------
    value : float
        A share from 0 to 1 where the unit is %.
    unit : str
        Of the number.
    """
    if unit == _SHARE:
        return f"{value * 100:.4g}%"
    number = f"{value:.0f}" if abs(value) >= _WHOLE_FROM else f"{value:.4g}"
    return f"{number}{unit}" if unit == "°" else f"{number} {unit}".strip()


def _slot(name: str, value: float) -> str:
    quantity = QUANTITIES[name]
    return f"{quantity.words} {told(value, quantity.unit)}".strip()


_TURNS = Measure("turns to the inch", size=1000 / MM_PER_INCH)
"""Twist as spinners count it, whatever else they measure in."""


def _also(value: float, unit: str, measures: Measures) -> str:
    """Return the same in what the plan is said in, where that is another unit."""
    own: dict[str, Measure] = {
        "m": measures.length,
        "g": measures.mass,
        "mm": measures.thickness,
        "cm": measures.width,
        "m in 100 g": measures.grist,
        "turns in a metre": _TURNS,
        "g to the metre": Measure(
            f"{measures.mass.unit} to the {measures.length.name}",
            size=measures.mass.size / measures.length.size,
        ),
    }
    measure = own.get(unit)
    if measure is None or measure.unit == unit:
        return ""
    return f", {told(measure.of(value), measure.unit)}"


QUANTITIES = {
    "linear_density_tex": Quantity("", "tex"),
    "finished_tex": Quantity("washed yarn", "tex"),
    "width_mm": Quantity("thickness", "mm"),
    "singles_tex": Quantity("singles together", "tex"),
    "drawn_tex": Quantity("singles as they lie in the yarn", "tex"),
    "density_g_per_cm3": Quantity("density", "g/cm³"),
    "diameter_mm": Quantity("thickness", "mm"),
    "radius_mm": Quantity("radius of the ring of plies", "mm"),
    "twist_tpm": Quantity("twist of the single", "turns in a metre"),
    "ply_twist_tpm": Quantity("ply twist", "turns in a metre"),
    "plies": Quantity("plies"),
    "folds": Quantity("strands of one single"),
    "weight": Quantity("counts for", "%"),
    "value": Quantity("has"),
    "best": Quantity("best"),
    "worst": Quantity("worst"),
    "value_share": Quantity("has", "%"),
    "best_share": Quantity("best", "%"),
    "worst_share": Quantity("worst", "%"),
    "longest_m": Quantity("the longest", "m"),
    "shorter_m": Quantity("this one", "m"),
    "shows_m": Quantity("that shows it", "m"),
    "strand_m": Quantity("each strand", "m"),
    "kept_m": Quantity("that shows its planned lot, in the mean of the plies", "m"),
    "plied_m": Quantity("as plied", "m"),
    "washed_m": Quantity("washed", "m"),
    "turns": Quantity("turns"),
    "turn_m": Quantity("one turn", "m"),
    "gross_g": Quantity("yarn and bobbin", "g"),
    "so_far_m": Quantity("plied so far", "m"),
    "change_m": Quantity("the change lies at", "m"),
    "all_g": Quantity("in all", "g"),
    "lot_g": Quantity("in all portions", "g"),
    "share_of_lot": Quantity("the portion’s share", "%"),
    "steps": Quantity("whole steps"),
    "own_single_m": Quantity("single", "m"),
    "capacity_g": Quantity("what a bobbin holds", "g"),
    "angle_deg": Quantity("angle", "°"),
    "angle_before_deg": Quantity("angle of its fibres as spun", "°"),
    "angle_after_deg": Quantity("as plied", "°"),
    "angle_planned_deg": Quantity("angle as planned", "°"),
    "angle_got_deg": Quantity("angle with it", "°"),
    "contraction": Quantity("lost in plying", "%"),
    "contraction_planned": Quantity("lost as planned", "%"),
    "drawn_in": Quantity("single’s length over that planned"),
    "spin_loss": Quantity("lost in spinning", "%"),
    "card_loss": Quantity("lost in carding", "%"),
    "resting_shrinkage": Quantity("lost at rest", "%"),
    "finishing_shrinkage": Quantity("lost in the wash", "%"),
    "finishing_ratio": Quantity("left after rest and wash", "%"),
    "mass_g": Quantity("", "g"),
    "spun_g": Quantity("weighed out", "g"),
    "blends_g": Quantity("in blends", "g"),
    "tare_g": Quantity("empty bobbin", "g"),
    "growth": Quantity("stitches more in a row"),
    "there_g": Quantity("there is", "g"),
    "needed_g": Quantity("needed", "g"),
    "variation": Quantity("between portions", "%"),
    "variation_within": Quantity("along one", "%"),
    "left_along": Quantity("left over its length", "%"),
    "variation_bobbins": Quantity("between bobbins", "%"),
    "step_g": Quantity("the scale’s step", "g"),
    "planned_m": Quantity("as planned", "m"),
    "spun_m": Quantity("as spun", "m"),
    "such_spins": Quantity("such yarns"),
    "spins": Quantity("yarns"),
    "squares_m2": Quantity("squares of how far apart, added", "m²"),
    "there_are": Quantity("there are"),
    "named": Quantity("named"),
    "unsure_of_one": Quantity("the first"),
    "unsure_of_other": Quantity("the second"),
    "staple_cm": Quantity("a staple", "cm"),
    "taken_g": Quantity("rows take", "g"),
    "pairs": Quantity("pairs of plies in all yarns"),
    "inside_m2": Quantity("how two plies stray inside their portions, squared", "m²"),
    "early_m": Quantity("earliest", "m"),
    "late_m": Quantity("latest", "m"),
    "now_10_m": Quantity("apart after a tenth", "m"),
    "now_50_m": Quantity("half-way", "m"),
    "now_90_m": Quantity("near the end", "m"),
    "then_10_m": Quantity("with it after a tenth", "m"),
    "then_50_m": Quantity("half-way", "m"),
    "then_90_m": Quantity("near the end", "m"),
    "short_m": Quantity("short without it", "m"),
    "then_short_m": Quantity("short with it", "m"),
    "matched_m": Quantity("where all plies are alike", "m"),
    "single_m": Quantity("shortest single", "m"),
    "length_m": Quantity("length", "m"),
    "yarn_m": Quantity("yarn as plied", "m"),
    "start_m": Quantity("begins at", "m"),
    "needs_m": Quantity("washed yarn it takes", "m"),
    "has_m": Quantity("washed yarn", "m"),
    "needs_plied_m": Quantity("the piece takes, as plied", "m"),
    "used_g": Quantity("in all the yarn", "g"),
    "minutes_per_g": Quantity("", "minutes for a gram"),
    "treadles_per_min": Quantity("treadles a minute"),
    "drive_ratio": Quantity("turns for a treadle"),
    "spinning_h": Quantity("spinning", "h"),
    "plying_h": Quantity("plying", "h"),
    "bobbins_full": Quantity("full"),
    "bobbins_plying": Quantity("for plying"),
    "yd_per_lb": Quantity("", "yd/lb"),
    "part": Quantity("parts"),
    "parts": Quantity("parts in all"),
    "regain_before": Quantity("water as weighed out", "%"),
    "regain_after": Quantity("water then", "%"),
    "ks": Quantity("Munden’s constant"),
    "stitches_per_10cm": Quantity("stitches", "in 10 cm"),
    "rows_per_10cm": Quantity("rows", "in 10 cm"),
    "stitches": Quantity("stitches"),
    "rows": Quantity("rows"),
    "loop_cm": Quantity("yarn in a stitch", "cm"),
    "loop_length_cm": Quantity("yarn in a stitch", "cm"),
    "row_m": Quantity("a row", "m"),
    "edge_m": Quantity("edge of a stitch", "m"),
    "share_of_one": Quantity("", "%"),
    "share_of_other": Quantity("", "%"),
    "f_of_one": Quantity("f of the first"),
    "f_of_other": Quantity("f of the second"),
    "share": Quantity("", "%"),
    "f_of_lot": Quantity("f"),
    "f_of_batt": Quantity("f"),
    "m": Quantity("M"),
    "of_trials": Quantity("of trials"),
    "farthest": Quantity("of other reckonings"),
    "exhaustion": Quantity("what a bath takes", "%"),
    "baths_before": Quantity("baths before it"),
    "left": Quantity("dye left", "%"),
    "reflectance": Quantity("reflectance", "%"),
    "k_of_fibre": Quantity("K/S of the fibre"),
    "k_of_dyed": Quantity("of the first bath"),
    "k_of_bath": Quantity("K/S"),
    "bobbins_at_once": Quantity("needed at once"),
    "bobbins_there": Quantity("there are"),
    "end_m": Quantity("ends at", "m"),
    "run_m": Quantity("this run", "m"),
    "usual_m": Quantity("the middle one of its ply", "m"),
    "wanted_m": Quantity("yarn that is wanted", "m"),
    "least_lost": Quantity("the least lost", "%"),
    "most_lost": Quantity("the most", "%"),
    "found_g": Quantity("on the bobbin", "g"),
    "stated_g": Quantity("weighed out for it", "g"),
    "braid_m": Quantity("length of the braid", "m"),
    "strip_share": Quantity("the thinnest strip", "%"),
    "rolags": Quantity("rolags"),
    "largest": Quantity("the largest"),
    "smallest": Quantity("the smallest"),
    "reflects": Quantity("it reflects", "%"),
    "seen_light": Quantity("seen", "%"),
    "fitted_light": Quantity("by the slope of the light", "%"),
    "light_there": Quantity("light there, over that in the middle"),
    "gain": Quantity("gain"),
    "red": Quantity("red", "%"),
    "green": Quantity("green", "%"),
    "blue": Quantity("blue", "%"),
    "of_red": Quantity(""),
    "of_green": Quantity(""),
    "of_blue": Quantity(""),
    "of_red_green": Quantity(""),
    "of_green_blue": Quantity(""),
    "of_blue_red": Quantity(""),
    "light": Quantity("light", "%"),
    "apart": Quantity("differences added"),
    "looked_at": Quantity("pixels looked at"),
    "patches_apart": Quantity("differences added"),
    "patches": Quantity("patches"),
    "least": Quantity(""),
    "nearer": Quantity("the patches’"),
    "of_correction": Quantity("of the correction"),
    "of_reading": Quantity("of this box"),
    "darkest": Quantity("the darkest", "%"),
    "brightest": Quantity("the brightest", "%"),
}
"""What every slot of every formula is called."""

"""What a mass, a length or a yarn's grist is said in: metric units, or ounces, yards and inches.

Numbers come in as they are kept, by the unit in their name, and go out as a spinner of the plan
reads them. In grams and metres a number stays itself to the last bit.

References
----------
.. [1] International yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg.
.. [2] ISO 1144, Textiles. Universal system for designating linear density (Tex System).
"""

from dataclasses import dataclass
from fractions import Fraction

from yarncolor.plan import Plan
from yarncolor.plan.reference import default_of
from yarncolor.units import (
    GRAMS_PER_OUNCE,
    METRES_PER_YARD,
    MM_PER_INCH,
    Numbers,
    m_per_100g,
    yd_per_lb,
)

_MM_PER_10_CM, _INCHES = 100, 4
"""Stitches and rows are counted over so much."""

_WHOLE_FROM = 20
"""From so many on a length is said in whole ones."""

_EXACT, _OF_TARE = 1e-9, 3


@dataclass(frozen=True)
class Measure:
    """What one kind of quantity is said in.

    Parameters
    ----------
    unit : str
        As it stands behind a number.
    name : str
        One of it in a sentence: metre, ounce.
    size : float
        How much one of it is, in the unit of the names.
    finer : int
        Decimals more than in metric units.
    """

    unit: str
    name: str = ""
    size: float = 1.0
    finer: int = 0

    @property
    def plural(self) -> str:
        """Several of it in a sentence: metres, ounces, inches."""
        return f"{self.name}{'es' if self.name.endswith('ch') else 's'}"

    def of(self, value: Numbers) -> Numbers:
        """Return a value in this unit.

        Parameters
        ----------
        value : float or array
            In the unit of the names.
        """
        return value / self.size

    def number(self, value: float, decimals: int = 1) -> str:
        """Return a value in this unit, as a number.

        Parameters
        ----------
        value : float
            In the unit of the names.
        decimals : int
            That it has in metric units.
        """
        return f"{self.of(value):.{max(0, decimals + self.finer)}f}"

    def meant(self, number: str) -> float:
        """Return what a number in this unit means, in the unit of the names, to the last digit."""
        return float(Fraction(number) * Fraction(str(self.size)))

    def __call__(self, value: float, decimals: int = 1) -> str:
        """Return a value with its unit.

        Parameters
        ----------
        value : float
            In the unit of the names.
        decimals : int
            That it has in metric units.
        """
        return f"{self.number(value, decimals)} {self.unit}"

    def short(self, value: float) -> str:
        """Return a value that was asked for, in this unit: as short as it goes."""
        return f"{value if self.size == 1 else round(self.of(value), 2):g}"

    def given(self, value: float) -> str:
        """Return the same with its unit."""
        return f"{self.short(value)} {self.unit}"


@dataclass(frozen=True)
class Measures:
    """What everything that is measured is said in, wherever a plan is shown.

    Parameters
    ----------
    mass : Measure
        Of grams.
    length : Measure
        Of metres: yarn and single.
    short : Measure
        Of metres where they are few, as of a loop.
    far : Measure
        Of metres to who looks at it.
    width : Measure
        Of centimetres: a piece, a draft.
    thickness : Measure
        Of millimetres: a strand, a stitch, a coil.
    grist : Measure
        Of metres in 100 g.
    fineness : Measure
        Of metres in a gram.
    to_each : str
        The mass to which a single's metres are counted, in a sentence.
    gauge : Measure
        Of stitches or rows in 10 cm.
    pace : Measure
        Of minutes for a gram.
    finest : int
        Most decimals of a scale's step.
    """

    mass: Measure
    length: Measure
    short: Measure
    far: Measure
    width: Measure
    thickness: Measure
    grist: Measure
    fineness: Measure
    to_each: str
    gauge: Measure
    pace: Measure
    finest: int

    def long(self, length_m: float) -> str:
        """Return a length of yarn as a spinner would say it: whole from twenty on, else tenths."""
        length = self.length.of(length_m)
        if 0 < length < 1:
            return self.short(length_m)
        return self.length(length_m, 0 if length >= _WHOLE_FROM else 1)

    def yarn(self, linear_density_tex: float) -> str:
        """Return the grist of a yarn: metres in 100 g [2]_, or yards in a pound [1]_."""
        return self.grist(m_per_100g(linear_density_tex), 0)

    def single(self, linear_density_tex: float) -> str:
        """Return the grist of a single: metres to the gram, or yards to the pound."""
        fine = self.fineness.number(1000 / linear_density_tex)
        return f"{fine} {self.length.unit} {self.to_each}"

    def on_scale(self, mass_g: float, step_g: float) -> str:
        """Return a mass as a number with as many decimals as the scale shows.

        Parameters
        ----------
        mass_g : float
            To be shown.
        step_g : float
            What the scale tells apart.
        """
        return f"{self.mass.of(mass_g):.{self.decimals(step_g)}f}"

    def decimals(self, step_g: float) -> int:
        """Return how many decimals a scale shows: those of its step, three if that has more."""
        step = self.mass.of(step_g)
        told = range(self.finest + 1)
        return next((d for d in told if abs(round(step, d) - step) < _EXACT), 3)

    def step(self, step_g: float) -> str:
        """Return a step of a scale with its unit."""
        return f"{self.mass.of(step_g):.3g} {self.mass.unit}"

    def seen(self, mass_g: float, step_g: float) -> str:
        """Return a mass with its unit as the scale shows it, or that it is less than a step.

        Parameters
        ----------
        mass_g : float
            To be shown.
        step_g : float
            What the scale tells apart.
        """
        if mass_g > step_g / 2:
            return f"{self.on_scale(mass_g, step_g)} {self.mass.unit}"
        return f"less than {self.step(step_g)}"

    def hardly(self, mass_g: float) -> str:
        """Return a small mass with its unit, or that it is less than is told."""
        return self.seen(mass_g, self.least_g)

    @property
    def least_g(self) -> float:
        """The least that is told where no scale is spoken of: 0.1 g, or a hundredth of an ounce."""
        return self.mass.size * 10.0 ** -(1 + self.mass.finer)

    def gross(self, net: str, tare_g: float) -> str:
        """Return a weight as shown and an empty bobbin together, so that the three add up.

        Parameters
        ----------
        net : str
            As it is shown.
        tare_g : float
            Of the empty bobbin.
        """
        tare = self.tare(tare_g)
        decimals = max(len(text.partition(".")[2]) for text in (net, tare))
        return f"{float(net) + float(tare):.{decimals}f}"

    def tare(self, tare_g: float) -> str:
        """Return what an empty bobbin weighs, as a number: as given; of ounces thousandths."""
        tare = self.mass.of(tare_g)
        return f"{tare if self.mass.size == 1 else round(tare, _OF_TARE):.10g}"


METRIC = Measures(
    mass=Measure("g", "gram"),
    length=Measure("m", "metre"),
    short=Measure("m", "metre"),
    far=Measure("m", "metre"),
    width=Measure("cm", "centimetre"),
    thickness=Measure("mm", "millimetre"),
    grist=Measure("m in 100 g", "metres in 100 g"),
    fineness=Measure("m/g"),
    to_each="to the gram",
    gauge=Measure("in 10 cm"),
    pace=Measure("min/g", "minutes for a gram"),
    finest=3,
)

IMPERIAL = Measures(
    mass=Measure("oz", "ounce", GRAMS_PER_OUNCE, finer=1),
    length=Measure("yd", "yard", METRES_PER_YARD),
    short=Measure("in", "inch", MM_PER_INCH / 1000),
    far=Measure("ft", "foot", METRES_PER_YARD / 3, finer=1),
    width=Measure("in", "inch", MM_PER_INCH / 10, finer=1),
    thickness=Measure("in", "inch", MM_PER_INCH, finer=2),
    grist=Measure("yd/lb", "yards in a pound", size=m_per_100g(1) / yd_per_lb(1)),
    fineness=Measure("yd/lb", size=1000 / yd_per_lb(1), finer=-1),
    to_each="to the pound",
    gauge=Measure("in 4 inches", size=_MM_PER_10_CM / (_INCHES * MM_PER_INCH)),
    pace=Measure("min/oz", "minutes for an ounce", size=1 / GRAMS_PER_OUNCE, finer=-1),
    finest=4,
)

_BY_NAME = {"metric": METRIC, "imperial": IMPERIAL}


def measures_of(plan: Plan) -> Measures:
    """Return what a plan's masses and lengths are said in."""
    return _BY_NAME[plan.units or default_of("", "units")]

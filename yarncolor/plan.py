"""What a plan file says, as frozen dataclasses whose fields are the file's keys.

None stands for a key that was not given; `yarncolor.defaults` settles those.
"""

from dataclasses import dataclass, field, fields, is_dataclass

PerPly = float | tuple[float, ...]


WAYS_TO_A_COLOUR = ("colour", "lab", "blend", "bath")
SCHEME_NAMES = (
    *("matched", "staggered", "fractal", "flipped", "gradient", "stepped"),
    *("mirrored", "solid", "chain", "shuffled", "free"),
)
REVERSIBLE = ("matched", "staggered", "fractal")
STRANDS_OF_A_CHAIN = 3


@dataclass(frozen=True)
class Bath:
    """A later, paler bath of a dye: of which lot, which bath, and on which undyed fibre."""

    of: str
    number: int
    exhaustion: float
    undyed: str


@dataclass(frozen=True)
class Lot:
    """One colour of fibre: its name, mass and, in exactly one way, its colour.

    ``colour`` is CSS hex, ``lab`` CIELAB D65/2°, ``blend`` parts by mass of other lots that are
    carded together, ``bath`` a paler bath. ``is_step`` marks a blend that a gradient made.
    """

    name: str
    mass_g: float
    colour: str | None = None
    lab: tuple[float, float, float] | None = None
    blend: tuple[tuple[str, float], ...] | None = None
    bath: Bath | None = None
    rolags: float | None = None
    rolag_g: float | None = None
    reserve_g: float = 0.0
    preparation: str | None = None
    fibre: str = ""
    note: str = ""
    dye: str = ""
    mordant: str = ""
    bath_number: str = ""
    dyed_on: str = ""
    source: str = ""
    regain: float | None = None
    colour_unsure: float | None = None
    is_step: bool = False

    def __post_init__(self) -> None:
        if not 0 <= self.reserve_g <= self.mass_g < float("inf"):
            raise ValueError(f"{self.name}: a reserve lies between 0 and the mass, {self.mass_g} g")
        if sum(getattr(self, way) is not None for way in WAYS_TO_A_COLOUR) != 1:
            raise ValueError(f"{self.name}: give one of {', '.join(WAYS_TO_A_COLOUR)}")

    @property
    def made_from(self) -> tuple[str, ...]:
        """Names of the lots that this one's colour is made from."""
        if self.blend is not None:
            return tuple(name for name, _ in self.blend)
        return (self.bath.of, self.bath.undyed) if self.bath is not None else ()

    @property
    def made_of(self) -> str | None:
        """How the lot is made: step, blend or bath; None for one that is given by its colour."""
        if self.blend is not None:
            return "step" if self.is_step else "blend"
        return "bath" if self.bath is not None else None


@dataclass(frozen=True)
class FreePortion:
    """A portion that the user laid out: so many grams of a lot on a ply."""

    ply: int
    lot: str
    mass_g: float


@dataclass(frozen=True)
class Scheme:
    """Which scheme lays the lots out over the plies, and its options."""

    name: str | None = None
    plies: int | None = None
    divisions: tuple[int | tuple[float, ...], ...] | None = None
    reversed_plies: tuple[int, ...] = ()
    sequence: tuple[str, ...] | None = None
    parts: tuple[float, ...] | None = None
    closing: str | None = None
    stagger_places: float | None = None
    blend_steps: int | None = None
    solid_plies: tuple[int, ...] | None = None
    solid_lot: str | None = None
    random_seed: int | None = None
    pieces: int | None = None
    loop_m: float | None = None
    portions: tuple[FreePortion, ...] = ()


@dataclass(frozen=True)
class Sample:
    """A length of single that was measured and weighed."""

    length_m: float
    mass_g: float


@dataclass(frozen=True)
class WrappedSkein:
    """A yarn that was wrapped on a ruler: how a spinner's own wraps go with metres in 100 g."""

    wpi: float
    m_per_100g: float


@dataclass(frozen=True)
class Swatch:
    """A swatch that was weighed: stitches wide, rows high, without its ends."""

    stitches: int
    rows: int
    mass_g: float


@dataclass(frozen=True)
class Spinning:
    """How the singles are spun: how thick, in one way or in more that agree; twist, losses, pace.

    ``yarn_wpi`` and ``yarn_m_per_100g`` are those of the finished yarn.
    """

    single_tex: PerPly | None = None
    single_m_per_g: PerPly | None = None
    sample: Sample | None = None
    yarn_m_per_100g: float | None = None
    single_wpi: PerPly | None = None
    yarn_wpi: float | None = None
    wrapped_skein: WrappedSkein | None = None
    packed_density_g_per_cm3: float | None = None
    relaxed_density_g_per_cm3: float | None = None
    twist_tpm: PerPly | None = None
    twist_tpi: PerPly | None = None
    twist_angle_deg: PerPly | None = None
    twist_factor: PerPly | None = None
    direction: str | tuple[str, ...] | None = None
    card_loss: float | None = None
    spin_loss: float | None = None
    variation: float | None = None
    minutes_per_g: float | None = None
    treadles_per_min: float | None = None
    drive_ratio: float | None = None


@dataclass(frozen=True)
class Plying:
    """How the singles come together: windings before plying, strands, twist, length lost."""

    wound_off: int | tuple[int, ...] | None = None
    strands: int | tuple[int, ...] | None = None
    twist_tpm: float | None = None
    twist_tpi: float | None = None
    balance: str | None = None
    direction: str | None = None
    contraction_model: str | None = None
    contraction: float | None = None
    resting_shrinkage: float | None = None
    treadles_per_min: float | None = None
    drive_ratio: float | None = None


@dataclass(frozen=True)
class Scale:
    """What the scale can show, and how damp the fibre is when it is weighed out."""

    step_g: float | None = None
    regain: float | None = None


@dataclass(frozen=True)
class Bobbins:
    """Bobbins that fit the wheel, and those on the wheel used for plying."""

    count: int | None = None
    capacity_g: float | None = None
    tare_g: PerPly | None = None
    plying_count: int | None = None
    plying_capacity_g: float | None = None
    plying_tare_g: float | None = None


@dataclass(frozen=True)
class Fabric:
    """What is to be knitted, in plain stitch, and what washing does to the yarn's length."""

    kind: str | None = None
    stitches: int | None = None
    rows: int | None = None
    increases_per_row: float | None = None
    gauge_stitches: float | None = None
    gauge_rows: float | None = None
    swatch: Swatch | None = None
    finishing_shrinkage: float | None = None


@dataclass(frozen=True)
class Target:
    """So much yarn, as plied, instead of using everything; metres or grams."""

    yarn_m: float | None = None
    yarn_g: float | None = None


@dataclass(frozen=True)
class Plan:
    """A whole plan file."""

    lots: tuple[Lot, ...]
    title: str = ""
    purpose: str = ""
    scheme: Scheme = field(default_factory=Scheme)
    spinning: Spinning = field(default_factory=Spinning)
    plying: Plying = field(default_factory=Plying)
    scale: Scale = field(default_factory=Scale)
    bobbins: Bobbins = field(default_factory=Bobbins)
    fabric: Fabric = field(default_factory=Fabric)
    target: Target | None = None

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the lots, in file order."""
        return tuple(lot.name for lot in self.lots)


def to_data(table: object) -> dict:
    """Return a plan, or one of its tables, as the file would hold it: given keys alone."""
    data = {
        item.name: _plain(getattr(table, item.name))
        for item in fields(table)
        if getattr(table, item.name) not in (item.default, None, ()) or item.name == "name"
    }
    if isinstance(table, Lot) and table.rolags is not None:
        del data["mass_g"]
    if isinstance(table, Lot) and table.blend is not None:
        data["blend"] = dict(table.blend)
    return {key: value for key, value in data.items() if value not in ({}, None)}


def _plain(value: object) -> object:
    if is_dataclass(value):
        return to_data(value)
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value

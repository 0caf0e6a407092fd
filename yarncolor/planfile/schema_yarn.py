"""The tables of a plan file that make a yarn a body: spinning, plying, scale, bobbins, fabric."""

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, Field

from yarncolor.planfile.fields import (
    Loss,
    Regain,
    Table,
    a_number,
    a_share,
    a_whole,
    each_or_one,
    remedied,
)
from yarncolor.said import Choices, one_for_each, said
from yarncolor.yarn.balance import CRITERIA

FINEST_TEX, THICKEST_TEX = 1, 50_000


class SampleTable(Table):
    length_m: a_number("metres, 0.01 to 100,000", ge=0.01, le=1e5)
    mass_g: a_number("grams, 0.001 to 100,000", ge=0.001, le=1e5)


class WrappedSkeinTable(Table):
    wpi: a_number("wraps to the inch, 1 to 200", ge=1, le=200)
    m_per_100g: a_number("metres in 100 g, 2 to 100,000", ge=2, le=1e5)


class SwatchTable(Table):
    stitches: a_whole("stitches across, a whole number from 1 to 1,000", ge=1, le=1000)
    rows: a_whole("rows up, a whole number from 1 to 1,000", ge=1, le=1000)
    mass_g: a_number("grams, 0.001 to 10,000", ge=0.001, le=1e4)


def _table(model: type[BaseModel], remedy: str) -> Any:
    return Annotated[model, Field(description=f"give a table with {remedy}")]


def _per_ply(what: str, low: float, high: float) -> Any:
    remedy = f"give {what}: a number from {low:,g} to {high:,g}, or {{each}}"
    check = AfterValidator(each_or_one(low, high, (int, float)))
    return Annotated[Any, check, *remedied(said(remedy, each=one_for_each("ply")))]


def _whole_per_ply(what: str, low: int, high: int) -> Any:
    remedy = f"give {what}: a whole number from {low} to {high}, or {{each}}"
    check = AfterValidator(each_or_one(low, high, (int,)))
    return Annotated[Any, check, *remedied(said(remedy, each=one_for_each("ply")))]


def _direction_of_each(value: object) -> object:
    each = value if isinstance(value, list) else [value]
    if not each or any(item not in ("S", "Z") for item in each):
        raise ValueError
    return tuple(value) if isinstance(value, list) else value


Direction = Annotated[
    Literal["S", "Z"], Field(description='give "S" (anticlockwise) or "Z" (clockwise)')
]
_TREADLES = "treadles a minute, 1 to 1,000"
_RATIO = "turns of the flyer for one treadle, 0.1 to 100"


class SpinningTable(Table):
    single_tex: _per_ply("tex, which is grams in 1,000 m", FINEST_TEX, THICKEST_TEX) = None
    single_m_per_g: _per_ply("metres of single in a gram", 0.02, 1000) = None
    sample: _table(SampleTable, "length_m and mass_g of a length of single") = None
    yarn_m_per_100g: a_number(
        "metres in 100 g of the finished yarn, 1 to 100,000", ge=1, le=1e5
    ) = None
    single_wpi: _per_ply("wraps of the single to the inch", 1, 400) = None
    yarn_wpi: a_number("wraps of the finished yarn to the inch, 1 to 200", ge=1, le=200) = None
    wrapped_skein: _table(WrappedSkeinTable, "wpi and m_per_100g of a yarn you wrapped") = None
    packed_density_g_per_cm3: a_number(
        "g/cm³ in the twisted yarn, 0.05 to 1.3", ge=0.05, le=1.3
    ) = None
    relaxed_density_g_per_cm3: a_number(
        "g/cm³ as wrapped on a ruler, 0.02 to 1.3", ge=0.02, le=1.3
    ) = None
    twist_tpm: _per_ply("turns in a metre of single", 1, 5000) = None
    twist_tpi: _per_ply("turns in an inch of single", 0.03, 127) = None
    twist_angle_deg: _per_ply("degrees of the surface fibres from the axis", 0.1, 60) = None
    twist_factor: _per_ply("turns a metre times the root of the tex", 10, 20_000) = None
    direction: Annotated[
        Any,
        AfterValidator(_direction_of_each),
        *remedied(said('give "S" or "Z", or {each}', each=one_for_each("ply"))),
    ] = None
    card_loss: Loss = None
    spin_loss: Loss = None
    variation: a_share(0, 1) = None
    minutes_per_g: a_number("minutes, 0.001 to 1,000", ge=0.001, le=1000) = None
    treadles_per_min: a_number(_TREADLES, ge=1, le=1000) = None
    drive_ratio: a_number(_RATIO, ge=0.1, le=100) = None


class PlyingTable(Table):
    wound_off: _whole_per_ply("how often the single was wound off", 0, 9) = None
    strands: _whole_per_ply("how many strands of single lie side by side in a ply", 1, 12) = None
    twist_tpm: a_number("turns in a metre of yarn, 1 to 5,000", ge=1, le=5000) = None
    twist_tpi: a_number("turns in an inch of yarn, 0.03 to 127", ge=0.03, le=127) = None
    balance: Annotated[
        Literal[tuple(CRITERIA)],
        *remedied(said("give one of {known}", known=Choices("plying", "balance", tuple(CRITERIA)))),
    ] = None
    direction: Direction = None
    contraction_model: Annotated[
        Literal["untwisting", "helix", "none"],
        Field(description='give "untwisting", "helix" or "none"'),
    ] = None
    contraction: a_share(-0.2, 0.6) = None
    resting_shrinkage: a_share(-0.1, 0.5) = None
    treadles_per_min: a_number(_TREADLES, ge=1, le=1000) = None
    drive_ratio: a_number(_RATIO, ge=0.1, le=100) = None


class ScaleTable(Table):
    step_g: a_number("grams, 0.001 to 100", ge=0.001, le=100) = None
    regain: Regain = None


class BobbinsTable(Table):
    count: a_whole("how many bobbins fit the wheel, 1 to 100", ge=1, le=100) = None
    capacity_g: a_number("grams, 1 to 10,000", ge=1, le=1e4) = None
    tare_g: Annotated[
        Any,
        AfterValidator(each_or_one(0, 1e4, (int, float))),
        *remedied(
            said(
                "give grams of the empty bobbin, 0 to 10,000, or {each}",
                each=one_for_each("bobbin"),
            )
        ),
    ] = None
    plying_count: a_whole("how many fit the wheel used for plying, 1 to 100", ge=1, le=100) = None
    plying_capacity_g: a_number("grams, 1 to 10,000", ge=1, le=1e4) = None
    plying_tare_g: a_number("grams of the empty plying bobbin, 0 to 10,000", ge=0, le=1e4) = None


class FabricTable(Table):
    kind: Annotated[
        Literal["flat", "round", "triangle"],
        Field(description='give "flat", "round" or "triangle"'),
    ] = None
    stitches: a_whole("stitches cast on, a whole number from 1 to 10,000", ge=1, le=10_000) = None
    rows: a_whole("rows or rounds, a whole number from 1 to 100,000", ge=1, le=100_000) = None
    increases_per_row: a_number("stitches won in a row, 0.01 to 20", ge=0.01, le=20) = None
    gauge_stitches: a_number("stitches in 10 cm, 1 to 100", ge=1, le=100) = None
    gauge_rows: a_number("rows in 10 cm, 1 to 150", ge=1, le=150) = None
    swatch: _table(SwatchTable, "stitches, rows and mass_g of a weighed swatch") = None
    finishing_shrinkage: a_share(-0.1, 0.6) = None

"""What the phone is told so that it reads what is typed there as a bench does."""

from yarncolor.plan.key import Key
from yarncolor.plan.reference import KEYS
from yarncolor.report.yarn_as_dict import Json
from yarncolor.units import UNITS, Unit, names_of_unit, things_counted

_SAMPLE = KEYS["spun", "sample"].held
_TYPED = {
    **{key: KEYS["spun", key] for key in ("mass_g", "length_m", "gross_g")},
    "sample_m": _SAMPLE["length_m"],
    "sample_g": _SAMPLE["mass_g"],
    **{key: KEYS["plied", key] for key in ("so_far_m", "turn_m", "plying_tare_g", "at_m")},
}


def units_told() -> list[Json]:
    """Return every unit: how it is written, its size, and the powers of its base units."""
    return [_unit(each) for each in dict.fromkeys(UNITS.values())]


def _unit(unit: Unit) -> Json:
    names = next(names_of_unit(name) for name, each in UNITS.items() if each == unit)
    return {"names": names, "size": str(unit.size), "powers": dict(sorted(unit.powers))}


def typed_keys() -> Json:
    """Return for each key that is typed its least and its most, and what is counted in it."""
    return {name: _limits(key) for name, key in _TYPED.items()}


def _limits(key: Key) -> Json:
    words = f"{key.name} {key.words} {key.meaning}".lower()
    things = [thing for thing in sorted(things_counted()) if thing in words]
    return {"least": key.low, "most": key.high, "things": things}

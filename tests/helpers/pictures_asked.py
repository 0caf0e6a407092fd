"""Asking scenes and pictures what they show: which place, ply, metre and lot stands at a pixel."""

import numpy as np

import yarncolor as yc
from tests.helpers.strip_pictures import any_colours, stash
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS, Scene
from yarncolor.pictures.view import ViewSettings

PLAIN = Paint(mottle=0.0, staple_m=0.0)
AS_TABLE = ViewSettings(paint=PLAIN)
TWISTED = {
    "spinning": {"single_tex": 110.0, "twist_tpm": 300.0},
    "plying": {"twist_tpm": 180.0},
}
PURE = ("#ff0000", "#00ff00", "#0000ff")


def answered(lots: list[dict] | None = None, **tables: dict):
    """Return the answer to lots, else to eight of them; twisted where nothing else is said."""
    return yc.answer(yc.plan_from_data({"lots": lots or stash(), **TWISTED, **tables}))


def three_pure(masses=(30.0, 20.0, 10.0)) -> list[dict]:
    """Return three lots, each of one channel alone, so that a pixel's lot is its largest."""
    named = zip(("Rust", "Samphire", "Mussel"), PURE, masses, strict=True)
    return [{"name": name, "colour": colour, "mass_g": mass} for name, colour, mass in named]


def channel(pixels: np.ndarray) -> np.ndarray:
    """Return which of three pure lots each pixel shows, -1 where it shows none."""
    largest = pixels.argmax(axis=-1)
    alone = np.sort(pixels.astype(int), axis=-1)[..., 1] < 30
    return np.where(alone & (pixels.max(axis=-1) > 30), largest, -1)


def place_at(scene: Scene) -> np.ndarray:
    """Return the yarn's place at each pixel, -1 where there is no yarn."""
    return np.maximum(scene.index // LEVELS - len(FIXED_SRGB), -1)


def second_at(scene: Scene) -> np.ndarray:
    """Return the yarn's place that shares each edge pixel, -1 where what shares it is no yarn."""
    return np.maximum(scene.edges.index // LEVELS - len(FIXED_SRGB), -1)


def ply_at(scene: Scene) -> np.ndarray:
    """Return the ply at each pixel, -1 where there is no yarn."""
    place = place_at(scene)
    return np.where(place < 0, -1, scene.ply[place])


def metre_at(scene: Scene) -> np.ndarray:
    """Return the metre of yarn at each pixel; NaN where there is none."""
    place = place_at(scene)
    return np.where(place < 0, np.nan, scene.metre[place])


def lots_seen(found, scene: Scene) -> set[int]:
    """Return the lots that stand at any pixel of a scene, by the stretch table."""
    along, place = found.layout.stretches, np.unique(place_at(scene))
    place = place[place >= 0]
    metre, ply = scene.metre[place], scene.ply[place]
    there = ~np.isnan(metre)
    stretch = np.searchsorted(along.edges_m, metre[there], side="right") - 1
    return set(along.lot[stretch.clip(0, len(along.lot) - 1), ply[there]].tolist())


def surface_shares(found) -> np.ndarray:
    """Return the share of each lot in the length of all plies together."""
    along = found.layout.stretches
    long_m = np.diff(along.edges_m)
    total = np.zeros(len(found.plan.lots))
    for k in range(along.lot.shape[1]):
        np.add.at(total, along.lot[:, k], long_m)
    return total / total.sum()


def extremes() -> dict:
    """Return plans of extremes, by name: each a function that answers it."""
    near_white = stash(["Foam", "Chalk", "Gull"], ["#fefefe", "#ffffff", "#fbfbfd"])
    near_black = stash(["Mussel", "Wrack", "Night"], ["#000000", "#050507", "#0a0705"])
    hundred = stash([f"Lot number {at}" for at in range(100)], any_colours(100, 1))
    staggered = {"name": "staggered", "plies": 3}
    fine = {
        "spinning": {"single_tex": 1.0, "twist_tpm": 2000.0},
        "plying": {"twist_tpm": 1500.0},
    }
    thick = {
        "spinning": {"single_tex": 50_000.0, "twist_tpm": 12.0},
        "plying": {"twist_tpm": 6.0},
    }
    long = {
        "spinning": {"single_tex": 5.0, "twist_tpm": 900.0},
        "plying": {"twist_tpm": 600.0},
        "target": {"yarn_m": 5000.0},
    }
    tables = {
        "one lot": (stash(["Kelp"]), {}),
        "a hundred lots": (hundred, {"scheme": staggered}),
        "one ply": (None, {"scheme": {"plies": 1}, "plying": {}}),
        "six plies": (None, {"scheme": staggered | {"plies": 6}}),
        "twelve plies": (None, {"scheme": staggered | {"plies": 12}}),
        "chain": (None, {"scheme": {"name": "chain", "loop_m": 2.0}}),
        "five metres": (None, {"scheme": staggered, "target": {"yarn_m": 5.0}}),
        "five kilometres": (None, {"scheme": staggered, **long}),
        "near white": (near_white, {"scheme": staggered}),
        "near black": (near_black, {"scheme": staggered}),
        "no twist known": (None, {"scheme": staggered, "spinning": {}, "plying": {}}),
        "very fine": (None, {"scheme": staggered, **fine}),
        "very thick": (None, {"scheme": staggered, **thick}),
        "plied Z": (
            None,
            {"scheme": staggered, "spinning": {**TWISTED["spinning"], "direction": "S"}},
        ),
    }
    return {
        name: lambda lots=lots, more=more: answered(lots, **more)
        for name, (lots, more) in tables.items()
    }


def leaning(picture: np.ndarray) -> str:
    """Return S or Z by which way rows near the middle have to be pushed to match."""
    middle = picture.shape[0] // 2
    upper, lower = picture[middle - 1], picture[middle + 1]
    pushes = range(-9, 10)
    rms = [((np.roll(upper, push) - lower)[40:-40] ** 2).mean() for push in pushes]
    push = pushes[int(np.argmin(rms))]
    assert push != 0
    return "S" if push > 0 else "Z"

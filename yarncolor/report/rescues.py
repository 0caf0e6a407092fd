"""The rescues as files: numbers, and one picture."""

from typing import TYPE_CHECKING

from yarncolor.answers.answer import Answer
from yarncolor.answers.rescues import OnPly, RescuedYarn, as_answer
from yarncolor.phrases import title_of
from yarncolor.pictures.png import png_bytes
from yarncolor.pictures.rescues import READ_SO, ShownRescue, rescues_picture
from yarncolor.report.rescue_hands import hands_lines, rescue_words
from yarncolor.report.rescues_text import by_lot_g, worth_text
from yarncolor.report.yarn_as_dict import Json

if TYPE_CHECKING:
    from PIL import Image

RESCUES_PNG = "rescues.png"
_WIDTH_PX = 1100


def rescue_dict(answer: Answer, one: RescuedYarn) -> Json:
    """Return a rescue as plain data, as it stands in ``replan.json``.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        One of them.
    """
    names = answer.plan.names
    return {
        "kind": one.kind,
        "extra_m": one.extra_m,
        "plies": one.plies,
        "stretches": _stretches(one, names),
        "left_over": [_on_ply(part, names) for part in one.over],
        "needs_g": [
            {"lot": names[lot], "mass_g": mass_g} for lot, mass_g in by_lot_g(one.needs).items()
        ],
        "splices": len(one.rescue.joined),
        "same_colour_at_splice": one.rescue.same_at_splice,
        "linear_density_tex": one.yarn.yarn_tex if one.plies else None,
        "ply_twist_tpm": one.yarn.ply_twist_tpm if one.plies else None,
        "hands": list(hands_lines(answer, one)),
    }


def _stretches(one: RescuedYarn, names: tuple[str, ...]) -> list[Json]:
    if one.along is None:
        return []
    edges_m = one.along.edges_m.tolist()
    return [
        {"start_m": start_m, "end_m": end_m, "lots": [names[at] for at in lots]}
        for start_m, end_m, lots in zip(
            edges_m[:-1], edges_m[1:], one.along.lot.tolist(), strict=True
        )
    ]


def _on_ply(part: OnPly, names: tuple[str, ...]) -> Json:
    return {"ply": part.ply + 1, "lot": names[part.lot], "mass_g": part.mass_g}


def rescues_image(
    answer: Answer, yarns: tuple[RescuedYarn, ...], width_px: int = _WIDTH_PX
) -> "Image.Image | None":
    """Return every rescue beside the yarn that it goes on from; None where nothing can be plied.

    Parameters
    ----------
    answer : Answer
        To the plan.
    yarns : tuple of RescuedYarn
        What can still be made.
    width_px : int
        Of the picture.
    """
    shown = [
        ShownRescue(
            rescue_words(answer, one),
            worth_text(answer, one),
            as_answer(answer, one),
        )
        for one in yarns
        if one.plies
    ]
    return rescues_picture(answer, shown, width_px) if shown else None


def rescues_alt(answer: Answer, yarns: tuple[RescuedYarn, ...]) -> str:
    """Return the picture in words.

    Parameters
    ----------
    answer : Answer
        To the plan.
    yarns : tuple of RescuedYarn
        What can still be made.
    """
    each = [f"{rescue_words(answer, one)}: {worth_text(answer, one)}" for one in yarns if one.plies]
    return f"{'. '.join(each)}. {READ_SO.format(metre=answer.say.length.name)}"


def rescues_png(answer: Answer, yarns: tuple[RescuedYarn, ...]) -> bytes | None:
    """Return ``rescues.png``, with a title and a text alternative; None where nothing can be plied.

    Parameters
    ----------
    answer : Answer
        To the plan.
    yarns : tuple of RescuedYarn
        What can still be made.
    """
    image = rescues_image(answer, yarns)
    if image is None:
        return None
    return png_bytes(image, title_of(answer.plan), rescues_alt(answer, yarns))

"""At the wheel, as a notebook shows it: bobbins, where to stop and weigh, skeins, hours."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.bobbins import Bobbin
from yarncolor.answers.guessed_thickness import hours_hang, metres_hang
from yarncolor.phrases import hours_text, plied_words
from yarncolor.report.show.fragment import Fragment, sentences, table
from yarncolor.report.wheel_words import wheel_lines
from yarncolor.report.why.reason import NOT_ASKED
from yarncolor.report.why.wheel import bobbins_whys, hours_whys, points_whys, skeins_whys


def show_progress(answer: Answer) -> Fragment:
    """Return what is spun and what is next, bobbin by bobbin; that nothing is, where so."""
    return sentences(*(list(wheel_lines(answer)) or ["Nothing is spun yet."]))


def show_bobbins(answer: Answer, explained: bool = False) -> Fragment:
    """Return what each bobbin holds and weighs when full, and when it comes off.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    rows = [
        (
            f"{bobbin.number}",
            _held(answer, bobbin),
            answer.say.long(bobbin.end_m - bobbin.start_m),
            *_weights(answer, bobbin, bobbin.end_m),
            f"{bobbin.comes_off} of {bobbin.of}",
        )
        for bobbin in answer.bobbins
    ]
    head = ("bobbin", "holds", "single", "spun on it", "with the bobbin", "comes off")
    need = answer.bobbins_needed
    plying = f", {need.full} full and {need.plying} for plying" if need.full and need.plying else ""
    needed = f"bobbins needed at once: {need.full + need.plying}{plying}"
    whys = bobbins_whys(answer) if explained else NOT_ASKED
    return table(f"{needed}; in spinning order{metres_hang(answer)}", head, rows, whys)


def show_weigh_points(answer: Answer, explained: bool = False) -> Fragment:
    """Return where to stop and weigh on the way, and what each bobbin should weigh then.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    laid = answer.layout
    rows = [
        (
            f"{point.bobbin.number}",
            f"ply {point.bobbin.ply + 1}",
            f"{laid.row[point.portion] or ''}",
            answer.plan.names[laid.portions.lot[point.portion]],
            *_weights(answer, point.bobbin, point.at_m),
        )
        for point in answer.weigh_points
    ]
    head = ("bobbin", "of", "after row", "lot", "spun on it", "with the bobbin")
    return table("stop and weigh", head, rows, points_whys(answer) if explained else NOT_ASKED)


def _weights(answer: Answer, bobbin: Bobbin, at_m: float) -> tuple[str, str]:
    """Return grams on a bobbin at a place of its single, and with the bobbin if that is known."""
    unit = answer.say.mass.unit
    net = answer.say.on_scale(answer.on_bobbins.at_g(bobbin, at_m), answer.resolved.step_g)
    return (
        f"{net} {unit}",
        "" if bobbin.tare_g is None else f"{answer.say.gross(net, bobbin.tare_g)} {unit}",
    )


def show_skeins(answer: Answer, explained: bool = False) -> Fragment:
    """Return the skeins with the tags of their ends; knit from a far end into a near end.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    names, step, unit = answer.plan.names, answer.resolved.step_g, answer.say.mass.unit
    rows = [
        (
            f"{skein.number} of {skein.of}",
            f"{answer.say.length.number(skein.start_m)} to {answer.say.length(skein.end_m)}",
            f"{answer.say.on_scale(skein.mass_g, step)} {unit}",
            "" if skein.gross_g is None else f"{answer.say.on_scale(skein.gross_g, step)} {unit}",
            plied_words(names[lot] for lot in skein.near),
            plied_words(names[lot] for lot in skein.far),
        )
        for skein in answer.skeins
    ]
    head = (
        "skein",
        f"{answer.say.length.plural} of yarn",
        "weighs",
        "with the bobbin",
        "tag of the near end",
        "tag of the far end",
    )
    whys = skeins_whys(answer) if explained else NOT_ASKED
    return table(f"skeins, in plying order{metres_hang(answer)}", head, rows, whys)


def show_hours(answer: Answer, explained: bool = False) -> Fragment:
    """Return hours by portion's lot, by bobbin and for the job.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    takes, portions = answer.hours, answer.layout.portions
    if takes.portion_h is None:
        text = (
            "To see the hours, say how long you spin for a gram, or how fast you treadle and the "
            "ratio of your wheel."
        )
        return sentences(text)
    rows = []
    for ply in range(len(answer.resolved.tex)):
        own = portions.of_ply(ply)
        each = takes.portion_h[own]
        span = f"{hours_text(float(each.min()))} to {hours_text(float(each.max()))}"
        rows.append((f"ply {ply + 1}", f"{len(each)}", span, hours_text(float(each.sum()))))
    spinning_h, plying_h = float(takes.portion_h.sum()), takes.plying_h
    rows.append(("spinning in all", "", "", hours_text(spinning_h)))
    if plying_h is not None:
        rows.append(("plying", "", "", hours_text(plying_h)))
        rows.append(("the job", "", "", hours_text(spinning_h + plying_h)))
    head, whys = ("", "portions", "each portion", "time"), NOT_ASKED
    if explained:
        whys = hours_whys(answer)
    return table(f"hours at the wheel{hours_hang(answer)}", head, rows, whys)


def _held(answer: Answer, bobbin: Bobbin) -> str:
    several = answer.resolved.yarn.strands[bobbin.ply] > 1
    strand = f", strand {bobbin.strand + 1}" if several else ""
    return f"ply {bobbin.ply + 1}{strand}"

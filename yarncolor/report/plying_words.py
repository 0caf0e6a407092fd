"""At the plying wheel, in a spinner's words: where I am, what changes next, which single ended."""

from collections.abc import Iterator

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, if_single_is, metres_told
from yarncolor.answers.marl import ply_changes
from yarncolor.answers.where import Where, where
from yarncolor.layout.ended import Ended
from yarncolor.measures import Measures
from yarncolor.phrases import capital, join_words, plies_words
from yarncolor.said import Figure, Said, said

_SEEN_M = 0.05
"""Less than a tenth of a metre would be shown as none."""

_SAME = 0.001
"""A single that is found longer or shorter by less than this part is as reckoned."""


def where_text(answer: Answer) -> str:
    """Return how much is plied, what runs there, and what changes next; nothing where not said."""
    told = where_told(answer)
    return "" if told is None else str(told)


def where_told(answer: Answer) -> Said | None:
    """Return the same, its numbers as figures; None where nothing is said of plying."""
    place, names = where(answer), answer.plan.names
    if place is None:
        return None
    return said(
        "Plied so far: {so_far}, {runs} running; {to_come}.{then}",
        so_far=Figure(answer.say.length(place.yarn_m), "so_far"),
        runs=join_words(list(dict.fromkeys(names[lot] for lot in place.lots))),
        to_come=_to_come(answer, place),
        then=_then(answer, place),
    )


def _to_come(answer: Answer, place: Where) -> Said | str:
    if place.left_m < _SEEN_M:
        return "that is the end of the yarn"
    return said("{left} to come", left=Figure(metres_told(answer, place.left_m), "to_come"))


def _then(answer: Answer, place: Where) -> Said | str:
    change, names = place.next_change, answer.plan.names
    if change is None:
        return ""
    return said(
        " In {about}{far} {ply} changes from {before} to {after}.",
        about=about(answer),
        far=Figure(answer.say.length(change.yarn_m - place.yarn_m), "next"),
        ply=plies_words([change.ply]),
        before=names[change.before],
        after=names[change.after],
    )


def hangs_text(answer: Answer) -> str:
    """Return on what metres to come hang; nothing where on nothing."""
    hangs_on = if_single_is(answer)
    return f"{capital(answer.say.length.plural)} to come are right {hangs_on}." if hangs_on else ""


def skein_text(answer: Answer) -> str:
    """Return which skein it is, where there are several; nothing else."""
    told = skein_told(answer)
    return "" if told is None else str(told)


def skein_told(answer: Answer) -> Said | None:
    """Return the same, its numbers as figures; None where there is one skein."""
    place, count = where(answer), len(answer.skeins)
    if place is None or count < 2:
        return None
    end_m = answer.skeins[place.skein - 1].end_m
    return said(
        "This is skein {skein}; it ends at {about}{end}.",
        skein=Figure(f"{place.skein} of {count}", "skein"),
        about=about(answer),
        end=Figure(answer.say.length(end_m), "skein"),
    )


def next_changes(answer: Answer, most: int) -> list[str]:
    """Return the next places where a ply changes colour, each with its turn where that is known.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    most : int
        How many.
    """
    return [*map(str, changes_told(answer, most))]


def changes_told(answer: Answer, most: int) -> list[Said]:
    """Return the same, their numbers as figures.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    most : int
        How many.
    """
    place, plied, names = where(answer), answer.plan.plied, answer.plan.names
    from_m = place.yarn_m if place else 0.0
    turn_m = plied.turn_m if plied else None
    coming = [one for one in ply_changes(answer) if one.yarn_m > from_m][:most]
    return [
        said(
            f"at {{metres}}{', {turn}' if turn_m else ''}: {{ply}} from {{before}} to {{after}}",
            metres=Figure(answer.say.length(one.yarn_m), "changes"),
            turn=Figure(f"turn {one.yarn_m / turn_m:.0f}", "changes") if turn_m else "",
            ply=plies_words([one.ply]),
            before=names[one.before],
            after=names[one.after],
        )
        for one in coming
    ]


def ended_lines(answer: Answer) -> Iterator[str]:
    """Yield where a single ended and what that says; nothing where none did."""
    ended, words = answer.layout.ended, ended_words(answer.say)
    if ended is None:
        return
    yield words["ran_out"].format(
        ply=f"Ply {ended.ply + 1}",
        metres=answer.say.long(ended.at_m),
        tells=_tells(answer, ended, words),
    )
    if ended.also:
        also = words["also_were" if len(ended.also) > 1 else "also_was"]
        yield also.format(plies=capital(plies_words(ended.also)))


def _tells(answer: Answer, ended: Ended, words: dict[str, str]) -> str:
    if ended.tells_contraction:
        share = answer.resolved.contraction
        return words["lost" if share > 0 else "won"].format(share=f"{abs(share):.1%}")
    ratio = ended.single_m / ended.reckoned_m
    if abs(ratio - 1) < _SAME:
        return words["as_reckoned"]
    told = words["longer" if ratio > 1 else "shorter"]
    say = answer.say
    return told.format(was=say.long(ended.single_m), not_=say.long(ended.reckoned_m))


_UNMEASURED = (
    "So its single was {was}, not {not_}: what was not measured of it is reckoned "
    "%s, with the same {grams}."
)
_ALSO = (
    "{plies} %s reckoned shorter than that, and cannot be: what lies there is reckoned longer "
    "with the same {grams}."
)
_LOST = "All of it was measured, so {share} of the length is %s in plying."
_ENDED: dict[str, str] = {
    "ran_out": "{ply} ran out after {metres} of yarn. {tells}",
    "as_reckoned": "That is as reckoned.",
    "longer": _UNMEASURED % "longer",
    "shorter": _UNMEASURED % "shorter",
    "lost": _LOST % "lost",
    "won": _LOST % "won",
    "also_was": _ALSO % "was",
    "also_were": _ALSO % "were",
}


def ended_words(say: Measures) -> dict[str, str]:
    """Return what the end of a single tells, with slots; the phone fills in the same."""
    return {key: text.replace("{grams}", say.mass.plural) for key, text in _ENDED.items()}

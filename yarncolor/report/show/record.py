"""What a notebook shows of yarns that were made: measures, dye notes, advice, one picture."""

from collections.abc import Sequence

from yarncolor.pictures.yarns_made import yarn_made, yarns_made
from yarncolor.report.record.page import notes_head, shown_alike, yarn_alt, yarns_alt
from yarncolor.report.record.words import (
    NOT_KNOWN,
    SEVERAL_HEAD,
    guessed_text,
    measure_rows,
    several_row,
    spun_text,
    units_text,
    verdict_text,
)
from yarncolor.report.record.yarns import Yarn, said_alike
from yarncolor.report.show.fragment import (
    Fragment,
    Picture,
    below,
    sentences,
    small_picture,
    table,
    with_why,
)
from yarncolor.report.why.made import made_seen, made_whys
from yarncolor.report.why.reason import NOT_ASKED

_SHOWN_PX = 1000


def show_measures(yarn: Yarn, explained: bool = False) -> Fragment:
    """Return planned, spun and made beside each other, differences with their signs.

    Parameters
    ----------
    yarn : Yarn
        Planned, spun and measured.
    explained : bool
        Whether figures answer why.
    """
    head, *rows = measure_rows(yarn.record, yarn.say)
    told = sentences(*filter(None, (spun_text(yarn.record), guessed_text(yarn.record))))
    whys = NOT_ASKED
    if explained:
        whys = made_whys(yarn.answer)
        told = with_why(told, made_seen(yarn), "planned lengths", whys.measures)
    return below(table(f"{yarn.name}: planned, spun and made", head, rows, whys), told)


def show_notes(yarn: Yarn) -> Fragment:
    """Return what is written down of how each lot was dyed."""
    head = notes_head(yarn)
    rows = [
        (lot.name, *(getattr(lot, key) or NOT_KNOWN for key, _ in head)) for lot in yarn.record.lots
    ]
    return table("dye notes", ("lot", *(words for _, words in head)), rows)


def show_advice(yarn: Yarn) -> Fragment:
    """Return what the advice had said, and whether it came true."""
    rows = [(one.text, verdict_text(one, yarn.say)) for one in yarn.record.advice]
    if not rows:
        return sentences("The advice had nothing to say.")
    return table("what the advice had said", ("it said", "and so it was"), rows)


def show_yarns(yarns: Sequence[Yarn]) -> Fragment:
    """Return several yarns in one table."""
    rows = [several_row(yarn.record, yarn.say) for yarn in said_alike(yarns)]
    shown, told = table("yarns", SEVERAL_HEAD, rows), units_text(yarns)
    return below(shown, sentences(told)) if told else shown


def show_yarn(yarn: Yarn) -> Picture:
    """Return a yarn as planned, as spun and as it came out, on one scale."""
    return small_picture(yarn_made(yarn.answer, _SHOWN_PX), yarn_alt(yarn))


def show_side_by_side(yarns: Sequence[Yarn]) -> Picture:
    """Return several yarns under each other on one scale."""
    return small_picture(yarns_made(shown_alike(yarns), _SHOWN_PX), yarns_alt(yarns))

"""What a notebook shows of the rescues: what ran out, a table, one picture."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.rescues import rescued_yarns
from yarncolor.report.rescue_hands import hands_lines, rescue_words
from yarncolor.report.rescue_phrases import CAUTIONS
from yarncolor.report.rescues import rescues_alt, rescues_image
from yarncolor.report.rescues_text import stands_text, worth_text
from yarncolor.report.show.fragment import Fragment, Picture, below, sentences, small_picture, table

_SHOWN_PX = 1000


def show_rescues(answer: Answer) -> Fragment:
    """Return what runs out first, and every yarn that can still be made of what is left."""
    yarns = rescued_yarns(answer)
    stands = stands_text(answer, yarns)
    if not yarns:
        return sentences(stands)
    rows = [
        (rescue_words(answer, one), worth_text(answer, one), *hands_lines(answer, one))
        for one in yarns
    ]
    head = ("what to do", "what comes of it", "first", "then", "and")
    return below(sentences(stands, CAUTIONS), table("what can still be made", head, rows))


def show_rescued_yarns(answer: Answer) -> Fragment | Picture:
    """Return every yarn that can still be made beside the one it goes on from, on one scale."""
    yarns = rescued_yarns(answer)
    image = rescues_image(answer, yarns, _SHOWN_PX)
    if image is None:
        return sentences(stands_text(answer, yarns))
    return small_picture(image, rescues_alt(answer, yarns))

"""The card: what to do at the wheel, printed, for hands full of fluff and no screen.

What is computed here is words and order, in `facts`; what stands where on the paper is the
templates', one for each page. There a line may end behind a block, or within an expression:
neither shows.
"""

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from yarncolor import cautions
from yarncolor.answers.answer import Answer
from yarncolor.phrases import title_of
from yarncolor.plan import Plan
from yarncolor.report.card.facts import card_facts
from yarncolor.report.card.forms import SHORT, check_form
from yarncolor.report.one_file import templates

if TYPE_CHECKING:
    from jinja2 import Template

_TEMPLATE = "card.html.j2"
_NOT_IN_FILE_NAMES = re.compile(r'[\x00-\x1f\x7f<>:"/\\|?*]+')
_LONGEST_FILE_NAME = 80


def card_html(answer: Answer, form: str = SHORT) -> bytes:
    """Return ``card.html``: one page to print, whole in itself, without script or network.

    Every text of the plan file is escaped.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    form : str
        short: what is done at the wheel, bobbins side by side, two pages for a dozen rows on
        each; long: the stash, a page or more for each bobbin, plying, finishing, a page to keep.

    Raises
    ------
    PlanError
        For a form that there is not.
    """
    check_form(form)
    return _template().render(card_facts(answer, form)).encode()


def card_name(plan: Plan) -> str:
    """Return what the card of a plan is called where it lies among other files.

    Parameters
    ----------
    plan : Plan
        Whose title it bears; what no file's name may hold is a blank there.
    """
    plain = _NOT_IN_FILE_NAMES.sub(" ", title_of(plan))[:_LONGEST_FILE_NAME]
    return f"{' '.join(plain.split()).strip('. ')} card.html".strip()


@lru_cache(maxsize=1)
def _template() -> "Template":
    house = templates("yarncolor.report.card")
    house.globals["cautions"] = cautions
    return house.get_template(_TEMPLATE)

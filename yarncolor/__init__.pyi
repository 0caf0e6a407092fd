from . import bench, colour, draw, orders, photo, record, show, wheel, yarn
from .answers.answer import answer, seen_as
from .editing.variants import for_the_piece, miniature, variant
from .errors import PlanError
from .planfile.read import plan_from_data, read_plan
from .planfile.save import save_plan
from .report.advice import advice_on
from .report.as_dict import to_dict
from .report.exports import write_answer
from .report.summary import summary_text

__all__ = [
    "PlanError",
    "advice_on",
    "answer",
    "bench",
    "colour",
    "draw",
    "for_the_piece",
    "miniature",
    "orders",
    "photo",
    "plan_from_data",
    "read_plan",
    "record",
    "save_plan",
    "seen_as",
    "show",
    "summary_text",
    "to_dict",
    "variant",
    "wheel",
    "write_answer",
    "yarn",
]

__version__: str

"""The command line: ``python -m yarncolor plan FILE --out DIR``."""

import argparse
import sys
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from yarncolor import __version__
from yarncolor.errors import fail, on_one_line
from yarncolor.report.card.forms import CARD_FORMS, SHORT
from yarncolor.report.command_end import Parser, ended

if TYPE_CHECKING:
    from yarncolor.plan import Plan


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status, as `command_end` has them.

    All is written before the summary is printed; whoever stops reading it loses nothing.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    given = _parser().parse_args(arguments)
    return ended(given.run, given)


def _plan(given: argparse.Namespace) -> int:
    from yarncolor.answers.answer import answer
    from yarncolor.planfile.read import read_plan
    from yarncolor.report.exports import NotAllMadeError, write_answer
    from yarncolor.report.show.why import why_text
    from yarncolor.report.summary import summary_text

    plan, keep = read_plan(given.file), None
    if given.wheel or given.save:
        plan, keep = _with_wheel(plan, given)
    found = answer(plan)
    summary = summary_text(found)
    if given.why:
        summary = f"{summary}\n{why_text(found)}\n"
    not_made = None
    try:
        written = write_answer(found, Path(given.out), card=given.card)
    except NotAllMadeError as error:
        written, not_made = error.written, error
    print(summary)
    _say_written(given.out, written)
    if keep is not None:
        print(keep(), flush=True)
    if not_made is not None:
        raise not_made
    return 0


def _share(given: argparse.Namespace) -> int:
    from yarncolor.answers.answer import answer
    from yarncolor.planfile.read import read_plan
    from yarncolor.report.exports import SHARED, NotAllMadeError, write_answer

    found = answer(read_plan(given.file))
    try:
        _say_written(given.out, write_answer(found, given.out, SHARED))
    except NotAllMadeError as error:
        _say_written(given.out, error.written)
        raise
    return 0


def _replan(given: argparse.Namespace) -> int:
    from yarncolor.report.replan_command import replan_files, replanned

    found, choice = replanned(given.file, given.take, given.save)
    told, written = replan_files(found, choice, given.out, given.file, given.save)
    print(told)
    _say_written(given.out, written)
    return 0


def _orders(given: argparse.Namespace) -> int:
    from yarncolor.report.orders_command import best_orders, orders_files

    found, chosen = best_orders(given.file, given.take, given.save)
    told, written = orders_files(found, chosen, given.out, given.file, given.save)
    print(told)
    _say_written(given.out, written)
    return 0


def _record(given: argparse.Namespace) -> int:
    from yarncolor.report.record.command import record_files

    told, written = record_files(given.files, given.out)
    print(told)
    _say_written(given.out, written)
    return 0


def _hand(given: argparse.Namespace) -> int:
    from yarncolor.report.record.hand import hand_file

    print(hand_file(given.files, given.out), flush=True)
    return 0


def _bench(given: argparse.Namespace) -> int:
    from yarncolor.widgets.page_server import serve_bench

    say = partial(print, flush=True)
    serve_bench(given.file, given.out, say, port=given.port, opens=given.opens)
    return 0


def _notebooks(given: argparse.Namespace) -> int:
    from yarncolor.samples import copied_words

    print(copied_words(given.folder), flush=True)
    return 0


def _with_wheel(plan: "Plan", given: argparse.Namespace) -> "tuple[Plan, Callable[[], str]]":
    """Return a plan with what its phone took home, and what saves it and says so."""
    from yarncolor.planfile.save import merged_text, save_new
    from yarncolor.planfile.taken_home import brought_home
    from yarncolor.planfile.toml_text import read_text
    from yarncolor.planfile.versions import save_over
    from yarncolor.report.phone.brought import brought_lines

    if not (given.wheel and given.save):
        fail("--wheel and --save", "go together: what was taken home, and where it is kept")
    path = Path(given.save)
    if path.exists() and not path.samefile(given.file):
        fail(given.save, "there is a file of that name already; choose another")
    before = read_text(given.file)
    found = brought_home(read_text(given.wheel), plan, given.wheel)
    text = merged_text(before, found.plan, given.file)
    write = save_over if path.exists() else save_new
    return found.plan, partial(_saved, partial(write, path, text), tuple(brought_lines(found)))


def _saved(write: Callable[[], Path], lines: tuple[str, ...]) -> str:
    path = write()
    return "\n".join([*lines, f"Saved as {on_one_line(str(path))}"])


def _say_written(out: str, written: Sequence[Path]) -> None:
    names = on_one_line(", ".join(path.name for path in written))
    print(f"Written to {on_one_line(out)}: {names}", flush=True)


def _parser() -> argparse.ArgumentParser:
    parser = Parser(
        prog="yarncolor",
        description="The planning bench of a handspinner who dyes their own fibre.",
    )
    parser.add_argument("--version", action="version", version=f"yarncolor {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    plan = commands.add_parser("plan", help="the plan, its pictures and its tables")
    plan.add_argument(
        "--card",
        choices=CARD_FORMS,
        default=SHORT,
        help=f"the card to print: {'; or '.join(CARD_FORMS.values())}",
    )
    plan.add_argument("--wheel", metavar="TEXT", help="what the phone took home, brought in first")
    plan.add_argument("--why", action="store_true", help="of each figure where it comes from")
    plan.add_argument("--save", metavar="NEWFILE", help="the plan with it, as a plan file")
    plan.set_defaults(run=_plan)
    share = commands.add_parser("share", help="a sheet to show to others, to post or to print")
    share.set_defaults(run=_share)
    replan = commands.add_parser("replan", help="how to go on from what lies on the bobbins")
    replan.add_argument("--take", metavar="NAME", help="make the plan of one of these choices")
    replan.add_argument("--save", metavar="FILE", help="where that plan goes")
    replan.set_defaults(run=_replan)
    orders = commands.add_parser("orders", help="the best order of the lots, of all or of many")
    orders.add_argument("--take", metavar="N", help="make the plan of one of the best, from 1")
    orders.add_argument("--save", metavar="FILE", help="where that plan goes")
    orders.set_defaults(run=_orders)
    record = commands.add_parser("record", help="what came out: a page for each yarn, and numbers")
    record.add_argument("files", metavar="FILE", nargs="*", help="plan files (TOML), one or more")
    record.set_defaults(run=_record)
    hand = commands.add_parser("hand", help="what yarns that were made say of your own hands")
    hand.add_argument("files", metavar="FILE", nargs="*", help="plan files (TOML), one or more")
    hand.add_argument("--out", metavar="HAND", required=True, help="the file to write, hand.toml")
    hand.set_defaults(run=_hand)
    bench = commands.add_parser("bench", help="the whole bench as a page in your browser")
    bench.add_argument("file", metavar="FILE", nargs="?", help="a plan file; without, a page asks")
    bench.add_argument("--out", metavar="DIR", default="out", help="folder for what is written")
    bench.add_argument("--port", metavar="NUMBER", type=int, help="where the page is served")
    bench.add_argument(
        "--no-browser", dest="opens", action="store_false", help="serve it, and open nothing"
    )
    bench.set_defaults(run=_bench)
    notebooks = commands.add_parser("notebooks", help="copies of the notebooks, and their plans")
    notebooks.add_argument("folder", metavar="DIR", help="folder to write them into")
    notebooks.set_defaults(run=_notebooks)
    for command in (plan, share, replan, orders):
        command.add_argument("file", metavar="FILE", help="a plan file (TOML)")
    for command in (plan, share, replan, orders, record):
        command.add_argument("--out", metavar="DIR", required=True, help="folder to write into")
    return parser


if __name__ == "__main__":
    sys.exit(main())

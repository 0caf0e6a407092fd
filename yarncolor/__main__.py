"""The command line: ``python -m yarncolor plan FILE --out DIR``."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from yarncolor import __version__
from yarncolor.errors import PlanError
from yarncolor.report.card.forms import CARD_FORMS, SHORT


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status: 0, or 2 where the input is at fault.

    All is written before the summary is printed; whoever stops reading it loses nothing.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    given = _parser().parse_args(arguments)
    try:
        return _plan(given.file, given.out, given.card)
    except PlanError as error:
        print(error, file=sys.stderr)
        return 2
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def _plan(file: str, out: str, card: str) -> int:
    from yarncolor.answers.answer import answer
    from yarncolor.planfile.read import read_plan
    from yarncolor.report.exports import write_answer
    from yarncolor.report.summary import summary_text

    found = answer(read_plan(file))
    summary = summary_text(found)
    written = write_answer(found, Path(out), card=card)
    print(summary)
    print(f"Written to {out}: {', '.join(path.name for path in written)}", flush=True)
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="yarncolor",
        description="The planning bench of a handspinner who dyes their own fibre.",
    )
    parser.add_argument("--version", action="version", version=f"yarncolor {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    plan = commands.add_parser("plan", help="the plan, its pictures and its tables")
    plan.add_argument("file", metavar="FILE", help="a plan file (TOML)")
    plan.add_argument("--out", metavar="DIR", required=True, help="folder to write into")
    plan.add_argument(
        "--card",
        choices=CARD_FORMS,
        default=SHORT,
        help=f"the card to print: {'; or '.join(CARD_FORMS.values())}",
    )
    return parser


if __name__ == "__main__":
    sys.exit(main())

"""The text that a phone takes home, written apart from it, and its spoiling on the way."""

import json
from zlib import crc32

import yarncolor as yc
from yarncolor.report.phone.facts import facts


def summed(text: str) -> str:
    return f"{crc32(text.encode()):08x}"


def text_of(data: dict, *tables: str, known: str = "none") -> str:
    """Return what a phone would take home of a plan: tables as TOML, each with its head first."""
    told = facts(yc.answer(yc.plan_from_data(data)))
    title = json.dumps(told["title"], ensure_ascii=False)
    count = len(tables)
    head = [
        f"# Taken home from the wheel: {title}",
        f"# tables: {count}, rows: {told['rows_mark']}, known: {known}",
    ]
    inside = ["\n".join(head)]
    for number, table in enumerate(tables, 1):
        first, *rest = table.strip().split("\n")
        marked = f"{first} # {number} of {count}, {summed(table.strip())}"
        inside.append("\n".join([marked, *rest]))
    whole = "\n\n".join(inside)
    return f"{whole}\n\n# The end, tables: {count}, sum: {summed(whole)}\n"


def spun(ply: int, *lines: str) -> str:
    return "\n".join(["[[spun]]", f"ply = {ply}", *lines])

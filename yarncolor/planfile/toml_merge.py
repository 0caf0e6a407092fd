"""Changed tables into a TOML text: only what changed is touched, comments and layout stay."""

from collections.abc import Iterable, Iterator
from typing import Any

from yarncolor.plan import Plan
from yarncolor.plan.key import keys_of
from yarncolor.plan.reference import IN_ORDER

Data = dict[str, Any]
"""A table as the file has it."""

_HEAD = tuple(keys_of(Plan))
_FIRST_KEYS = ("name", "colour", "lab")


def merged_tables(text: str, old: Data, wanted: Data) -> str | None:
    """Return a TOML text that says what is wanted; None where it cannot be changed in place.

    Parameters
    ----------
    text : str
        With line ends of one character, no byte order mark.
    old : dict
        What it says.
    wanted : dict
        What it is to say.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text if text.endswith("\n") else text + "\n" * bool(text))
        leads = _Leads(document)
        _merge_entries(document, old, wanted, _HEAD, leads)
        if not any(key in old for key in _HEAD):
            leads.part_from_head(document)
        _merge_rows(document, "lots", old.get("lots", []), wanted.get("lots", []), leads)
        _merge_entries(document, old, wanted, IN_ORDER, leads)
        leads.put_back(document)
        return tomlkit.dumps(document)
    except (TOMLKitError, LookupError, TypeError, ValueError, RecursionError):
        return None


class _Leads:
    """What stands before each table's header: from the first blank line on, comments and all.

    tomlkit keeps it at the end of the table before, where a new key would land behind it.
    While a document is being changed each table's lead is kept here.
    """

    def __init__(self, document: Any) -> None:
        tables = list(_headed(document))
        bodies = [document.body, *(table.value.body for table in tables)]
        self._of = {
            id(table): (table, _taken_lead(body))
            for body, table in zip(bodies, tables, strict=False)
        }

    def set(self, table: Any, lead: str = "\n") -> None:
        """Let a table follow upon this; by default a blank line."""
        self._of[id(table)] = (table, lead)

    def put_first(self, new: Any, old: Any) -> None:
        """Leave what stands before a list of tables where it is when another becomes first."""
        _, section = self._of.get(id(old), (old, ""))
        _, own = self._of.get(id(new), (new, ""))
        self.set(new, section + own.lstrip("\n"))
        self.set(old)

    def part_from_head(self, document: Any) -> None:
        """Put a blank line between the keys of the head and the first table."""
        first = next(_headed(document), None)
        if any(key in document for key in _HEAD) and id(first) in self._of:
            self.set(first, "\n" + self._of[id(first)][1].lstrip("\n"))

    def put_back(self, document: Any) -> None:
        """Put each lead before the header of its table."""
        for table in _headed(document):
            if id(table) in self._of:
                indent = table.trivia.indent.lstrip("\n")
                table.trivia.indent = self._of[id(table)][1] + indent


def _headed(container: Any) -> Iterator[Any]:
    """Return every table that has a header of its own, in the order of the text."""
    from tomlkit.items import AoT, Table

    for key, item in container.body:
        if isinstance(item, AoT):
            for table in item.body:
                yield table
                yield from _headed(table.value)
        elif isinstance(item, Table) and not key.is_dotted():
            if not item.is_super_table():
                yield item
            yield from _headed(item.value)


def _taken_lead(body: list[tuple[Any, Any]]) -> str:
    """Take out, and return, what stands between the last key's paragraph and the next header."""
    from tomlkit.items import AoT, Null, Table, Whitespace

    end = next(
        (at for at, (_, item) in enumerate(body) if isinstance(item, AoT | Table)), len(body)
    )
    start = end
    while start and body[start - 1][0] is None:
        start -= 1
    if not start:
        start = next((at for at in range(end) if not isinstance(body[at][1], Whitespace)), end)
    while start < end and not isinstance(body[start][1], Whitespace):
        start += 1
    lead = "".join(item.as_string() for _, item in body[start:end])
    body[start:end] = [(None, Null())] * (end - start)
    return lead


def _merge_entries(table: Any, old: Data, new: Data, keys: Iterable[str], leads: _Leads) -> None:
    """Put what changed under these keys into a table, entry by entry where it holds tables."""
    from tomlkit.items import InlineTable

    for key in keys:
        value, there = new.get(key), table.get(key)
        if old.get(key) == value:
            continue
        if value is None:
            table.pop(key, None)
        elif _are_rows(value):
            _merge_rows(table, key, old.get(key, []), value, leads)
        elif isinstance(value, dict) and isinstance(there, dict):
            before = old.get(key, {})
            _merge_entries(there, before, value, {**before, **value}, leads)
        elif isinstance(value, dict) and not isinstance(table, InlineTable):
            table[key] = _table(value)
        else:
            table[key] = _item(value, there)


def _merge_rows(table: Any, key: str, old: list[Data], new: list[Data], leads: _Leads) -> None:
    """Change, add, take out and reorder tables of a list; each keeps its comments.

    A list of inline tables is written anew when its rows change places.
    """
    from tomlkit.items import AoT, InlineTable

    rows = table.get(key)
    if old == new:
        return
    partners = _partners(old, new)
    if rows is None and not isinstance(table, InlineTable):
        table[key] = _rows(new)
    elif isinstance(rows, AoT):
        _merge_tables(rows, old, new, leads)
    elif rows is not None and partners == list(range(len(old))):
        for was, row, there in zip(old, new, rows, strict=True):
            _merge_entries(there, was, row, {**was, **row}, leads)
    else:
        table[key] = _inline(new, rows)


def _merge_tables(rows: Any, old: list[Data], new: list[Data], leads: _Leads) -> None:
    before, after = list(rows.body), []
    for partner, row in zip(_partners(old, new), new, strict=True):
        if partner is None:
            after.append(_table(row))
            leads.set(after[-1])
        else:
            after.append(before[partner])
            was = old[partner]
            _merge_entries(before[partner], was, row, {**was, **row}, leads)
    if after[0] is not before[0]:
        leads.put_first(after[0], before[0])
    rows.clear()
    rows.extend(after)


def _partners(old: list[Data], new: list[Data]) -> list[int | None]:
    """Return for each new table the old one that it was: by what it is known by, else as equal.

    A lot of another name is the old one of its place, renamed, where that name is gone and the
    colour is the same. Rows as planned that are more by now are the old ones of their place.
    """
    at_of = {known: at for at, known in enumerate(_known_by(old))}
    partners = [at_of.get(known) for known in _known_by(new)]
    wanted = {row["name"] for row in new if "name" in row}
    for at, (was, row) in enumerate(zip(old, new, strict=False)):
        renamed = partners[at] is None and "name" in was and was["name"] not in wanted
        if renamed and all(was.get(key) == row.get(key) for key in ("colour", "lab")):
            partners[at] = at
    for at, row in enumerate(new):
        if partners[at] is None:
            equal = (place for place, was in enumerate(old) if was == row)
            partners[at] = next((place for place in equal if place not in partners), None)
    for at, (was, row) in enumerate(zip(old, new, strict=False)):
        if partners[at] is None and at not in partners and _are_of_one_run(was, row):
            partners[at] = at
    return partners


def _are_of_one_run(was: Data, row: Data) -> bool:
    return "through" in was and "through" in row and was.get("ply") == row.get("ply")


def _known_by(rows: list[Data]) -> list[Any]:
    """Return what each table of a list is known by: name, row of a ply's page, else its place."""
    of_page = [(row.get("ply"), row.get("row"), row.get("through")) for row in rows]
    is_row = [row is not None or through is not None for _, row, through in of_page]
    return [row.get("name", of_page[at] if is_row[at] else at) for at, row in enumerate(rows)]


def _are_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _item(value: Any, there: Any) -> Any:
    """Return a value for the document; a list over several lines stays one."""
    import tomlkit

    item = tomlkit.item(value)
    if isinstance(value, list):
        item.multiline(_is_multiline(there))
    return item


def _is_multiline(there: Any) -> bool:
    return "\n" in getattr(there, "as_string", str)()


def _table(values: Data) -> Any:
    import tomlkit

    table = tomlkit.table()
    for key in _in_order(values):
        table[key] = _rows(values[key]) if _are_rows(values[key]) else values[key]
    return table


def _rows(rows: list[Data]) -> Any:
    import tomlkit

    tables = tomlkit.aot()
    for row in rows:
        tables.append(_table(row))
    return tables


def _in_order(row: Data) -> list[str]:
    return sorted(row, key=lambda key: key not in _FIRST_KEYS)


def _inline(rows: list[Data], there: Any) -> Any:
    import tomlkit

    array = tomlkit.array()
    for row in rows:
        array.append(tomlkit.inline_table())
        array[-1].update({key: row[key] for key in _in_order(row)})
    return array.multiline(_is_multiline(there))

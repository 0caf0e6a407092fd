"""A changed plan back into its file: only what changed is touched, comments stay."""

from pathlib import Path
from typing import Any

from yarncolor.errors import Fault, PlanError
from yarncolor.files import write_all
from yarncolor.plan import Plan, to_data
from yarncolor.planfile import parsed, plan_from_data, read_text


def save_plan(plan: Plan, path: str | Path, like: str | Path | None = None) -> Path:
    """Write a plan to a file, keeping the comments and the order of what stands there.

    Parameters
    ----------
    plan : Plan
        What the file is to say.
    path : str or Path
        Where to write; replaced as a whole or not at all.
    like : str or Path, optional
        A plan file to start from when ``path`` does not exist, so that its comments come along.

    Raises
    ------
    PlanError
        Where the file that stands there is no plan file, or the disk refuses.
    """
    path = Path(path)
    source = path if path.exists() else like
    text = read_text(source) if source is not None else ""
    write_all(path.parent, {path.name: merged_text(text, plan, str(source or path)).encode()})
    return path


def merged_text(text: str, plan: Plan, file: str) -> str:
    """Return the text of a plan file that says what the plan says, changing as little as it can.

    Parameters
    ----------
    text : str
        What stands in the file; empty for a new one.
    plan : Plan
        What it is to say.
    file : str
        How faults name the file.
    """
    import tomlkit

    before = parsed(text, file)
    document = tomlkit.parse(text)
    wanted = to_data(plan)
    old = to_data(plan_from_data(before, file)) if before else {}
    for key in ("title", "purpose", "scheme", "spinning", "plying", "scale", "target"):
        _merge(document, key, old.get(key), wanted.get(key))
    _merge_lots(document, old.get("lots", []), wanted["lots"])
    merged = tomlkit.dumps(document)
    if to_data(plan_from_data(parsed(merged, file), file)) != wanted:
        raise PlanError([Fault(file, "", "", "is laid out so that it cannot be changed in place")])
    return merged


def _merge(table: Any, key: str, old: Any, new: Any) -> None:
    """Put a changed value into a table, entry by entry where it is a table itself."""
    if old == new:
        return
    if new is None:
        table.pop(key, None)
    elif isinstance(new, dict) and isinstance(table.get(key), dict):
        for entry in [*(old or {}), *(name for name in new if name not in (old or {}))]:
            _merge(table[key], entry, (old or {}).get(entry), new.get(entry))
    else:
        table[key] = _item(new)


def _item(new: Any) -> Any:
    """Return a value for a new place in the document; a list of tables as tables."""
    import tomlkit

    if isinstance(new, list) and new and isinstance(new[0], dict):
        return _tables(new)
    return tomlkit.item(new)


def _tables(rows: list[dict]) -> Any:
    import tomlkit

    tables = tomlkit.aot()
    for row in rows:
        table = tomlkit.table()
        table.update(row)
        tables.append(table)
    return tables


def _merge_lots(document: Any, old: list[dict], new: list[dict]) -> None:
    """Change, add and take out lots; those that stay keep their place and comments."""
    if old == new:
        return
    if not old:
        document["lots"] = _tables(new)
        return
    names = [lot["name"] for lot in old]
    kept = [lot["name"] for lot in new if lot["name"] in names]
    if (
        kept != [name for name in names if name in kept]
        or [lot["name"] for lot in new][: len(kept)] != kept
    ):
        document["lots"] = _tables(new)
        return
    tables = document["lots"]
    for at in reversed(range(len(names))):
        if names[at] not in kept:
            del tables[at]
    for at, lot in enumerate(new[: len(kept)]):
        before = old[names.index(lot["name"])]
        for key in [*before, *(key for key in lot if key not in before)]:
            _merge(tables[at], key, before.get(key), lot.get(key))
    for table in _tables(new[len(kept) :]):
        tables.append(table)

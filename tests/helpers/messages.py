"""Messages as they are declared: whether one is as declared, and the declaration in JavaScript."""

import textwrap
from collections.abc import Mapping, Sequence
from types import NoneType, UnionType
from typing import (
    Any,
    Literal,
    NotRequired,
    Union,
    get_args,
    get_origin,
    get_type_hints,
    is_typeddict,
)

PLAIN = {str: "string", int: "number", float: "number", bool: "boolean", NoneType: "null"}


def declared(*messages: type) -> dict[str, type]:
    """Return typed dictionaries by name, with all that they hold, those held first."""
    known: dict[str, type] = {}
    for message in messages:
        for hint in get_type_hints(message).values():
            known |= declared(*_dictionaries(hint))
        known[message.__name__] = message
    return known


def _dictionaries(hint: Any) -> list[type]:
    if is_typeddict(hint):
        return [hint]
    return [each for inner in get_args(hint) for each in _dictionaries(inner)]


def in_javascript(message: type) -> str:
    """Return a typed dictionary as JSDoc declares it; buffers travel beside a message."""
    keys = [
        f"{key}{'' if key in message.__required_keys__ else '?'}: {_type(hint)}"
        for key, hint in get_type_hints(message).items()
        if key != "buffers"
    ]
    text = f"@typedef {{{{ {', '.join(keys)} }}}} {message.__name__}"
    if len(text) <= 93:
        return f"/** {text} */"
    lines = textwrap.wrap(text, 97, subsequent_indent="  ", break_long_words=False)
    return "\n".join(["/**", *(f" * {line}" for line in lines), " */"])


def _type(hint: Any) -> str:
    inner = [_type(each) for each in get_args(hint) if get_origin(hint) is not Literal]
    match get_origin(hint):
        case None:
            return PLAIN.get(hint, "*" if hint is Any else getattr(hint, "__name__", "*"))
        case origin if origin is Literal:
            return "|".join(f'"{each}"' for each in get_args(hint))
        case origin if origin in (Union, UnionType):
            return "|".join(inner)
        case origin if origin is tuple:
            return f"[{', '.join(inner)}]"
        case origin if origin in (dict, Mapping):
            return f"Object<{', '.join(inner)}>"
        case _:
            return f"Array<{inner[0]}>"


def faults(value: Any, hint: Any, where: str = "") -> list[str]:
    """Return where a value is not as declared: keys too many or too few, other types."""
    origin, inner = get_origin(hint), get_args(hint)
    if is_typeddict(hint):
        return _faults_of_keys(value, hint, where)
    if origin is NotRequired:
        return faults(value, inner[0], where)
    if origin in (Union, UnionType):
        told = [faults(value, each, where) for each in inner]
        return [] if [] in told else told[0]
    if origin in (dict, list, tuple, Sequence):
        return _faults_inside(value, origin, inner, where)
    return [] if _is_as_declared(value, hint) else [f"{where}: {value!r}"]


def _faults_inside(value: Any, origin: Any, inner: tuple[Any, ...], where: str) -> list[str]:
    if origin is dict:
        parts = [(each, inner[1], key) for key, each in value.items()]
    elif origin is tuple and len(value) != len(inner):
        return [f"{where}: {len(value)} of {len(inner)}"]
    else:
        kinds = inner if origin is tuple else inner * len(value)
        parts = list(zip(value, kinds, range(len(value)), strict=True))
    return [fault for each, kind, at in parts for fault in faults(each, kind, f"{where}.{at}")]


def _is_as_declared(value: Any, hint: Any) -> bool:
    if hint is Any:
        return True
    if get_origin(hint) is Literal:
        return value in get_args(hint)
    is_number_for_bool = isinstance(value, bool) and hint is not bool
    return isinstance(value, (int, float) if hint is float else hint) and not is_number_for_bool


def _faults_of_keys(value: dict[str, Any], message: type, where: str) -> list[str]:
    hints = get_type_hints(message)
    lacking = [f"{where}.{key} lacks" for key in message.__required_keys__ - set(value)]
    unknown = [f"{where}.{key} is not declared" for key in set(value) - set(hints)]
    inside = [
        each
        for key in set(value) & set(hints)
        for each in faults(value[key], hints[key], f"{where}.{key}")
    ]
    return [*lacking, *unknown, *inside]

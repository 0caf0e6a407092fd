"""Files as a bad disk or a slipping hand leaves them: bytes and lines other, gone or twice."""

from random import Random

_TYPED = b"0123456789.-+eE\"'[]{}=,# \n\r\tabKelpFoam"


def damaged(content: bytes, seed: int) -> bytes:
    """Return a file's content with one to three places spoilt, the same for a seed each time.

    Parameters
    ----------
    content : bytes
        What stands in the file.
    seed : int
        Of the dice.
    """
    dice = Random(seed)  # noqa: S311
    for _ in range(dice.choice((1, 1, 2, 3))):
        content = dice.choice(_WAYS)(content, dice)
    return content


def _a_bit_flipped(content: bytes, dice: Random) -> bytes:
    at = dice.randrange(len(content) + 1)
    flipped = bytes(byte ^ (1 << dice.randrange(8)) for byte in content[at : at + 1])
    return content[:at] + flipped + content[at + 1 :]


def _another_byte(content: bytes, dice: Random) -> bytes:
    at = dice.randrange(len(content) + 1)
    return content[:at] + bytes([dice.choice(_TYPED)]) + content[at + 1 :]


def _a_byte_more(content: bytes, dice: Random) -> bytes:
    at = dice.randrange(len(content) + 1)
    return content[:at] + bytes([dice.choice(_TYPED)]) + content[at:]


def _some_bytes_gone(content: bytes, dice: Random) -> bytes:
    at = dice.randrange(len(content) + 1)
    return content[:at] + content[at + dice.choice((1, 1, 2, 9)) :]


def _some_bytes_twice(content: bytes, dice: Random) -> bytes:
    at = dice.randrange(len(content) + 1)
    return content[: at + dice.choice((1, 1, 2, 9))] + content[at:]


def _another_digit(content: bytes, dice: Random) -> bytes:
    digits = [at for at, byte in enumerate(content) if 48 <= byte <= 57]
    at = dice.choice(digits or [0])
    return content[:at] + b"%d" % dice.randrange(10) + content[at + 1 :]


def _a_line_gone(content: bytes, dice: Random) -> bytes:
    lines = content.splitlines(keepends=True)
    return b"".join(_without(lines, dice.randrange(len(lines) + 1)))


def _a_line_twice(content: bytes, dice: Random) -> bytes:
    lines = content.splitlines(keepends=True)
    at = dice.randrange(len(lines) + 1)
    return b"".join([*lines[:at], *lines[max(at - 1, 0) :]])


def _a_line_elsewhere(content: bytes, dice: Random) -> bytes:
    lines = content.splitlines(keepends=True)
    at, to = (dice.randrange(len(lines) + 1) for _ in range(2))
    rest = _without(lines, at)
    return b"".join([*rest[:to], *lines[at : at + 1], *rest[to:]])


def _cut_short(content: bytes, dice: Random) -> bytes:
    return content[: dice.randrange(len(content) + 1)]


def _without(lines: list[bytes], at: int) -> list[bytes]:
    return lines[:at] + lines[at + 1 :]


_WAYS = (
    _a_bit_flipped,
    _another_byte,
    _a_byte_more,
    _some_bytes_gone,
    _some_bytes_twice,
    _another_digit,
    _another_digit,
    _a_line_gone,
    _a_line_twice,
    _a_line_elsewhere,
    _cut_short,
)

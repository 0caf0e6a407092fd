"""Messages of the painter of orders."""

from typing import Literal, TypedDict

from yarncolor.widgets.protocol.asks import Ask, AskInTurn


class OfTurn(AskInTurn):
    """What is asked of entries as the frame of that turn has them."""

    turn: int


class Move(OfTurn):
    """Entries go to places, one after the other."""

    moves: list[tuple[int, int]]


class Rest(Ask):
    """The fingers are still: numbers, words and tables of more moves are wanted."""

    entry: int | None


class Grab(Ask):
    """An entry is in hand: the tables of its moves are wanted."""

    entry: int


class Hold(OfTurn):
    """An entry is to stay in its place, or no more."""

    entry: int
    held: bool


class Look(AskInTurn):
    """The yarn is to be seen from another metre on."""

    metre: float


class Knit(AskInTurn):
    """Only a part of the yarn is to be knitted, from where one looks; or all of it again."""

    part: bool


class TableHead(TypedDict):
    """Of tables of stretches: how many each has, metres, plies; ticks and lots are buffers."""

    counts: list[int]
    yarn_m: list[float]
    plies: int


class Relief(TypedDict):
    """By what light multiplies a colour, how high it leaves it as it is, how much it shows."""

    dark: float
    bright: float
    middle: float
    least: float


class ShadesState(TypedDict):
    """What colours are made from: linear light of lots, levels of light, unevenness, joins.

    Of each drafted lot the lots that show in it, each up to so much of a turn of its single.
    """

    lots: list[list[float]]
    drafted: list[tuple[int, list[tuple[int, float]]]]
    spiral_m: float
    between_plies: float
    streaks_px: int
    fixed: list[list[float]]
    heights: list[float]
    through: list[float]
    relief: Relief
    mottles: int
    mottle: float
    join_steps: int
    join_m: float


class LabelRule(TypedDict):
    """How a browser names a run: letters, what is left beside them, the lowest band with names."""

    size_px: int
    room_px: int
    least_px: int


class StripWords(TypedDict):
    """What is written round the strip: rows at their heights, ticks at shares of its width."""

    heading: list[str]
    rows: list[tuple[str, float]]
    ticks: list[tuple[float, str]]
    ends: list[str]


class StripShape(TypedDict):
    """Where the bands of a strip lie, in its pixels, and how fine it is drawn."""

    width: int
    height: int
    bands: list[tuple[int, int]]
    yarn: tuple[int, int]
    stripe: int
    slant: float
    parted: int
    finer: int


class StripState(StripWords, StripShape):
    """The same, with what is written on it and round it."""

    label: LabelRule


class SaidIn(TypedDict):
    """What masses or lengths are said in: a unit, how large one is, decimals more than metric."""

    unit: str
    names: str
    size: float
    finer: int


class StripReading(TypedDict):
    """What pointing at the strip tells: each ply's name, and grams of fibre in a metre of yarn."""

    plies: list[str]
    g_per_m: list[float]
    mass: SaidIn
    length: SaidIn


class SceneSize(TypedDict):
    """Of a picture without colours; of its nine buffers four tell of pixels that two share."""

    width: int
    height: int
    places: int
    starts: list[int]


class SceneHead(SceneSize):
    """The same, and which picture it is."""

    name: str


class OrderScenes(TypedDict):
    """Which place of the yarn each pixel shows."""

    kind: Literal["scenes"]
    scenes: list[SceneHead]


class Pictures(TypedDict):
    """An order and all that it is painted with."""

    entries: list[int]
    held: list[int]
    closed: bool
    names: list[str]
    lots: list[int]
    masses: list[float]
    lot_names: list[str]
    colours: list[str]
    inks: list[str]
    ends: list[str]
    from_m: float
    shades: ShadesState
    turning: str
    strip: StripState
    reading: StripReading
    table: TableHead


class OrderFrame(Pictures):
    """The same, and which one it is; it answers what has that number.

    Where nothing changed but the order, what was sent ahead of the lot that moved last holds.
    """

    kind: Literal["frame"]
    serial: int | None
    turn: int
    ahead_holds: bool
    knits_part: bool


class MoreLots(TypedDict):
    """Lots that tables name beyond those of the frame: what other orders would card."""

    lot_names: list[str]
    colours: list[str]
    inks: list[str]
    lots: list[list[float]]


class OrderMoved(TypedDict):
    """A move is confirmed; nothing but the table follows from it for now."""

    kind: Literal["moved"]
    serial: int
    entries: list[int]
    table: TableHead
    more: MoreLots


class OrderAhead(TypedDict):
    """Tables that would follow from single moves of the frame of that turn."""

    kind: Literal["ahead"]
    turn: int
    moves: list[tuple[int, int]]
    table: TableHead
    more: MoreLots


class PictureWords(TypedDict):
    """What a picture shows."""

    caption: str
    alt: str


class OrderLooked(TypedDict):
    """From where the yarn is seen by now, and what yarn and fabric show."""

    kind: Literal["looked"]
    from_m: float
    words: dict[str, PictureWords]


class ToldWords(TypedDict):
    """Text alternatives, captions and fragments, by what they are of."""

    alts: dict[str, str]
    captions: dict[str, str]
    html: dict[str, str]


class OrderWords(ToldWords):
    """The same, and the line above the chips."""

    kind: Literal["words"]
    said: str

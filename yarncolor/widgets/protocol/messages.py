"""What page and kernel say to each other: every message of every widget, both ways.

A page says what to ``do``; the kernel answers with messages of a ``kind``. Messages are JSON, with
binary buffers beside some of them. `protocol.js` declares the same for the page, and a test holds
the two together.

=========  ===========================  ====================================================
widget     page to kernel (``do``)      kernel to page (``kind``)
=========  ===========================  ====================================================
bar        ready, undo, redo, save,     bar: what stands in it;
           save_as, download, open,     download: a plan file to be handed over;
           new, say_in, keep, beat,     beat: the kernel is there;
           draft, resume, bring_back,   draft: what a page keeps in case it loses it
           throw_away
band       ready, why                   band: the yarn in small, whatever is worked on;
                                        why: why its figures are what they are
card       print, download              card: a card, and what it is for
doorbell   ready
form       ready, put, back             form: every field, its text and its fault
lots       ready, rows, lines,          rows: lots as the plan has them;
           photograph                   faults: of rows that cannot stay as typed;
                                        refused: why a lot cannot go;
                                        lines: what came of several lots at once;
                                        seen: what a photograph says of a lot
order      ready, move, rest, grab,     scenes: which place each pixel shows;
           hold, undo, redo, reverse,   frame: an order and all it is painted with;
           turn, close, look, knit      moved: a move is confirmed;
                                        ahead: tables of moves that may come;
                                        looked: from where the yarn is seen;
                                        words: what is told of an order
photo      open, read, why, find,       answer: to one of these;
           take, picture                plan: which lots it has by now
plying     ready, put, back, ended,     plying: how far it is, what changes next, and what
           goes_on, look                can still be made where a single ran out;
                                        care: what to do about twist that is seen
spinning   ready, rest, tick, up_to,    wheel: every ply's page, and what has strayed;
           shift, extra, put, back,     ways: whether it matters, and how to go on;
           slip, weigh, take, bring     reached: which row a bobbin's weight tells;
                                        brought: what came of a text from the phone
=========  ===========================  ====================================================

A page that has several views of a widget gives each a name, ``view``; ``serial`` numbers what a
view asks, and comes back with the answer.
"""

from collections.abc import Mapping

from yarncolor.widgets.protocol.asks import Ask, AskInTurn, AskOfView, PutBack, PutField
from yarncolor.widgets.protocol.band import BandFrame, BandWhy
from yarncolor.widgets.protocol.bar import (
    BarState,
    Beat,
    Download,
    Draft,
    KeepUp,
    NewPlan,
    OpenPlan,
    Resume,
    SaveAs,
    SayIn,
)
from yarncolor.widgets.protocol.card import Card
from yarncolor.widgets.protocol.form import FormState
from yarncolor.widgets.protocol.lots import (
    AddLines,
    LinesAdded,
    LotSeen,
    LotsFaults,
    LotsRefused,
    LotsRows,
    PhotographLot,
    PutRows,
)
from yarncolor.widgets.protocol.order import (
    Grab,
    Hold,
    Knit,
    Look,
    Move,
    OrderAhead,
    OrderFrame,
    OrderLooked,
    OrderMoved,
    OrderScenes,
    OrderWords,
    Rest,
)
from yarncolor.widgets.protocol.photo import (
    AskOfPhoto,
    FindLots,
    OpenPicture,
    PhotoAnswer,
    PhotoPlan,
)
from yarncolor.widgets.protocol.plying import (
    CareTold,
    LookAtTwist,
    PlyingState,
    RanOut,
)
from yarncolor.widgets.protocol.spinning import (
    BringHome,
    BroughtHome,
    OfPiece,
    RowReached,
    ShiftPiece,
    Slip,
    TakeWay,
    TickPiece,
    WaysOn,
    WeighBobbin,
    WheelState,
)

HEARD: dict[str, Mapping[str, type]] = {
    "bar": {
        "ready": AskOfView,
        "undo": AskOfView,
        "redo": AskOfView,
        "save": AskOfView,
        "save_as": SaveAs,
        "download": AskOfView,
        "open": OpenPlan,
        "new": NewPlan,
        "say_in": SayIn,
        "keep": KeepUp,
        "beat": AskOfView,
        "draft": AskOfView,
        "resume": Resume,
        "bring_back": AskOfView,
        "throw_away": AskOfView,
    },
    "band": {"ready": Ask, "why": Ask},
    "card": {"print": AskOfView, "download": AskOfView},
    "doorbell": {"ready": Ask},
    "form": {"ready": Ask, "put": PutField, "back": PutBack},
    "lots": {
        "ready": AskOfView,
        "rows": PutRows,
        "lines": AddLines,
        "photograph": PhotographLot,
    },
    "order": {
        "ready": Ask,
        "move": Move,
        "rest": Rest,
        "grab": Grab,
        "hold": Hold,
        "undo": Ask,
        "redo": Ask,
        "reverse": AskInTurn,
        "turn": AskInTurn,
        "close": AskInTurn,
        "look": Look,
        "knit": Knit,
    },
    "photo": {
        "open": AskOfPhoto,
        "read": AskOfPhoto,
        "why": AskOfPhoto,
        "find": FindLots,
        "take": AskOfPhoto,
        "picture": OpenPicture,
    },
    "plying": {
        "ready": Ask,
        "put": PutField,
        "back": PutBack,
        "ended": RanOut,
        "goes_on": Ask,
        "look": LookAtTwist,
    },
    "spinning": {
        "ready": Ask,
        "rest": Ask,
        "tick": TickPiece,
        "up_to": OfPiece,
        "shift": ShiftPiece,
        "extra": OfPiece,
        "put": PutField,
        "back": PutBack,
        "slip": Slip,
        "weigh": WeighBobbin,
        "take": TakeWay,
        "bring": BringHome,
    },
}
"""What a kernel hears, by widget and ``do``."""

SAID: dict[str, Mapping[str, type]] = {
    "bar": {"bar": BarState, "download": Download, "beat": Beat, "draft": Draft},
    "band": {"band": BandFrame, "why": BandWhy},
    "card": {"card": Card},
    "doorbell": {},
    "form": {"form": FormState},
    "lots": {
        "rows": LotsRows,
        "faults": LotsFaults,
        "refused": LotsRefused,
        "lines": LinesAdded,
        "seen": LotSeen,
    },
    "order": {
        "scenes": OrderScenes,
        "frame": OrderFrame,
        "moved": OrderMoved,
        "ahead": OrderAhead,
        "looked": OrderLooked,
        "words": OrderWords,
    },
    "photo": {"answer": PhotoAnswer, "plan": PhotoPlan},
    "plying": {"plying": PlyingState, "care": CareTold},
    "spinning": {
        "wheel": WheelState,
        "ways": WaysOn,
        "reached": RowReached,
        "brought": BroughtHome,
    },
}
"""What a kernel says, by widget and ``kind``."""

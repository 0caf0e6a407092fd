"""A whole plan as the file says it, and back to the file's own data."""

from dataclasses import dataclass, field, fields, is_dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Annotated, Any

from yarncolor.plan.asked import PullOff, ToSpin
from yarncolor.plan.braid import Braid
from yarncolor.plan.fabric import Fabric, Target
from yarncolor.plan.hands import FIGURES, Hands
from yarncolor.plan.key import LINE, WORD, Key, name_of
from yarncolor.plan.limits import LONGEST_TITLE
from yarncolor.plan.lots import RECIPES, Lot, text_key
from yarncolor.plan.made import Made
from yarncolor.plan.orders import Orders
from yarncolor.plan.plied import Plied
from yarncolor.plan.plying import Plying
from yarncolor.plan.scheme import Scheme
from yarncolor.plan.spinning import Spinning
from yarncolor.plan.spun import Lost, Spun
from yarncolor.plan.tools import Bobbins, Scale

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

UNITS = (("metric", "grams and metres"), ("imperial", "ounces and yards"))


@dataclass(frozen=True)
class Plan:
    """A whole plan file."""

    lots: tuple[Lot, ...]
    title: Annotated[
        str,
        Key(
            LINE,
            "What the plan is called.",
            f"one line of at most {LONGEST_TITLE} characters",
            most=LONGEST_TITLE,
            otherwise="none",
            words="title",
        ),
    ] = ""
    purpose: Annotated[
        str,
        text_key("What the yarn is for.", otherwise="not said", words="what it is for"),
    ] = ""
    hand: Annotated[
        str,
        Key(
            LINE,
            "What your own hands do: a file beside the plan, from which it takes what it does not "
            "say itself.",
            f"the name of a file beside the plan, of at most {LONGEST_TITLE} characters",
            most=LONGEST_TITLE,
            otherwise="none",
            words="what your hands do: a file beside the plan",
        ),
    ] = ""
    units: Annotated[
        str | None,
        Key(
            WORD,
            "What masses and lengths are said in: grams and metres, or ounces, yards and inches. "
            "The keys of the file stay what they are.",
            choices=UNITS,
            default="metric",
            words="masses and lengths are said in",
        ),
    ] = None
    braid: Braid | None = None
    scheme: Scheme = field(default_factory=Scheme)
    spinning: Spinning = field(default_factory=Spinning)
    plying: Plying = field(default_factory=Plying)
    scale: Scale = field(default_factory=Scale)
    bobbins: Bobbins = field(default_factory=Bobbins)
    fabric: Fabric = field(default_factory=Fabric)
    target: Target | None = None
    orders: Orders = field(default_factory=Orders)
    spun: tuple[Spun, ...] = ()
    lost: tuple[Lost, ...] = ()
    to_spin: tuple[ToSpin, ...] = ()
    pull_off: tuple[PullOff, ...] = ()
    plied: Plied | None = None
    made: Made | None = None
    kept_as: str = field(default="", compare=False)
    """What its file is called, without the ending; no key of it, and nothing that it says."""
    unseen: tuple[str, ...] = field(default=(), compare=False)
    """Its texts out of which characters that nobody can see were left."""
    hands: Hands | None = field(default=None, compare=False)
    """What the file says that `hand` names; None where there is none to be read."""
    filled: tuple[str, ...] = field(default=(), compare=False)
    """Keys that the plan did not say itself, and that were filled in from its hands."""

    @property
    def by_hands(self) -> tuple[str, ...]:
        """Keys that are as the plan's hands say, because it does not say them itself."""
        figures = () if self.hands is None else self.hands.figures()
        return tuple(
            key
            for key, figure in figures
            if key in self.filled and getattr(getattr(self, FIGURES[key]), key) == figure.value
        )

    @cached_property
    def names(self) -> tuple[str, ...]:
        """Names of the lots, in file order."""
        return tuple(lot.name for lot in self.lots)

    @property
    def before_the_wheel(self) -> "Plan":
        """The plan with nothing spun, decided at the wheel or plied; what was lost stays so."""
        return replace(self, spun=(), to_spin=(), pull_off=(), plied=None)

    @property
    def own_lots(self) -> tuple[Lot, ...]:
        """The lots that the file has tables of: without a braid's colours and carded steps."""
        return tuple(lot for lot in self.lots if not (lot.on_braid or lot.is_step))

    @property
    def without_steps(self) -> "Plan":
        """The plan without the lots that a gradient's steps make."""
        return replace(self, lots=tuple(lot for lot in self.lots if not lot.is_step))


def to_data(table: "DataclassInstance") -> dict[str, Any]:
    """Return a plan, or one of its tables, as the file would hold it: given keys alone."""
    data = {
        name_of(item.name): _plain(getattr(table, item.name))
        for item in fields(table)
        if item.compare
        if getattr(table, item.name) not in (item.default, None, ()) or item.name == "name"
    }
    if isinstance(table, Plan) and table.braid is not None:
        _leave_to_braid(table, data)
    if isinstance(table, Plan):
        for key in table.by_hands:
            del data[FIGURES[key]][key]
    if isinstance(table, Lot) and table.rolags is not None:
        del data["mass_g"]
    if isinstance(table, Lot):
        data |= {way: dict(getattr(table, way)) for way in RECIPES if getattr(table, way)}
    if isinstance(table, Orders) and table.hold:
        data["hold"] = dict(table.hold)
    return {key: value for key, value in data.items() if value not in ({}, None)}


def _leave_to_braid(plan: Plan, data: dict[str, Any]) -> None:
    """Take out of a plan's data what its braid says: lots of its colours, and their order."""
    data["lots"] = [to_data(lot) for lot in plan.own_lots]
    for key in ("sequence", "parts"):
        data["scheme"].pop(key, None)


def _plain(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return to_data(value)
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value

"""The trade-off between two aims: all orders as a picture, and a walk along those none beats."""

from collections.abc import Callable
from html import escape

import ipywidgets as w

from yarncolor.answers.answer import answer
from yarncolor.pictures.order_panels import order_panel
from yarncolor.report.orders import trade_off_picture
from yarncolor.report.orders_words import aim_words, names_text, worth_text, worth_told
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.fragment import small_picture
from yarncolor.report.why.orders import front_reason, order_reasons
from yarncolor.report.why.seen import Seen, seen_in
from yarncolor.search.found import FoundOrder, FoundOrders
from yarncolor.widgets.choosing import Quiet
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import SAYS_PICTURE, label

_WIDTH_PX = 690
_TWO = 2
_WORDS = {
    "across": "across",
    "up": "up and down",
    "point": "walk along the line",
}


class TradeOffView(w.VBox):
    """Two choosers of an aim, the picture between them, and a slider along its front.

    Parameters
    ----------
    take : callable
        Called with the order that is to be spun.
    """

    def __init__(self, take: Callable[[FoundOrder], None]) -> None:
        self._quiet = Quiet()
        self._found: FoundOrders | None = None
        self.front: tuple[FoundOrder, ...] = ()
        self.across, self.up = w.Dropdown(), w.Dropdown()
        self.point = w.IntSlider(min=1, max=1, continuous_update=False)
        controls = {"across": self.across, "up": self.up, "point": self.point}
        label(controls, _WORDS, 11, 34)
        for control in (self.across, self.up):
            control.observe(heard(self, lambda _: self._along()), "value")
        self.point.observe(heard(self, lambda _: self._chosen()), "value")
        wide = w.Layout(width="100%", max_width=f"{_WIDTH_PX}px")
        self.picture = w.Image(format="png", layout=wide)
        self.panel = w.Image(format="png", layout=wide)
        self.words = w.HTML(layout=w.Layout(width="100%"))
        self.words.add_class(SAYS_PICTURE)
        self.spin = w.Button(description="Spin this one", layout=w.Layout(width="12em"))
        self.spin.on_click(heard(self, lambda _: take(self.chosen)))
        heading = w.HTML("<h3>More of one, less of the other</h3>")
        below = [self.words, self.panel, self.spin]
        inside = [heading, *controls.values(), self.picture, *below]
        super().__init__(inside, layout=w.Layout(width="100%", display="none"))

    @property
    def chosen(self) -> FoundOrder:
        """The order that the slider stands on."""
        return self.front[self.point.value - 1]

    def hide(self) -> None:
        """Show nothing: nothing is found."""
        self._found, self.front, self.layout.display = None, (), "none"

    def show(self, found: FoundOrders) -> None:
        """Show the first two aims that were looked for; of one alone there is nothing to trade.

        Parameters
        ----------
        found : FoundOrders
            What was found.
        """
        aims = list(found.ranges)
        if len(aims) < _TWO:
            self.hide()
            return
        self._found = found
        with self._quiet:
            for control, aim in ((self.across, aims[0]), (self.up, aims[1])):
                control.options = [(aim_words(name), name) for name in aims]
                control.value = aim
        self.layout.display = None
        self._along()

    def _along(self) -> None:
        if self._quiet or self._found is None:
            return
        self.front = self._found.front_between(self.across.value, self.up.value)
        with self._quiet:
            self.point.max = len(self.front)
            self.point.value = (len(self.front) + 1) // 2
        self._chosen()

    def _chosen(self) -> None:
        if self._quiet or self._found is None:
            return
        one, found = self.chosen, self._found
        told = f"{names_text(one)}. {worth_text(one)}."
        own = answer(one.plan)
        lead = f"{self.point.value} of {len(self.front)} that no other beats on both"
        along = (f"{self.point.value} of {len(self.front)}", front_reason())
        seen = (Seen(*along), *seen_in([worth_told(one)], order_reasons(found, one, own)))
        why = asked_together(seen, "the order walked to", own.say)
        self.words.value = f"<p><b>{escape(lead)}</b><br>{escape(told)}</p>{why}"
        image = trade_off_picture(found, self.across.value, self.up.value, _WIDTH_PX, one)
        self.picture.value = small_picture(image, told).png
        self.panel.value = small_picture(order_panel(own, own, _WIDTH_PX), told).png

"""Which order: aims by sliders, what every order is to obey, the best six, and the trade-off."""

import asyncio
from dataclasses import replace
from html import escape
from pathlib import Path
from time import monotonic

import ipywidgets as w

from yarncolor.answers.answer import Answer, answer
from yarncolor.editing.asked_orders import asked
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.pictures.order_panels import order_panel
from yarncolor.plan import AIM_NAMES, Plan
from yarncolor.report.orders_command import in_that_order
from yarncolor.report.orders_words import (
    SCORE_READ,
    aim_words,
    names_text,
    now_text,
    sure_told,
    worth_text,
    worth_told,
)
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.fragment import small_picture
from yarncolor.report.why.orders import order_reasons, search_reasons
from yarncolor.report.why.seen import seen_in
from yarncolor.search.found import FoundOrder, FoundOrders
from yarncolor.search.looking import Looking
from yarncolor.widgets.choosing import Quiet, refused
from yarncolor.widgets.mishaps import heard, kept_for_the_log
from yarncolor.widgets.orders_rules import OrderRules
from yarncolor.widgets.orders_trade_off import TradeOffView
from yarncolor.widgets.parts import EditorView, grey, in_rows, label, status, status_asked
from yarncolor.widgets.plan_bar import WithPlanBar

_WIDTH_PX = 690
_TODAY = "Today"
_MOST, _STEP = 5.0, 0.5
_SEEN_S, _PAUSE_S = 0.1, 0.002
_WIDE = w.Layout(width="100%")
_ONE_LOT = "there is only one lot to put in order"
_NOT_LOOKING = "nothing is being looked for"
_ABOUT = (
    "Say what the yarn is to be good at, and look: every order is tried, or as many as there is "
    "time for. One click takes an order; undo brings back what was."
)
_ANOTHER = "The plan is another by now: look again."


def orders_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench that looks for the best order of a plan file's lots.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: OrdersBench(editor))


class OrdersBench(EditorView):
    """Aims and rules round one plan, a search that never stands in the way, and what it found.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self._quiet = Quiet()
        self.task: asyncio.Task[None] | None = None
        self.found: FoundOrders | None = None
        self._looked_for: Plan | None = None
        self._is_one = False
        self.aims = {name: w.FloatSlider(min=0, max=_MOST, step=_STEP) for name in AIM_NAMES}
        for slider in self.aims.values():
            slider.continuous_update = False
            slider.observe(heard(self, lambda _: self._put_aims()), "value")
        label(self.aims, {name: aim_words(name) for name in AIM_NAMES}, 22)
        self.rules = OrderRules(editor)
        self.button = w.Button(description="Look for the best order", layout=_button(18))
        self.button.on_click(heard(self, lambda _: self.look()))
        self.stop = w.Button(description="Stop", layout=_button(8))
        self.stop.on_click(heard(self, lambda _: self._stop()))
        self.progress = w.FloatProgress(max=1.0, layout=w.Layout(width="14em"))
        self.said = w.HTML(status(_ABOUT), layout=_WIDE)
        self.orders = w.VBox(layout=_WIDE)
        self.trade_off = TradeOffView(self.take)
        row = in_rows([self.button, self.stop, self.progress])
        inside = [*self.aims.values(), self.rules, row, self.said, self.orders, self.trade_off]
        super().__init__(editor, inside)
        grey(self.stop, _NOT_LOOKING)
        self._set_aims()
        self._set_button()

    def __repr__(self) -> str:
        return "A bench that looks for the best order; it needs a live notebook."

    def render(self) -> None:
        """Show the plan's aims and rules; what was found of another plan goes."""
        self._set_aims()
        self._set_button()
        self.rules.render()
        if self._looked_for is not None and not _are_alike(self._looked_for, self.editor.plan):
            self._stop()
            self._forget(_ANOTHER)

    def look(self) -> None:
        """Look for the best order, a little at a time; a search that is on is begun anew."""
        self._stop()
        self._forget("")
        plan = self.editor.plan
        try:
            looking = Looking(plan)
        except PlanError as error:
            self.say(refused("Which order", error))
            return
        self._looked_for = plan
        work = self._looked(looking)
        try:
            self.task = asyncio.get_running_loop().create_task(work)
        except RuntimeError:
            asyncio.run(work)

    async def _looked(self, looking: Looking) -> None:
        """Run a search step by step, so that whatever else is done here has its turn."""
        grey(self.stop, "")
        is_stopped = False
        try:
            try:
                seen = 0.0
                for step in looking.steps():
                    if monotonic() - seen > _SEEN_S:
                        seen = monotonic()
                        self.progress.value = step.share
                        best = f" The best so far: {', '.join(step.names)}." if step.names else ""
                        self.say(f"{step.tried:,} orders tried.{best}")
                    await asyncio.sleep(_PAUSE_S)
            except asyncio.CancelledError:
                is_stopped = True
            self.progress.value = 1.0
            if not is_stopped or looking.tried:
                await self._shown(looking.found())
            else:
                self.say("Stopped.")
        except PlanError as error:
            self.say(refused("Which order", error))
        except asyncio.CancelledError:
            self.say("Stopped.")
        except Exception as error:  # whatever it is, it is said where one looks
            self.say(kept_for_the_log(error))
        finally:
            grey(self.stop, _NOT_LOOKING)

    async def _shown(self, found: FoundOrders) -> None:
        """Show what was found, one order after the other."""
        self.found = found
        sure, own = sure_told(found), self.editor.answer
        seen = seen_in([sure], search_reasons(own))
        self.said.value = status_asked(f"{sure} {SCORE_READ}", seen, "the search", own.say)
        every = [(_TODAY, found.now), *((str(at), one) for at, one in enumerate(found.best, 1))]
        answers: list[Answer] = []
        for _, one in every:
            answers.append(answer(one.plan))
            await asyncio.sleep(_PAUSE_S)
        longest = max(answers, key=lambda each: each.layout.stretches.yarn_m)
        for (name, one), each in zip(every, answers, strict=True):
            panel = self._panel(found, name, one, each, longest)
            self.orders.children = (*self.orders.children, panel)
            await asyncio.sleep(_PAUSE_S)
        self.trade_off.show(found)

    def _panel(
        self, found: FoundOrders, name: str, one: FoundOrder, own: Answer, longest: Answer
    ) -> w.VBox:
        is_now = name == _TODAY
        worth = now_text(found) if is_now else f"{worth_text(one)}."
        heading = f"<b>{escape(name)}: {escape(names_text(one))}</b><br>{escape(worth)}"
        seen = seen_in([worth_told(one)], order_reasons(found, one, own))
        asked_of = asked_together(seen, f"order {name}", own.say)
        told = f'<p style="line-height:1.35;margin:.4em 0 0">{heading}</p>{asked_of}'
        words = w.HTML(told, layout=_WIDE)
        picture = small_picture(order_panel(own, longest, _WIDTH_PX), names_text(one))
        image = w.Image(value=picture.png, format="png", layout=_image())
        if is_now:
            return w.VBox([words, image], layout=_WIDE)
        button = w.Button(description=f"Spin order {name}", layout=_button(12))
        button.on_click(heard(self, lambda _: self.take(one)))
        return w.VBox([words, image, button], layout=_WIDE)

    def take(self, one: FoundOrder) -> None:
        """Spin the plan in an order that was found, as one step."""
        plan = in_that_order(self.editor.plan, one)
        if plan == self.editor.plan:
            self.say("The plan is in that order already.")
            return
        try:
            self.editor.replace_plan(plan)
        except PlanError as error:
            self.say(refused("This order", error))
        else:
            self.say(f"The plan is now: {names_text(one)}. Undo brings back what was.")

    def say(self, words: str) -> None:
        """Say what happened."""
        self.said.value = status(words)

    def _put_aims(self) -> None:
        if self._quiet:
            return
        aims = {name: slider.value for name, slider in self.aims.items() if slider.value}
        try:
            self.editor.replace_plan(asked(self.editor.plan, aims=aims or {"smooth": 0.0}))
        except PlanError as error:
            self.say(refused("What it is to be good at", error))
        self._set_aims()

    def _set_aims(self) -> None:
        weights = dict(self.editor.plan.orders.weights)
        with self._quiet:
            for name, slider in self.aims.items():
                weight = weights.get(name, 0.0)
                slider.max = max(_MOST, weight)
                slider.value = weight

    def _set_button(self) -> None:
        """Grey the search where there is nothing to put in order, and say so."""
        is_one = len(set(self.editor.entry_names())) == 1
        grey(self.button, _ONE_LOT if is_one else "")
        if is_one:
            self.say(f"{_ONE_LOT[:1].upper()}{_ONE_LOT[1:]}: add another, under Lots.")
        elif self._is_one:
            self.say(_ABOUT)
        self._is_one = is_one

    def _stop(self) -> None:
        if self.task is not None and not self.task.done():
            self.task.cancel()
        self.task = None

    def _forget(self, words: str) -> None:
        self.found = self._looked_for = None
        self.orders.children = ()
        self.progress.value = 0.0
        self.trade_off.hide()
        self.say(words)


def _are_alike(one: Plan, other: Plan) -> bool:
    """Return whether two plans are the same but for the order of their lots."""
    own, others = (
        replace(plan, scheme=replace(plan.scheme, sequence=None, parts=None), spun=())
        for plan in (one, other)
    )
    return own == others


def _button(wide_em: int) -> w.Layout:
    return w.Layout(width=f"{wide_em}em", max_width="100%")


def _image() -> w.Layout:
    return w.Layout(width="100%", max_width=f"{_WIDTH_PX}px")

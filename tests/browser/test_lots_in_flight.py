"""What fingers do while rows are on their way, with a kernel that answers when it is told to."""

import pytest

from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import Row, plan_with_rows, rows_of
from yarncolor.widgets.lots.lots_bench import LotsBench

pytestmark = pytest.mark.browser

START = """async ([code, sheet]) => {
  const { default: widget } = await import(URL.createObjectURL(
    new Blob([code], { type: 'text/javascript' })));
  document.head.append(Object.assign(document.createElement('style'), { textContent: sheet }));
  window.sent = [];
  const model = {
    send: content => window.sent.push(content),
    on: (_, hear) => { window.hear = hear; },
    off: () => {},
  };
  widget.render({ model, el: document.body });
}"""
ROW = ".lots > li"


class Slow(LotsBench):
    """A bench whose answers stay here until they are asked for."""

    def __init__(self, editor):
        self.told = []
        super().__init__(editor)
        editor.watch(self.refresh)

    def send(self, content, *_):
        self.told.append(content)


class Bench:
    def __init__(self, page):
        names = ("Kelp", "Foam", "Wrack")
        lots = [{"name": name, "colour": "#445566", "mass_g": 10.0} for name in names]
        self.page = page
        self.kernel = Slow(Editor(plan_from_data({"lots": lots})))
        page.evaluate(START, [LotsBench._esm, LotsBench._css])
        self.asked()
        self.answered()

    def asked(self):
        """Let the kernel do what the page asked so far."""
        self.page.wait_for_function("window.sent.length > 0")
        for content in self.page.evaluate("window.sent.splice(0)"):
            self.kernel.handle(content, [])

    def answered(self):
        """Let the page hear what the kernel said so far."""
        for told in self.kernel.told:
            self.page.evaluate("told => window.hear(told)", told)
        self.kernel.told.clear()

    def settled(self):
        self.asked()
        self.answered()
        self.page.wait_for_timeout(400)
        while self.page.evaluate("window.sent.length"):
            self.asked()
            self.answered()

    def elsewhere(self, change):
        """Change the lots as another bench does."""
        editor = self.kernel.editor
        editor.replace_plan(plan_with_rows(editor.plan, change(rows_of(editor.plan))))

    def field(self, at, name):
        return self.page.locator(ROW).nth(at).locator(f":is(input, textarea).{name}")

    def names(self):
        count = self.page.locator(ROW).count()
        return [self.field(at, "name").input_value() for at in range(count)]

    @property
    def plan(self):
        return self.kernel.editor.plan


@pytest.fixture
def bench(chromium):
    context = chromium.new_context()
    page = context.new_page()
    problems = []
    page.on("pageerror", lambda error: problems.append(str(error)))
    yield Bench(page)
    context.close()
    assert problems == []


def with_one(at, **fields):
    def change(rows):
        texts = {**vars(rows[at]), **fields}
        return [*rows[:at], Row(**texts), *rows[at + 1 :]]

    return change


def test_what_is_typed_while_an_answer_is_on_its_way_stays_and_comes_into_the_plan(bench):
    bench.field(0, "name").fill("Weed")
    bench.asked()
    bench.field(0, "note").fill("dull")
    bench.field(0, "name").fill("Weeds")
    bench.answered()
    assert bench.field(0, "name").input_value() == "Weeds"
    assert bench.field(0, "note").input_value() == "dull"
    bench.settled()
    assert (bench.plan.lots[0].name, bench.plan.lots[0].note) == ("Weeds", "dull")


def test_lots_come_and_go_elsewhere_while_something_is_typed_here(bench):
    bench.field(2, "note").fill("dull")
    new = Row(None, "Plum", "#5b2a4f", "9")
    bench.elsewhere(lambda rows: [*rows[1:], new])
    bench.asked()
    bench.field(2, "dye").evaluate("field => { field.closest('details').open = true; }")
    bench.field(2, "dye").fill("acid")
    assert bench.page.evaluate("document.activeElement.className") == "dye"
    bench.answered()
    assert bench.names() == ["Foam", "Wrack", "Plum"]
    assert bench.page.evaluate("document.activeElement.className") == "dye"
    bench.page.keyboard.type("s")
    bench.settled()
    assert bench.plan.names == ("Foam", "Wrack", "Plum")
    assert (bench.plan.lots[1].note, bench.plan.lots[1].dye) == ("dull", "acids")


def test_a_field_that_fingers_rest_in_follows_another_bench_unless_they_typed(bench):
    bench.field(0, "mass_g").fill("12,")
    bench.field(1, "mass_g").focus()
    bench.elsewhere(with_one(1, mass_g="30"))
    bench.asked()
    bench.answered()
    assert bench.field(1, "mass_g").input_value() == "30"
    assert bench.field(0, "mass_g").input_value() == "12"
    bench.field(0, "mass_g").focus()
    bench.page.keyboard.type(",")
    bench.settled()
    assert bench.field(0, "mass_g").input_value() == "12,"
    bench.page.keyboard.type("5")
    bench.settled()
    assert [lot.mass_g for lot in bench.plan.lots] == [12.5, 30, 10]


def test_a_lot_that_is_removed_while_an_answer_is_on_its_way_stays_away(bench):
    bench.field(0, "note").fill("dull")
    bench.asked()
    bench.page.locator(ROW).nth(1).locator("button").click()
    bench.elsewhere(with_one(2, dye="acid"))
    bench.answered()
    assert bench.names() == ["Kelp", "Wrack"]
    bench.settled()
    assert bench.plan.names == ("Kelp", "Wrack")
    assert (bench.plan.lots[0].note, bench.plan.lots[1].dye) == ("dull", "acid")


def test_a_lot_that_is_added_while_an_answer_is_on_its_way_is_added_once(bench):
    bench.field(0, "note").fill("dull")
    bench.asked()
    bench.page.get_by_role("button", name="Add a lot").click()
    bench.elsewhere(lambda rows: [*rows, Row(None, "Plum", "#5b2a4f", "9")])
    bench.answered()
    bench.settled()
    assert bench.names() == ["Kelp", "Foam", "Wrack", "Plum", "Lot 4"]
    assert list(bench.plan.names) == bench.names()

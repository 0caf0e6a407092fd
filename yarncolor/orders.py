"""Which order? The best of all orders of your lots, valued one and all, or as many as can be.

Looking

- `aims`: what an order can be good at, in words, for a notebook
- `asked`: from a plan to the plan that asks for other aims, held lots, neighbours …
- `torn`: from a plan to the one whose braid is torn into its colours, so that they have orders
- `search`: from a plan, the best orders: six that differ, those that nothing beats, today's
- `Looking`: the same step by step, with the best so far; it may be stopped

What was found

- `choices`: today's order and the best in a table, for a notebook
- `picture`: the same as strips, on one scale
- `trade_off`: all orders between two aims, with those that none beats on both
- `summary`: all of it in words
- `numbers`: all of it as data, the keys of ``orders.json``
- `write`: numbers, table and picture into a folder
- `taken`: a plan in one of the orders found

Examples
--------
>>> import yarncolor as yc
>>> found = yc.orders.search(yc.read_plan("sample_data/slack_water.toml"))
>>> found.exact, len(found.best)
(True, 6)
"""

from yarncolor.editing.asked_orders import asked
from yarncolor.editing.torn_braid import torn
from yarncolor.report.orders import orders_dict as numbers
from yarncolor.report.orders import orders_text as summary
from yarncolor.report.orders import write_orders as write
from yarncolor.report.orders_command import in_that_order as taken
from yarncolor.report.show.orders import show_aims as aims
from yarncolor.report.show.orders import show_order_strips as picture
from yarncolor.report.show.orders import show_orders as choices
from yarncolor.report.show.orders import show_trade_off as trade_off
from yarncolor.search.looking import Looking
from yarncolor.search.looking import looked as search

__all__ = [
    "Looking",
    "aims",
    "asked",
    "choices",
    "numbers",
    "picture",
    "search",
    "summary",
    "taken",
    "torn",
    "trade_off",
    "write",
]

"""One column of the side-by-side bench changed, against the whole bench made anew."""

from itertools import cycle

from tests.helpers.paths import TIDELINE
from yarncolor.widgets.comparison_bench import comparison_bench

GROUP = "side by side, the scheme of one column"


def test_one_column_is_changed(benchmark, tmp_path):
    benchmark.group = GROUP
    benchmark.extra_info["against"] = "ours"
    bench = comparison_bench(TIDELINE, tmp_path).bench
    column = bench.columns[1]
    schemes = cycle(("fractal", "matched", "flipped", "staggered", "mirrored"))
    before = column.image.value

    def change():
        column.choosers["scheme"].value = next(schemes)

    benchmark(change)
    assert column.image.value != before


def test_the_whole_bench_is_made_anew(benchmark, tmp_path):
    benchmark.group = GROUP
    benchmark.extra_info["against"] = "the whole bench made anew"
    bench = benchmark(comparison_bench, TIDELINE, tmp_path)
    assert len(bench.bench.columns) > 1

# `make lab` opens the notebooks, `make app` the bench as a page, `make test` proves everything,
# `make check` what can be proved without running it, `make bench` measures, `make mutants` tests the tests.
PYTHON ?= python3
BIN := .venv/bin
WORKERS ?= auto
# A worker does a file whole, and all tests on one server: see tests/conftest.py.
A_FILE_EACH := --dist loadgroup --no-loadscope-reorder
# JupyterLab wants to be told where the only user is root, as in a container.
AS_ROOT := $(if $(filter 0,$(shell id -u)),--allow-root)

PLAN ?=
OUT ?= out

.PHONY: lab app thorough test bench check mutants notebooks clean

lab: .venv/.installed
	$(BIN)/jupyter lab $(AS_ROOT) notebooks/00_contents.ipynb

# The bench as a page without code: `make app PLAN=my_yarn.toml OUT=my_yarn`.
# A page that is closed ends what reckoned for it. One that sleeps with its laptop is left alone,
# for a week; what a crashed browser left behind goes then, or with the program. All that the server
# is told stands in `yarncolor/widgets/page/voila.json`.
app: .venv/.installed
	$(BIN)/yarncolor bench $(PLAN) --out $(OUT)

test: check
	$(BIN)/pytest -n $(WORKERS) $(A_FILE_EACH) -q
	$(BIN)/pytest --nbval --nbval-current-env -n $(WORKERS) --dist loadfile -q notebooks

# What continuous integration adds: every notebook on every sample plan, on one lot and on sixty,
# a picture of every page in `screenshots`, extremes, speed under the fingers, and every law on many
# examples.
thorough: .venv/.installed
	$(BIN)/pytest -n $(WORKERS) -q -m thorough
	$(BIN)/pytest -n $(WORKERS) -q -m "hypothesis and not thorough" --hypothesis-profile=thorough

# Style, import contracts, types, JavaScript.
check: .venv/.installed
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/lint-imports
	$(BIN)/mypy
	$(BIN)/oxlint --quiet --deny-warnings yarncolor

bench: .venv/.installed
	$(BIN)/pytest tests/benchmarks -q -n 0 -m "thorough or not thorough" --benchmark-enable --benchmark-columns=median,min,rounds

# Small faults in the model rooms, one at a time: the share that the tests see. A seeded sample;
# `make mutants MUTANTS=100 ROOM=yarn SEED=3 JOBS=1` for another.
mutants: .venv/.installed
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[mutants]"
	MUTANTS=$(MUTANTS) ROOM=$(ROOM) SEED=$(SEED) JOBS=$(JOBS) $(BIN)/python -m tests.mutants

# Run every notebook anew and keep its outputs in the file.
notebooks: .venv/.installed
	$(BIN)/jupyter nbconvert --to notebook --execute --inplace \
		--ExecutePreprocessor.record_timing=False \
		--ExecutePreprocessor.store_widget_state=False notebooks/*.ipynb

.venv/.installed: pyproject.toml
	test -d .venv || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[test]"
	touch $@

clean:
	rm -rf .venv .venv-lowest build dist *.egg-info

# `make lab` opens the notebooks, `make test` proves everything, `make bench` measures.
PYTHON ?= python3
BIN := .venv/bin
WORKERS ?= auto
# JupyterLab wants to be told where the only user is root, as in a container.
AS_ROOT := $(if $(filter 0,$(shell id -u)),--allow-root)

.PHONY: lab test bench check notebooks clean

lab: .venv/.installed
	$(BIN)/jupyter lab $(AS_ROOT) notebooks/01_first_plan.ipynb

test: check
	$(BIN)/pytest -n $(WORKERS) -q
	$(BIN)/pytest --nbval --nbval-current-env -n $(WORKERS) --dist loadfile -q notebooks

check: .venv/.installed
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/lint-imports

bench: .venv/.installed
	$(BIN)/pytest tests/benchmarks -q -n 0 --benchmark-enable --benchmark-columns=median,min,rounds

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
	rm -rf .venv build dist *.egg-info

"""Every notebook runs from a clean kernel on every sample plan, on one lot and on sixty."""

import re
from pathlib import Path
from shutil import copytree

import nbformat
import pytest
from nbclient import NotebookClient

from tests.helpers.paths import ROOT

NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
SAMPLES = sorted((ROOT / "sample_data").glob("*.toml"))


def lots(count: int) -> str:
    return "".join(
        f'[[lots]]\nname = "Lot {at}"\ncolour = "#{at * 37 % 256:02x}{at * 91 % 256:02x}80"\n'
        f"mass_g = {10 + at % 7}\n"
        for at in range(count)
    )


@pytest.fixture(params=[*(path.stem for path in SAMPLES), "one_lot", "sixty_lots"])
def plan_file(request, tmp_path) -> Path:
    path = tmp_path / f"{request.param}.toml"
    made = {"one_lot": lots(1), "sixty_lots": lots(60) + '[scheme]\nname = "fractal"\n'}
    sample = ROOT / "sample_data" / path.name
    path.write_text(made.get(request.param) or sample.read_text(encoding="utf-8"), "utf-8")
    return path


def executed(book, folder: Path) -> None:
    """Run a notebook; of kernels that begin at once and ask for one port, one never answers."""
    where = {"metadata": {"path": folder}}
    try:
        NotebookClient(book, timeout=120, resources=where).execute()
    except RuntimeError as error:
        if "Kernel didn't respond" not in str(error):
            raise
        NotebookClient(book, timeout=120, resources=where).execute()


@pytest.mark.thorough
@pytest.mark.parametrize("notebook", NOTEBOOKS, ids=lambda path: path.stem)
def test_notebook_runs_on(notebook, plan_file, tmp_path):
    book = nbformat.read(notebook, as_version=4)
    (cell,) = [cell for cell in book.cells if "parameters" in cell.metadata.get("tags", [])]
    cell.source = f"plan_file = {str(plan_file)!r}\nout_folder = {str(tmp_path / 'out')!r}"
    before = plan_file.read_bytes()
    copytree(ROOT / "sample_data", tmp_path / "sample_data")
    folder = tmp_path / "notebooks"
    folder.mkdir()
    executed(book, folder)
    assert plan_file.read_bytes() == before
    assert "NOT EQUAL" not in printed_by(book)


def printed_by(book) -> str:
    """Return what the cells of a notebook printed."""
    outputs = [out for cell in book.cells for out in cell.get("outputs", [])]
    return "".join(out.get("text", "") for out in outputs)


@pytest.mark.parametrize("notebook", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_notebook_tells_a_story(notebook):
    cells = nbformat.read(notebook, as_version=4).cells
    code = [cell for cell in cells if cell.cell_type == "code"]
    assert cells[0].cell_type == "markdown"
    assert all("def " not in cell.source for cell in code)
    assert all("import" not in cell.source for cell in code[1:])
    assert all(len(cell.source.splitlines()) <= 12 for cell in code)
    shows = code[2:]
    assert all(cell.outputs for cell in shows)
    assert any("image/png" in out.get("data", {}) for cell in shows for out in cell.outputs)


def links(cell) -> list[str]:
    return re.findall(r"\]\(([^)]+\.ipynb)\)", cell.source)


def test_the_contents_lead_to_every_notebook():
    contents, *others = NOTEBOOKS
    cells = nbformat.read(contents, as_version=4).cells
    linked = [link for cell in cells[:-1] for link in links(cell)]
    assert linked == [path.name for path in others]


def test_the_contents_count_as_the_files_do():
    cells = nbformat.read(NOTEBOOKS[0], as_version=4).cells
    listed = re.findall(
        r"^- \*\*(\d+)\*\* \[[^\]]+\]\((\d+)_", "".join(c.source for c in cells), re.M
    )
    assert [number for number, _ in listed] == [path.name[:2] for path in NOTEBOOKS[1:]]
    assert all(number == of_file for number, of_file in listed)


@pytest.mark.parametrize("at", range(len(NOTEBOOKS)), ids=lambda at: NOTEBOOKS[at].stem)
def test_a_notebook_ends_with_links_to_contents_and_its_neighbours(at):
    cell = nbformat.read(NOTEBOOKS[at], as_version=4).cells[-1]
    others = [NOTEBOOKS[near] for near in (at - 1, at + 1) if 0 < near < len(NOTEBOOKS)]
    wanted = [NOTEBOOKS[0], *others] if at else others
    assert cell.cell_type == "markdown"
    assert links(cell) == [path.name for path in wanted]

"""JavaScript files as one module: joined by their imports, refused where that cannot be done."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.helpers.paths import ROOT
from yarncolor.scripts import JoinError, joined, program, script_of

SCRIPTS = sorted((ROOT / "yarncolor").rglob("*.js"))
ENTRIES = [path for path in SCRIPTS if "export default" in path.read_text(encoding="utf-8")]


def written(folder: Path, **texts: str) -> Path:
    for name, text in texts.items():
        (folder / f"{name}.js").write_text(text, encoding="utf-8")
    return folder / "entry.js"


def test_a_file_and_what_it_imports_are_one_module(tmp_path):
    entry = written(
        tmp_path,
        entry='import { two } from "./two.js";\n\nexport default { render: () => two };\n',
        two='import { one } from "./one.js";\nconst own = 1;\nexport const two = one + own;\n',
        one="const own = 1;\nexport const one = own;\n",
    )
    text = joined(entry)
    assert re.findall(r"^// (\w+)[.]js", text, re.M) == ["one", "two", "entry"]
    assert re.findall(r"^(?:import|export)\b.*", text, re.M) == ["export default file2.widget;"]


def test_a_script_of_a_page_does_its_work_when_it_is_read(tmp_path):
    entry = written(
        tmp_path,
        entry='import { one } from "./one.js";\ndocument.title = one;\n',
        one='export const one = "Kelp";\n',
    )
    text = program(entry)
    assert re.findall(r"^(?:import|export)\b.*", text, re.M) == []
    assert text.index('one = "Kelp"') < text.index("document.title = one")


def test_a_script_of_a_page_goes_without_what_only_its_readers_need(tmp_path):
    entry = written(tmp_path, entry="// why\nif (one) {\n\n  // how\n  two('//'); // three\n}\n")
    assert "if (one) {\ntwo('//'); // three\n}\n" in program(entry)
    over = written(tmp_path, entry="const one = `a\n  b`;\n")
    with pytest.raises(JoinError, match="goes over the end of its line"):
        program(over)


def test_a_file_that_two_import_is_joined_once(tmp_path):
    entry = written(
        tmp_path,
        entry='import { a } from "./a.js";\nimport { b } from "./b.js";\nexport default { a, b };',
        a='import { one } from "./one.js";\nexport const a = one;',
        b='import {\n  one,\n} from "./one.js";\nexport const b = one;',
        one="export const one = 1;",
    )
    assert joined(entry).count("// one.js") == 1


@pytest.mark.parametrize(
    ("files", "words"),
    [
        ({"entry": 'import { a } from "./a.js";\nexport default { a };'}, "a.js: cannot be read"),
        (
            {"entry": 'import { a } from "./a.js";\nexport default { a };', "a": "const a = 1;"},
            "a.js exports no a",
        ),
        (
            {
                "entry": 'import { a } from "./a.js";\nexport default { a };',
                "a": 'import { b } from "./b.js";\nexport const a = b;',
                "b": 'import { a } from "./a.js";\nexport const b = a;',
            },
            "in a circle",
        ),
        ({"entry": "export const one = 1;"}, "nothing is exported by default"),
        ({"entry": 'import * as a from "./a.js";'}, "not understood: import * as a"),
        ({"entry": 'import "./a.js";'}, "not understood"),
        ({"entry": 'import { a as b } from "./a.js";'}, "not understood"),
        ({"entry": 'import { a } from "https://a/a.js";'}, "not understood"),
        ({"entry": 'const a = import("./a.js");'}, "not understood"),
        ({"entry": "export let a = 1;"}, "not understood: export let a = 1;"),
        ({"entry": "export { a };"}, "not understood"),
    ],
)
def test_what_cannot_be_joined_is_refused(tmp_path, files, words):
    entry = written(tmp_path, **files)
    with pytest.raises(JoinError, match=re.escape(words)):
        joined(entry)


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.stem)
def test_every_import_is_used_and_every_export_is_imported_somewhere(path):
    script = script_of(path)
    for names in script.imports.values():
        unused = [name for name in names if not re.search(rf"\b{name}\b", script.body)]
        assert unused == []
    taken = {
        name
        for other in SCRIPTS
        for source, names in script_of(other).imports.items()
        if source == path
        for name in names
    }
    assert set(script.exports) - {"widget"} == taken


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda path: path.stem)
def test_every_widget_s_module_is_read_by_node(entry, tmp_path):
    if not (node := shutil.which("node")):
        pytest.skip("no node on this machine; browser tests read the modules")
    path = tmp_path / "widget.mjs"
    path.write_text(joined(entry), encoding="utf-8")
    ran = subprocess.run([node, "--check", path], capture_output=True, text=True, check=False)
    assert ran.stderr == ""

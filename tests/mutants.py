"""`make mutants`: small faults are put into the model rooms, one at a time; do the tests see them?

A seeded sample of all mutants that mutmut makes of `yarn`, `colour` without photographs, `layout`
and `answers`. Those in `equivalent_mutants.txt` change nothing that anybody could see, each with
its reason, and do not count; nor do those of `zip(strict=True)`, which only stops who would pair
what is not of one length. mutmut tries all faults in copies of one process, in which tables are
made and caches are full before the fault is there; one that lives is tried again in a process of
its own. All others that live are told. Fails below 95 of 100.
"""

import json
import os
import random
import re
import subprocess
import sys
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from tempfile import NamedTemporaryFile

ROOT = Path(__file__).parents[1]
EQUIVALENT = Path(__file__).with_name("equivalent_mutants.txt")
WANTED, MANY, SEED = 0.95, 100, 22
SEEN = ("killed", "timeout", "suspicious", "segfault")
_STRICT = re.compile(r"(, )?strict=\w+|, (?=\))")
_FEW = "yarncolor.yarn.bisection*"
"""Asked for first, so that all mutants are made and it is known which tests meet which function."""


def mutmut(*words: str) -> list[str]:
    """Return the lines that mutmut prints."""
    asked = [sys.executable, "-m", "mutmut", *words]
    done = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode:
        sys.exit(f"{done.stdout[-4000:]}\n{done.stderr[-4000:]}")
    return done.stdout.splitlines()


def lives_alone(mutant: str) -> bool:
    """Return whether the tests that meet a mutant pass where it is there from the beginning."""
    known = json.loads((ROOT / "mutants/mutmut-stats.json").read_text(encoding="utf-8"))
    tests = known["tests_by_mangled_function_name"][mutant.partition("__mutmut_")[0]]
    seconds = sum(known["duration_by_test"].get(test, 0.0) for test in tests)
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    with NamedTemporaryFile("w", encoding="utf-8", suffix=".txt") as file:
        file.write("\n".join(tests))
        file.flush()
        said = settings["tool"]["mutmut"]["pytest_add_cli_args"]
        asked = [*said, "--exitfirst", "--quiet", f"@{file.name}"]
        try:
            done = subprocess.run(
                [sys.executable, "-m", "pytest", *asked],
                cwd=ROOT / "mutants",
                env=os.environ | {"MUTANT_UNDER_TEST": mutant, "PYTHONPATH": str(ROOT / "mutants")},
                capture_output=True,
                text=True,
                check=False,
                timeout=60 + 10 * seconds,
            )
        except subprocess.TimeoutExpired:
            return False
    if done.returncode > 2:
        sys.exit(f"{done.stdout[-4000:]}\n{done.stderr[-4000:]}")
    return done.returncode == 0


def statuses() -> dict[str, str]:
    """Return what became of every mutant, by its name."""
    pairs = (line.strip().partition(": ") for line in mutmut("results", "--all", "true"))
    return {name: status for name, _, status in pairs if "__mutmut_" in name}


def drawn(names: dict[str, str]) -> list[str]:
    """Return the sample: of how many, of which room and by which seed can be asked for."""
    asked = os.environ
    room = f"yarncolor.{asked.get('ROOM', '')}"
    inside = sorted(name for name in names if name.startswith(room))
    many, seed = int(asked.get("MUTANTS") or MANY), int(asked.get("SEED") or SEED)
    return random.Random(seed).sample(inside, min(many, len(inside)))  # noqa: S311


def change(mutant: str) -> str:
    """Return a mutant's function, the line as it is and the line as it becomes."""
    lines = [line for line in mutmut("show", mutant) if line[:3] not in ("---", "+++")]
    was, is_now = (
        " ".join(line[1:].strip() for line in lines if line.startswith(sign)) for sign in "-+"
    )
    return f"{mutant.partition('__mutmut_')[0]} | {was} | {is_now}"


def equivalent() -> set[str]:
    """Return the changes that nobody could see."""
    lines = EQUIVALENT.read_text(encoding="utf-8").splitlines()
    return {line for line in lines if line.count(" | ") > 1}


def is_of_strictness(change: str) -> bool:
    """Return whether nothing but the strictness of a pairing is changed."""
    _, was, is_now = change.split(" | ", 2)
    return _STRICT.sub("", was) == _STRICT.sub("", is_now)


def main() -> int:
    """Make, draw, try and count."""
    jobs = os.environ.get("JOBS") or str(os.cpu_count() or 1)
    mutmut("run", "--max-children", jobs, _FEW)
    sample = drawn(statuses())
    mutmut("run", "--max-children", jobs, *sample)
    found, known = statuses(), equivalent()
    alive = {mutant: change(mutant) for mutant in sample if found[mutant] not in SEEN}
    in_doubt = [
        mutant for mutant, told in alive.items() if told not in known and not is_of_strictness(told)
    ]
    with ThreadPoolExecutor(int(jobs)) as each:
        lives = list(each.map(lives_alone, in_doubt))
    missed = {mutant: alive[mutant] for mutant, lived in zip(in_doubt, lives, strict=True) if lived}
    counted = len(sample) - len(alive) + len(in_doubt)
    score = 1 - len(missed) / max(counted, 1)
    told = [f"{found[mutant]}: {mutant}\n  {text}" for mutant, text in missed.items()]
    told.append(f"{counted - len(missed)} of {counted} seen: {score:.1%}")
    told.append(f"{len(alive) - len(in_doubt)} more change nothing.")
    sys.stdout.write("\n".join(told) + "\n")
    return 0 if counted and score >= WANTED else 1


if __name__ == "__main__":
    sys.exit(main())

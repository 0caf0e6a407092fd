"""What a wheel takes along beside the package: the notebooks, and the invented plans they use.

Everything else about the build stands in `pyproject.toml`.
"""

from pathlib import Path
from shutil import copy2

from setuptools import setup
from setuptools.command.build_py import build_py

_TAKEN = ("notebooks/*.ipynb", "sample_data/*.toml")
_HERE = Path(__file__).parent


class WithSamples(build_py):
    """Build the package with what `yarncolor.samples` hands out; a checkout has it beside."""

    def run(self) -> None:
        """Build, then copy."""
        super().run()
        for source, target in self._samples().items():
            target.parent.mkdir(parents=True, exist_ok=True)
            copy2(source, target)

    def get_source_files(self) -> list[str]:
        """Return what a source archive has to hold."""
        return [*super().get_source_files(), *map(str, self._samples())]

    def get_outputs(self, include_bytecode: bool = True) -> list[str]:
        """Return what is written."""
        return [*super().get_outputs(include_bytecode), *map(str, self._samples().values())]

    def _samples(self) -> dict[Path, Path]:
        if self.editable_mode:
            return {}
        paths = [path for each in _TAKEN for path in sorted(_HERE.glob(each))]
        package = Path(self.build_lib) / "yarncolor"
        return {path.relative_to(_HERE): package / path.relative_to(_HERE) for path in paths}


setup(cmdclass={"build_py": WithSamples})

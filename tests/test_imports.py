"""Which way imports run. An allow-list, so that a new dependency is a decision somebody sees."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
STANDARD = set(sys.stdlib_module_names)
ALLOWED = {
    "planning/compute": {"ephem", "astral", "planning.compute"},
    "planning/press": {"PIL", "planning.press", "weasyprint"},
    "intake": {
        "PIL",
        "django",
        "intake",
        "phonenumbers",
        "pillow_heif",
        "studio.asker",
        "studio.turns",
        "studio.words",
    },
    "studio": {
        "axes",
        "babel",
        "boto3",
        "botocore",
        "django",
        "storages",
        "studio",
        "dj_database_url",
        "csp",
        "intake.urls",
        "planning.urls",
    },
    "planning": {
        "PIL",
        "astral",
        "axes",
        "django",
        "fontTools",
        "icalendar",
        "intake",
        "numpy",
        "ortools",
        "planning",
        "pvlib",
        "segno",
        "studio",
        "tzfpy",
        "waitress",
        "weasyprint",
    },
}


def folder_of(path: Path) -> str:
    name = path.relative_to(ROOT).as_posix()
    return next(folder for folder in ALLOWED if name.startswith(folder + "/"))


def imported(path: Path):
    """Every module a file imports, relative imports made whole."""
    package = path.relative_to(ROOT).parent.parts
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else ()
            module = ".".join((*base, *([node.module] if node.module else [])))
            yield from (f"{module}.{alias.name}" for alias in node.names)


def is_allowed(module: str, allowed: set[str]) -> bool:
    top = module.split(".")[0]
    return top in STANDARD or any(module == a or module.startswith(a + ".") for a in allowed)


SOURCES = [
    path
    for folder in ("studio", "intake", "planning")
    for path in sorted((ROOT / folder).rglob("*.py"))
    if "migrations" not in path.parts
]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_file_imports_only_what_its_folder_may(path):
    allowed = ALLOWED[folder_of(path)]
    wrong = [module for module in imported(path) if not is_allowed(module, allowed)]
    assert not wrong, f"{path.relative_to(ROOT)} may not import {', '.join(wrong)}"


def test_the_whole_computing_loads_without_django():
    code = (
        "import sys, pkgutil, importlib, planning.compute as c\n"
        "for m in pkgutil.walk_packages(c.__path__, 'planning.compute.'):\n"
        "    importlib.import_module(m.name)\n"
        "sys.exit('django' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=False).returncode == 0

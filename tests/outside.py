"""Checkers that are no Python library: where they lie, and what happens where one is missing."""

import os
import shutil
from pathlib import Path

import pytest

TOOLS = Path(__file__).parent.parent / ".tools"


def outside(path, *programs):
    """The checker at `path` under .tools/, which also needs these programs of the machine.

    Where one is missing, the test fails under CI and is skipped elsewhere, with what to do.
    """
    there = [] if (TOOLS / path).exists() else [f".tools/{path} (run .ci/tools)"]
    _ask_for([*_not_here(programs), *there])
    return TOOLS / path


def needs(*programs):
    """The same for programs of the machine alone."""
    _ask_for(_not_here(programs))


def _not_here(programs):
    return [program for program in programs if shutil.which(program) is None]


def _ask_for(missing):
    if missing and os.environ.get("CI"):
        pytest.fail(f"needs {', '.join(missing)}")
    if missing:
        pytest.skip(f"needs {', '.join(missing)}")

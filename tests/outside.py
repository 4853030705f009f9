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
    missing = [program for program in programs if shutil.which(program) is None]
    if not (TOOLS / path).exists():
        missing.append(f".tools/{path} (run .ci/tools)")
    if missing and os.environ.get("CI"):
        pytest.fail(f"needs {', '.join(missing)}")
    if missing:
        pytest.skip(f"needs {', '.join(missing)}")
    return TOOLS / path

"""Scanners let loose on Foreday (see __main__.py)."""

#!/usr/bin/env python
"""Foreday's command line; see README.md for the commands."""

import os
import sys


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line
    from django.db import DatabaseError

    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="backslashreplace")  # a terminal that cannot write Łukasz
    try:
        execute_from_command_line(sys.argv)
    except (ImproperlyConfigured, DatabaseError) as error:
        print(" ".join(str(error).split()), file=sys.stderr)
        sys.exit(2)


if __name__ == "__main__":
    main()

#!/usr/bin/env python
"""Foreday's command line; see README.md for the commands."""

import os
import sys
from typing import NoReturn


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    from django.conf import settings
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line
    from django.db import DatabaseError

    from studio.disk import refusal

    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="backslashreplace")  # a terminal that cannot write Łukasz
    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as error:
        refuse(str(error))
    except DatabaseError as error:
        why = refusal(settings.DATA_DIR)  # SQLite cannot say why it opens no file
        refuse(f"{error} (the data folder: {why.strerror})" if why else str(error))


def refuse(words: str) -> NoReturn:
    print(" ".join(words.split()), file=sys.stderr)
    sys.exit(2)


if __name__ == "__main__":
    main()

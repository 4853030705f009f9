#!/usr/bin/env python
"""Foreday's command line; see README.md for the commands."""

import os
import sys


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    try:
        from django.core.management import execute_from_command_line

        from planning.management.terminal import told_in_one_line

        with told_in_one_line():
            execute_from_command_line(sys.argv)
    except KeyboardInterrupt:  # while all that was still being read, too
        sys.exit(130)  # as for every program that Ctrl-C ends


if __name__ == "__main__":
    main()

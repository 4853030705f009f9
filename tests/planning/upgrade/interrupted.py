"""Run in a process of its own: `migrate`, killed (SIGKILL) at its Nth statement, if it has so many.

The statements are those of `migrate` itself: the backup before it is made by then.
"""

import os
import signal
import sys

import django


def main(last):
    django.setup()
    from django.core.management import call_command
    from django.db import connection

    left = int(last)

    def count(execute, *args):
        nonlocal left
        left -= 1
        if not left:
            os.kill(os.getpid(), signal.SIGKILL)
        return execute(*args)

    with connection.execute_wrapper(count):
        call_command("migrate", verbosity=0, interactive=False)


if __name__ == "__main__":
    os.environ["DJANGO_SETTINGS_MODULE"] = "studio.settings"
    main(sys.argv[1])

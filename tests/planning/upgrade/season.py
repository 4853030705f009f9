"""Run in a process of its own, on the place of its environment. What it finds is one JSON object.

make NODE...     a database of that point in the migrations, with rows in every table: the rows
look WEDDING...  the rows as today's program reads them, what it would still migrate, and what
                 every page of these weddings answers; fails where the database is not sound
draw WEDDING...  the same, and the papers of the first of them, which take their time
"""

import io
import json
import os
import sys
from itertools import chain

import django

DRAWN = {"paper", "second_photographer", "words_pdf"}


def dumped(apps):
    """{table: {key: {column: value}}}, values as text."""
    found = {}
    for model in apps.get_models(include_auto_created=True):
        columns = [field.attname for field in model._meta.local_concrete_fields]
        rows = model._base_manager.order_by("pk").values(*columns)
        found[model._meta.label] = {
            str(row[model._meta.pk.attname]): {name: repr(value) for name, value in row.items()}
            for row in rows
        }
    return found


def make(nodes):
    from django.db.migrations.loader import MigrationLoader

    from intake.store import put
    from planning.backup.rows import migrate_to, models_at

    from .filler import fill

    graph = MigrationLoader(None).graph
    ours = {tuple(node.split(".")) for node in nodes}
    # Other people's apps as they are today: they have histories, and tests of them, of their own.
    last = ours | {leaf for leaf in graph.leaf_nodes() if leaf[0] not in {app for app, _ in ours}}
    every = {each for node in last for each in graph.forwards_plan(node)}
    migrate_to("default", every)
    apps = models_at(every)
    drawn = (b"\xff\xd8 large", b"\xff\xd8 small", (60, 40))
    fill(apps, lambda folder, i: put(drawn, folder, f"digest {i}").as_row())
    return {"rows": dumped(apps), "applied": [".".join(node) for node in every]}


def look(weddings, drawn=frozenset()):
    from django.apps import apps
    from django.core.management import call_command
    from django.db import connection

    from planning.backup import database

    rows = dumped(apps)  # before any page is asked for
    if connection.vendor == "sqlite":
        database.must_be_sound("default")
    connection.check_constraints()
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)
    again = io.StringIO()
    call_command("migrate", stdout=again)
    return {"rows": rows, "again": again.getvalue(), "pages": list(asked(weddings, drawn))}


def asked(weddings, drawn):
    """(address, status) of each page that there is, for an owner and for the couple."""
    from django.contrib.auth.models import User
    from django.test import Client

    from intake.links import link_path
    from intake.models import Wedding
    from tests.conftest import owner
    from tests.test_access import ONLY_WRITES, SECRETS, TABLE, addresses

    names = set(TABLE) - ONLY_WRITES - set(SECRETS) - DRAWN - {"sheet"}
    account = weddings and owner(User, "tansy")
    for wedding in Wedding.objects.filter(public_id__in=weddings).order_by("pk"):
        clients = [Client(HTTP_HOST="localhost", raise_request_exception=False) for _ in range(2)]
        clients[0].force_login(account)
        clients[1].get(link_path(wedding))
        every = (addresses(name, wedding) for name in sorted(names | drawn))
        for address in chain.from_iterable(every):
            for client in clients if address.startswith("/q/") else clients[:1]:
                yield address, client.get(address).status_code
        drawn = frozenset()


def main(what, *args):
    django.setup()
    found = {"make": make, "look": look, "draw": lambda weddings: look(weddings, DRAWN)}
    json.dump(found[what](args), sys.stdout)


if __name__ == "__main__":
    os.environ["DJANGO_SETTINGS_MODULE"] = "studio.settings"
    main(*sys.argv[1:])

"""Run in a process of its own: all that can be seen of a place, as one JSON object."""

import json
import os
import sys
import tempfile
from base64 import b64encode
from pathlib import Path

import django

OURS = ("intake", "planning", "studio", "auth", "contenttypes")


def look(wedding):
    from django.apps import apps
    from django.core import serializers
    from django.core.management import call_command
    from django.db import connection

    from intake.links import link_path
    from intake.models import Wedding

    with tempfile.TemporaryDirectory() as folder, open(os.devnull, "w") as nowhere:
        out = Path(folder) / "pack.pdf"
        call_command("daypack", wedding, "--out", str(out), stdout=nowhere)
        pack = b64encode(out.read_bytes()).decode()
    models = [m for m in apps.get_models() if m._meta.app_label in OURS]
    rows = [row for m in models for row in m._base_manager.order_by("pk")]
    return {
        "database": connection.vendor,
        "links": [link_path(wedding) for wedding in Wedding.objects.order_by("pk")],
        "rows": serializers.serialize("python", rows),
        "pack": pack,
    }


if __name__ == "__main__":
    os.environ["DJANGO_SETTINGS_MODULE"] = "studio.settings"
    django.setup()
    json.dump(look(sys.argv[1]), sys.stdout, default=str)

"""Visits a container that `.ci/container` runs, from within its network: nginx as in the guide.

Reads what `demo --json` said in there.
"""

import json
import sys
import tempfile
from pathlib import Path
from urllib.parse import urlsplit

from studio.ask_health import PORT
from tests.proxy import Visitor, proxying

made = json.load(sys.stdin)
with tempfile.TemporaryDirectory() as folder, proxying(Path(folder), PORT) as (_http, https):
    place = Path(folder)
    photographer, couple = Visitor(place, https), Visitor(place, https)
    account = {name: made["sign_in"][name] for name in ("username", "password")}
    typed = photographer.form("/sign-in") | account
    answered = [photographer.ask("/sign-in", typed)[0], photographer.ask("/")[0]]
    assert answered == [302, 200], answered
    link = urlsplit(made["weddings"][0]["link"]).path
    answered = [couple.ask(link)[0], couple.ask(link.rsplit("/", 1)[0] + "/")[0]]
    assert answered == [302, 200], answered

"""nginx as the guide sets it up, in front of the real server, on loopback."""

import os
import re
import shutil
import socket
import ssl
import subprocess
from contextlib import contextmanager
from http.client import HTTPSConnection
from pathlib import Path
from types import SimpleNamespace
from urllib.parse import urlencode

import pytest

from tests.page import Page
from tests.server import ROOT, free_port, is_open, running

NAME = "studio.example"
DEBIANS = Path("/etc/nginx/nginx.conf")


def nginx():
    path = shutil.which("nginx") or shutil.which("nginx", path="/usr/sbin")
    if path is None:
        # On CI a missing server is a failure: nothing may be skipped there.
        missing = "needs nginx: apt-get install nginx-light"
        (pytest.fail if os.environ.get("CI") else pytest.skip)(missing)
    return path


def main_file(place, guide):
    """Debian's own main file, with our folder for its, and the guide's file in the place of all."""
    text = DEBIANS.read_text()
    text = re.sub(r"(?m)^user .*$", "user root;" if os.geteuid() == 0 else "", text)
    text = re.sub(r"(?m)^.*(modules|sites)-enabled.*$", "", text)
    text = text.replace("/var/log/nginx", f"{place}/log").replace("/run/nginx.pid", f"{place}/pid")
    own = "".join(
        f"{each}_temp_path {place}/{each};\n"
        for each in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    assert "include /etc/nginx/conf.d/*.conf;" in text
    return text.replace("include /etc/nginx/conf.d/*.conf;", f"{own}\n{guide}")


def from_the_guide(place, http, https, upstreams):
    """The guide's own configuration with our ports, certificate and folder in it."""
    guide = (ROOT / "studio" / "online.md").read_text()
    server, upstream = re.findall(r"```nginx\n(.*?)```", guide, re.DOTALL)
    if len(upstreams) > 1:
        names = iter(upstreams)
        upstream = re.sub(r"127\.0\.0\.1:\d+", lambda _: f"127.0.0.1:{next(names)}", upstream)
        server = upstream + server.replace("http://127.0.0.1:8000", "http://foreday")
    else:
        server = server.replace("127.0.0.1:8000", f"127.0.0.1:{upstreams[0]}")
    server = re.sub(r"(?m)^\s*listen \[::\].*\n", "", server)  # a machine without IPv6
    server = re.sub(r"listen 80\b", f"listen 127.0.0.1:{http}", server)
    server = re.sub(r"listen 443\b", f"listen 127.0.0.1:{https}", server)
    server = re.sub(r"/etc/letsencrypt/live/[\w.]+", str(place), server)
    return server.replace("/var/log/nginx", f"{place}/log")


def make_certificate(place):
    command = ["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256"]
    command += ["-nodes", "-days", "2", "-subj", f"/CN={NAME}"]
    command += ["-addext", f"subjectAltName=DNS:{NAME}", "-keyout", f"{place}/privkey.pem"]
    command += ["-out", f"{place}/fullchain.pem"]
    subprocess.run(command, check=True, capture_output=True)


@contextmanager
def proxying(place: Path, *upstreams):
    """Gives the ports for HTTP and HTTPS."""
    program, http, https = nginx(), free_port(), free_port()
    (place / "log").mkdir()
    make_certificate(place)
    guide = from_the_guide(place, http, https, upstreams)
    (place / "nginx.conf").write_text(main_file(place, guide))
    command = [program, "-p", str(place), "-c", str(place / "nginx.conf")]
    command += ["-e", str(place / "start.log"), "-g", "daemon off;"]
    with running(command, https):
        assert is_open(http)
        yield http, https


class Visitor:
    """Asks over TLS, trusts our certificate, and keeps cookies as a browser does."""

    def __init__(self, place, port, name=NAME):
        self.port, self.name, self.cookies = port, name, {}
        self.trust = ssl.create_default_context(cafile=place / "fullchain.pem")

    def ask(self, path, data=None, **headers):
        connection = HTTPSConnection(self.name, timeout=60)
        plain = socket.create_connection(("127.0.0.1", self.port))
        connection.sock = self.trust.wrap_socket(plain, server_hostname=self.name)
        kept = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        sent = {"Cookie": kept, "Referer": f"https://{NAME}{path}"}
        body = urlencode(data, doseq=True) if data is not None else None
        if body is not None:
            sent["Content-Type"] = "application/x-www-form-urlencoded"
        with connection.sock:
            connection.request("GET" if body is None else "POST", path, body, sent | headers)
            answer = connection.getresponse()
            for cookie in answer.headers.get_all("Set-Cookie", []):
                name, _is, value = cookie.split(";")[0].partition("=")
                self.cookies[name] = value
            self.headers = answer.headers
            return answer.status, answer.read().decode()

    def form(self, path):
        """What the form of a page would send, ready to be changed."""
        return Page(SimpleNamespace(content=self.ask(path)[1].encode())).fields

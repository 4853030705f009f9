"""`manage.py serve`: up to date, then open, until it is told to stop."""

import os
import shlex
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from concurrent.futures import ThreadPoolExecutor

import pytest

from tests.own_place import environment_for
from tests.server import ONLINE, PATIENCE, ROOT, free_port, manage, running


def serve(*flags):
    return [sys.executable, "manage.py", "serve", *flags]


def refusal(tmp_path, *flags, **environment):
    run = subprocess.run(
        serve(*flags),
        cwd=ROOT,
        env=os.environ | {"FOREDAY_DATA": str(tmp_path)} | environment,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
    )
    assert run.returncode == 2
    assert run.stderr.count("\n") == 1
    return run.stderr


def health(port):
    with urllib.request.urlopen(f"http://127.0.0.1:{port}/health") as answer:
        return answer.status


def test_two_that_start_at_once_on_an_empty_place_both_come_up(tmp_path):
    """Each migrates, and the second waits for the first."""
    environment = environment_for(tmp_path)
    ports = [free_port(), free_port()]

    def start_and_ask(port):
        with running(serve("--listen", f"127.0.0.1:{port}"), port, environment) as log:
            until = time.monotonic() + PATIENCE
            while "Open until" not in log() and time.monotonic() < until:
                time.sleep(0.1)
            assert f"Open http://127.0.0.1:{port} here." in log()
            return health(port), log().count("Traceback")

    with ThreadPoolExecutor(2) as pool:
        assert list(pool.map(start_and_ask, ports)) == [(200, 0), (200, 0)]


def test_a_season_of_the_version_before_is_backed_up_and_brought_up_to_date(tmp_path):
    environment, port = environment_for(tmp_path), free_port()
    manage(environment, "demo", "--no-serve")
    manage(environment, "migrate", "studio", "0001", "--skip-backup", "-v0")
    with running(serve("--listen", f"127.0.0.1:{port}"), port, environment):
        assert health(port) == 200
    (kept,) = (tmp_path / "backups").iterdir()
    assert kept.name.startswith("before-migrate-")


def test_told_to_stop_it_finishes_and_says_that_all_is_well(tmp_path):
    """As a container or systemd tells it: SIGTERM."""
    port = free_port()
    command = serve("--listen", f"127.0.0.1:{port}")
    with subprocess.Popen(
        command, cwd=ROOT, env=environment_for(tmp_path), stdout=subprocess.PIPE
    ) as server:
        assert b"Open http" in server.stdout.readline()
        time.sleep(0.5)
        server.send_signal(signal.SIGTERM)
        assert server.wait(60) == 0


def test_what_it_says_goes_to_a_full_disk_and_it_serves_all_the_same(tmp_path):
    port = free_port()
    line = f"exec {shlex.join(serve('--listen', f'127.0.0.1:{port}'))} >/dev/full 2>&1"
    with running(["sh", "-c", line], port, environment_for(tmp_path)):
        assert health(port) == 200


def test_a_port_that_is_taken(tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        listen = f"127.0.0.1:{taken.getsockname()[1]}"
        assert f"--listen {listen}: it cannot be used" in refusal(tmp_path, "--listen", listen)
    assert sum(path.stat().st_size for path in tmp_path.glob("foreday.sqlite3*")) == 0


@pytest.mark.parametrize(
    "listen",
    [
        *("127.0.0.1:many", "127.0.0.1", "127.0.0.1:70000", "", "no.such.host.invalid:8000"),
        "127.0.0.1:8000 0.0.0.0:8000",  # two, of which one is for all networks
    ],
)
def test_an_address_that_is_none(tmp_path, listen):
    assert f"--listen {listen}: " in refusal(tmp_path, "--listen", listen)


def test_online_it_asks_where_the_proxy_is(tmp_path):
    assert "--proxy 127.0.0.1" in refusal(tmp_path, **ONLINE)


def test_on_all_networks_it_asks_for_the_name_that_phones_use(tmp_path):
    assert "FOREDAY_HOME_HOSTS" in refusal(tmp_path, "--listen", "0.0.0.0:8000")


def test_a_name_of_the_internet_is_none_of_home_and_both_at_once_are_refused(tmp_path):
    wrong = refusal(tmp_path, FOREDAY_HOME_HOSTS="studio.example")
    assert "studio.example is neither a private address" in wrong
    both = refusal(tmp_path, FOREDAY_HOME_HOSTS="192.168.1.20", **ONLINE)
    assert "one or the other" in both


def test_at_home_a_phone_is_answered_by_the_name_of_home_and_told_nothing_of_tls(tmp_path):
    port = free_port()
    environment = environment_for(tmp_path, FOREDAY_HOME_HOSTS="marigold.local,192.168.1.20")
    with running(serve("--listen", f"0.0.0.0:{port}"), port, environment) as log:
        ask = urllib.request.Request(
            f"http://127.0.0.1:{port}/sign-in", headers={"Host": f"marigold.local:{port}"}
        )
        with urllib.request.urlopen(ask) as answer:
            assert answer.status == 200
            assert "Strict-Transport-Security" not in answer.headers
            assert "Server" not in answer.headers
        assert f"In your own network: http://marigold.local:{port}" in log()
        assert "could read along" in log()

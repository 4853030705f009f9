"""FOREDAY_HOME_HOSTS, as the settings read it: names that cannot stand on the internet."""

import pytest
from django.core.exceptions import ImproperlyConfigured

from studio.home_hosts import home_hosts


@pytest.mark.parametrize(
    "host",
    # The first and last of each block of RFC 1918, and of RFC 4193 as a browser writes it; RFC 6762
    # and RFC 8375 for the names.
    ["10.0.0.0", "10.255.255.255", "172.16.0.0", "172.31.255.255", "192.168.0.0",
     "192.168.255.255", "[fc00::1]", "[fdff::1]", "marigold.local", "desk.marigold.home.arpa",
     "marigold-laptop"],
)  # fmt: skip
def test_a_name_of_home_is_taken(host):
    assert home_hosts(host) == [host]


@pytest.mark.parametrize(
    "host",
    ["9.255.255.255", "11.0.0.0", "172.15.255.255", "172.32.0.0", "192.167.255.255", "192.169.0.0",
     "127.0.0.1", "0.0.0.1", "fc00::1", "[fe00::1]", "[::1]", "[192.168.1.20]", "studio.example",
     "localhost", ".local", "a..local", "*", "192.168.1.20:8000", "http://192.168.1.20",
     "203.0.113.5", "12345"],
)  # fmt: skip
def test_any_other_is_refused_by_name(host):
    with pytest.raises(ImproperlyConfigured) as told:
        home_hosts(f"marigold.local, {host}")
    assert f"FOREDAY_HOME_HOSTS: {host} is neither" in str(told.value)


def test_several_stand_with_commas_and_none_is_fine():
    assert home_hosts(" 192.168.1.20, Marigold.LOCAL ,") == ["192.168.1.20", "marigold.local"]
    assert home_hosts("") == []

"""A browser of the photographer's, or of a couple's, at a server on loopback."""

import http.cookiejar
import re
import urllib.parse
import urllib.request


def browser():
    """Something that opens addresses, and the cookies that it holds."""
    cookies = http.cookiejar.CookieJar()
    return urllib.request.build_opener(urllib.request.HTTPCookieProcessor(cookies)), cookies


def signed_in(site, sign_in):
    """As `demo --json` names the account; an AssertionError where it is not let in."""
    opener, cookies = browser()
    page = opener.open(f"{site}/sign-in", timeout=30).read().decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)[1]
    fields = {key: sign_in[key] for key in ("username", "password")}
    body = urllib.parse.urlencode(fields | {"csrfmiddlewaretoken": token}).encode()
    there = opener.open(f"{site}/sign-in", body, timeout=30).url
    assert there == f"{site}/", there
    return opener, cookies

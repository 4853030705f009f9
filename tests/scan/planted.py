"""A site with holes, which a scanner that works finds, and only when it is signed in.

Run by itself on a port: `python -m tests.scan.planted PORT`. Where its holes are not found, what
the scanner does not find in Foreday says nothing.
"""

import sys
from urllib.parse import parse_qs
from wsgiref.simple_server import make_server

COOKIE = "key=of-the-photographer"
HOLES = {"Reflected Cross Site Scripting", "Open Redirect", "SQL Injection"}
LIST = '<a href="/says?text=x">1</a> <a href="/goes?to=/">2</a> <a href="/asks?id=1">3</a>'
FAULT = "You have an error in your SQL syntax; check the manual for your MySQL server version"


def site(environ, start_response):
    asked = {key: values[0] for key, values in parse_qs(environ["QUERY_STRING"]).items()}
    path = environ["PATH_INFO"] if COOKIE in environ.get("HTTP_COOKIE", "") else "/closed"
    status, headers, page = "200 OK", [("Content-Type", "text/html")], "closed"
    if path == "/":
        page = LIST
    elif path == "/says":
        page = f"<p>{asked.get('text', '')}</p>"
    elif path == "/goes":
        status, page = "302 Found", ""
        headers.append(("Location", asked.get("to", "/")))
    elif path == "/asks":
        page = FAULT if "'" in asked.get("id", "") or '"' in asked.get("id", "") else "one row"
    elif path != "/closed":
        status, page = "404 Not Found", "nothing"
    start_response(status, headers)
    return [f"<html><body>{page}</body></html>".encode()]


if __name__ == "__main__":
    make_server("127.0.0.1", int(sys.argv[1]), site).serve_forever()

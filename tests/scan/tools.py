"""The scanners, each as a function that gives what it found."""

import json
import subprocess
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from tests.server import ROOT

TOOLS = ROOT / ".tools"  # .ci/tools puts them there
OURS = ("manage.py", "studio", "intake", "planning")
# All that attack what is asked for, and none that would ask another host for help (ssrf, xxe,
# log4shell) or guess passwords or words (brute_login_form, buster; ffuf does the words).
ATTACKS = "cookieflags,csp,http_headers,csrf,methods,htaccess,backup,crlf,redirect,xss,permanentxss"
ATTACKS += ",sql,timesql,exec,file,upload,ldap,shellshock,spring4shell"
PLENTY = 40  # files in one folder: copies of copies are the same page


class BrokenScannerError(Exception):
    """It did not run, or did not run as it should: what it did not find says nothing."""


@dataclass(frozen=True)
class Finding:
    """`what` is the scanner's own name for it."""

    tool: str
    what: str
    where: str

    def __str__(self):
        return f"{self.tool}: {self.what}: {self.where}"


def program(name):
    path = TOOLS / name / "bin" / name
    if not path.exists():
        raise BrokenScannerError(f"no {name} here: .ci/tools")
    return str(path)


def told(command, seconds, codes=(0,), **more):
    run = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, timeout=seconds, check=False, **more
    )
    if run.returncode not in codes:
        raise BrokenScannerError(f"{command[0]} exits with {run.returncode}: {run.stderr[-500:]}")
    return run.stdout


def bandit(*paths):
    """https://bandit.readthedocs.io: what it finds, and how many lines it read."""
    given = json.loads(told([program("bandit"), "-q", "-r", "-f", "json", *paths], 120, (0, 1)))
    if given["errors"]:
        raise BrokenScannerError(f"bandit could not read all: {given['errors']}")
    findings = [
        Finding("bandit", row["test_id"], f"{row['filename']}: {line_of(row)}")
        for row in given["results"]
    ]
    return findings, given["metrics"]["_totals"]["loc"]


def line_of(row):
    """Its text, which stays when lines are put in above."""
    return Path(ROOT, row["filename"]).read_text().splitlines()[row["line_number"] - 1].strip()


def ffuf(site, words, folder):
    """https://github.com/ffuf/ffuf: every one of the words that is answered by anything but 404."""
    listed, out = folder / "words", folder / "ffuf.json"
    listed.write_text("\n".join(words) + "\n")
    command = ["ffuf", "-s", "-t", "2", "-mc", "all", "-fc", "404", "-w", str(listed)]
    told([*command, "-u", f"{site}/FUZZ", "-of", "json", "-o", str(out)], 300)
    return [
        Finding("ffuf", str(row["status"]), urlsplit(row["url"]).path)
        for row in json.loads(out.read_text())["results"]
    ]


def wapiti(
    site, folder, *, cookie="", start="/", also=(), left_out=(), seconds=60, attacks=ATTACKS
):
    """https://wapiti-scanner.github.io: what it finds, and which addresses it visited.

    `cookie` is that of somebody who is signed in; `seconds` are for each kind of attack.
    """
    out = folder / "wapiti.json"
    command = [program("wapiti"), "-u", site + start, "--scope", "folder", "-m", attacks]
    command += ["--max-scan-time", "90", "--max-attack-time", str(seconds), "-d", "8", "-v", "2"]
    command += ["--max-files-per-dir", str(PLENTY), "--no-bugreport", "--flush-session"]
    command += ["--store-session", str(folder / "session"), "--store-config", str(folder / "kept")]
    command += ["-f", "json", "-o", str(out)]
    command += ["-C", cookie] if cookie else []
    for each in ["/static/*", *left_out]:
        command += ["-x", f"{site}{each}"]
    for each in also:
        command += ["-s", f"{site}{each}"]
    log = told(command, 120 + 2 * seconds * (attacks.count(",") + 1))
    report = json.loads(out.read_text())
    return list(wapiti_found(report)), set(visited(log, site))


def wapiti_found(report):
    for kind in ("vulnerabilities", "anomalies"):
        for what, rows in report[kind].items():
            for row in rows:
                where = f"{row['method']} {row['path']} {row['parameter'] or ''}"
                yield Finding("wapiti", what, f"{where} {row['info']}".replace("\n", " "))


def visited(log, site):
    """Method and path of every address that stands in its log."""
    for line in log.splitlines():
        if line.startswith(f"[+] GET {site}") or line.startswith(f"[+] POST {site}"):
            _plus, method, url, *_ = line.split()
            yield method, urlsplit(url).path

"""Calendar files as five readers that are not ours understand them.

vobject 0.9.9, ics 0.7.3 and icalendar 7.3.2 are Python's; ical.js 2.2.1 and node-ical 0.27.2 run
in Node.js (tests/tools/read_calendar.mjs). Each gives start and end by UID: aware datetimes, or
dates for whole days.
"""

import json
import subprocess
import tempfile
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path

import icalendar
import ics
import vobject

from tests.outside import outside

SCRIPT = Path(__file__).parent.parent / "tools" / "read_calendar.mjs"


def read_with_vobject(data):
    # It keeps each zone it ever read, and would judge later files by the first one's rule.
    vobject.icalendar.__dict__["__tzidMap"].clear()
    vobject.icalendar.registerTzid("UTC", UTC)
    calendar = vobject.readOne(data.decode())
    calendar.validate(raiseException=True)
    return {event.uid.value: (event.dtstart.value, event.dtend.value) for event in events(calendar)}


def events(calendar):
    return calendar.contents.get("vevent", [])


def read_with_ics(data):
    calendar = ics.Calendar(data.decode())
    return {e.uid: (e.begin.datetime, e.end.datetime) for e in calendar.events}


def read_with_icalendar(data):
    calendar = icalendar.Calendar.from_ical(data)
    return {str(e["UID"]): (e.start, e.end) for e in calendar.walk("VEVENT")}


def read_in_node(reader, data):
    """ical.js or node-ical."""
    package = outside(f"node_modules/{reader}", "node")
    with tempfile.NamedTemporaryFile(suffix=".ics") as file:
        file.write(data)
        file.flush()
        command = ["node", SCRIPT, package.parent, reader, file.name]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
    (events,) = json.loads(done.stdout)
    return {each["uid"]: (_moment(each["start"]), _moment(each["end"])) for each in events}


def _moment(text):
    return datetime.fromisoformat(text) if "T" in text else date.fromisoformat(text)


READERS = {
    "icalendar": read_with_icalendar,
    "ics": read_with_ics,
    "vobject": read_with_vobject,
    "ical.js": partial(read_in_node, "ical.js"),
    "node-ical": partial(read_in_node, "node-ical"),
}

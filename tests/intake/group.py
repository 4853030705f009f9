"""One row of the step of group photographs, as a page posts it."""

GROUPS = "/q/thora-lukasz/step/groups"


def group(number, title, people="", key=None, **more):
    row = {"title": title, "people": people, "extra": "", "wish": "must"} | more
    row["key"] = key or f"key{number}"
    return {f"groups-{number}-{name}": value for name, value in row.items()}


def kept(response):
    return response.status_code == 302

import json

from django.core.management import call_command

from planning.bench.light import as_lines, measured, works


def test_a_row_tells_our_time_and_the_peers_of_the_same_sheets():
    row = measured(works()[:3])
    assert row["sheets"] == 3
    assert 0 < row["median"] <= row["worst"]
    assert row["goal"] == 0.02
    assert row["second_opinion"] < 6
    assert row["astral"]["compared"] > 30
    assert row["spa"]["wrong"] == 0
    assert row["spa"]["worst_gap"] < 1
    text = "\n".join(as_lines(row))
    for name in ("light sheet of a day", "astral bare", "pvlib SPA"):
        assert name in text


def test_without_pvlib_the_row_says_how_to_get_it(monkeypatch):
    monkeypatch.setattr("planning.bench.light.spa", None)
    row = measured(works()[:1])
    assert "spa" not in row
    assert "uv sync --group bench" in "\n".join(as_lines(row))


def test_bare_astral_goes_astray_where_our_sheet_does_not():
    tasks = [task for task in works() if task[0] == "Pacific/Auckland"]
    assert measured(tasks)["astral"]["wrong"] > 0


def test_the_command_prints_the_light_beside_the_groups(capsys, monkeypatch):
    few = works()[:1]
    monkeypatch.setattr("planning.bench.light.works", lambda: few)
    call_command("bench", "--only", "light sheet", "--json")
    report = json.loads(capsys.readouterr().out)
    assert report["group_order"] == []
    assert report["light"][0]["work"] == "light sheet of a day"

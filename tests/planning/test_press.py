"""Drawing in a process of its own: limits, errors that come back, and nothing left behind."""

import multiprocessing
import subprocess
import sys
from dataclasses import replace

import pytest

from planning.pdf import STATIC
from planning.press import apart, draw
from planning.press.apart import NotDrawnError, draw_apart
from planning.press.draw import Job, PangoMissingError, TooLongError

SHORT = Job('<html lang="en"><head><title>x</title></head><body><p>Þóra</p></body></html>', STATIC)
ROWS = "<tr><td>Þóra</td><td>Łukasz</td></tr>"
HEAVY = replace(SHORT, html=SHORT.html.replace("<p>Þóra</p>", f"<table>{ROWS * 3000}</table>"))
LONG = '<section id="part-a">a</section>' + '<section id="part-b"><p>b</p>' + (
    '<p style="break-before: page">b</p>' * 45 + "</section>"
)  # fmt: skip


def test_what_is_drawn_apart_is_what_is_drawn_here():
    assert draw_apart(SHORT) == draw.draw(SHORT)


def test_a_heavy_one_is_stopped_and_nothing_of_it_is_left():
    with pytest.raises(NotDrawnError):
        draw_apart(HEAVY, seconds=0.5)
    assert multiprocessing.active_children() == []
    assert draw_apart(SHORT)


def test_one_whose_asker_has_gone_ends_without_a_word(monkeypatch):
    monkeypatch.setattr(apart, "hold_back", lambda _seconds: None)
    ours, theirs = multiprocessing.Pipe(duplex=False)
    ours.close()
    apart._work(SHORT, theirs, 5)


def test_a_paper_is_drawn_behind_those_who_answer_pages():
    code = "import os\nfrom planning.press.apart import BEHIND, hold_back\nwas = os.nice(0)\n"
    code += "hold_back(5)\nassert os.nice(0) == min(was + BEHIND, 19) > was"
    subprocess.run([sys.executable, "-c", code], cwd=STATIC.parent, check=True)


def test_the_process_that_serves_pages_never_loads_what_draws():
    code = (
        "import sys\nfrom pathlib import Path\n"
        "from planning.press.apart import draw_apart\nfrom planning.press.draw import Job\n"
        "if __name__ == '__main__':\n"
        f"    pdf = draw_apart(Job({SHORT.html!r}, Path({str(STATIC)!r})))\n"
        "    assert pdf.startswith(b'%PDF')\n"
        "    sys.exit('weasyprint' in sys.modules)"
    )
    run = [sys.executable, "-c", code]
    assert subprocess.run(run, cwd=STATIC.parent, check=False).returncode == 0


def test_too_many_pages_are_told_part_by_part():
    with pytest.raises(TooLongError) as error:
        draw_apart(replace(SHORT, html=SHORT.html.replace("<p>Þóra</p>", LONG)))
    assert (error.value.pages, error.value.most) == (46, draw.MOST_PAGES["a4"])
    assert error.value.parts == {"a": 1, "b": 46}


def test_a_missing_pango_is_told_across_the_border():
    import pickle  # as multiprocessing does

    error = pickle.loads(pickle.dumps(PangoMissingError()))  # noqa: S301 - our own
    assert "apt-get install libpango" in str(error)


def test_a_paper_without_an_end_of_waiting_gets_no_turn(monkeypatch):
    from planning.press import apart

    class Full:
        def acquire(self, timeout):
            return False

    monkeypatch.setattr(apart, "ROOM", Full())
    with pytest.raises(NotDrawnError):
        draw_apart(SHORT)

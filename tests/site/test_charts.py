import json
import subprocess
import sys
import time
from pathlib import Path

import pytest
import sample_book
import vl_convert

from scoutgen.pages.book import Chart
from scoutgen.pages.charts import location_grid
from scoutgen.pages.spray_charts import spray_chart
from scoutgen.site import charts
from scoutgen.site.charts import draw_all, figure
from scoutgen.site.svg import clean


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Specifications drawn, with a drawing that costs nothing."""
    drawn: list[str] = []

    def draw(spec: str) -> str:
        drawn.append(spec)
        return f"<svg>{len(spec)}</svg>"

    monkeypatch.setattr(charts, "draw", draw)
    return drawn


TWO = {"a": Chart("1", "A", "one"), "b": Chart("22", "B", "two"), "again": Chart("1", "A", "one")}


def test_a_chart_is_drawn_once(tmp_path: Path, counted: list[str]) -> None:
    first = draw_all(TWO, tmp_path)
    second = draw_all(TWO, tmp_path)
    assert sorted(counted) == ["1", "22"]
    assert (first.drawn, second.drawn) == (2, 0)
    assert first.svg == second.svg == {"a": "<svg>1</svg>", "b": "<svg>2</svg>", "again": "<svg>1</svg>"}


def test_a_damaged_drawing_is_drawn_again(tmp_path: Path, counted: list[str]) -> None:
    draw_all(TWO, tmp_path)
    victim, other = sorted(tmp_path.glob("*.svg"))
    victim.write_text(victim.read_text()[:-3])
    other.write_bytes(b"\xff\xfe")
    assert draw_all(TWO, tmp_path).drawn == 2
    assert len(counted) == 4


def test_another_drawing_version_is_not_trusted(
    tmp_path: Path, counted: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    draw_all(TWO, tmp_path)
    monkeypatch.setattr(charts, "DRAWING_VERSION", charts.DRAWING_VERSION + 1)
    assert draw_all(TWO, tmp_path).drawn == 2
    assert len(counted) == 4


def test_progress_counts_what_is_drawn(tmp_path: Path, counted: list[str]) -> None:
    steps: list[tuple[int, int]] = []
    draw_all(TWO, tmp_path, lambda done, of: steps.append((done, of)))
    assert steps == [(1, 2), (2, 2)]
    assert len(counted) == 2


def test_a_chart_whose_kind_was_drawn_before_is_drawn_as_if_it_were_the_first() -> None:
    grids = [
        location_grid(
            [{"pitch": p, "height": 1 + k % 5, "side": 1 + k % 3, "k": k, "n": 12} for p in pitches for k in range(9)],
            title="Where",
            description="Where.",
        )
        for pitches in (["fastball"], ["slider"], ["fastball", "slider", "curve", "change"])
    ]
    balls = [{"contact": "fly", "direction_deg": 10.0 * way, "distance_ft": 300.0, "play": "out"} for way in range(4)]
    fields = [spray_chart(balls[:some], [], title="Balls", description="Balls.") for some in (2, 4)]
    for chart in (*map(sample_book.strip_chart, range(3)), *grids, *fields):
        assert charts.draw(chart.spec) == clean(vl_convert.vegalite_to_svg(chart.spec, allowed_base_urls=[]))


def test_many_charts_drawn_in_parallel_are_those_drawn_one_by_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(charts, "_WORTH_A_POOL", 8)
    many = {str(seed): sample_book.strip_chart(seed) for seed in range(8)}
    together = draw_all(many, tmp_path)
    assert together.drawn == 8
    assert together.svg == {key: charts.draw(chart.spec) for key, chart in many.items()}


def test_a_renderer_that_gives_up_is_said_in_a_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def gives_up(_: str) -> str:
        raise ValueError("conversion failed:\noneshot canceled")

    monkeypatch.setattr(charts, "draw", gives_up)
    with pytest.raises(charts.DrawingError) as said:
        draw_all({"a": sample_book.strip_chart(1)}, tmp_path)
    assert str(said.value) == (
        "the chart renderer gave up, perhaps for want of memory or open files: conversion failed: oneshot canceled"
    )


def test_a_drawing_that_is_no_xml_is_said_in_a_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(charts, "draw", lambda _: clean("<svg><g></svg>"))
    with pytest.raises(charts.DrawingError, match=r"gave up, .*: mismatched tag: line 1, column 10"):
        draw_all({"a": sample_book.strip_chart(1)}, tmp_path)


def test_a_figure_has_a_name_and_a_description() -> None:
    html = figure('<svg width="1"><g/></svg>', Chart("", "Time <b>", 'He & "she"'))
    assert html == (
        '<figure class="chart"><svg width="1" role="img"><title>Time &lt;b&gt;</title>'
        "<desc>He &amp; &quot;she&quot;</desc><g/></svg></figure>"
    )


def test_a_chart_that_asks_the_network_is_not_drawn() -> None:
    spec = '{"data":{"url":"https://example.org/x.csv"},"mark":"point","encoding":{"x":{"field":"a","type":"quantitative"}}}'
    with pytest.raises(ValueError, match=r"(?i)not allowed|denied|access"):
        charts.draw(spec)


# Code points XML 1.0 does not allow, https://www.w3.org/TR/xml/#charsets; the renderer ends the process on them.
@pytest.mark.parametrize("odd", ["\x0b", "\x00", "\x1f", "\b", "\f", "\ufffe", "\ud800"])
def test_characters_that_xml_has_no_place_for_become_spaces(odd: str) -> None:
    chart = json.loads(sample_book.strip_chart(1).spec)
    chart["title"] = f"Odd{odd}title"
    assert ">Odd title<" in charts.draw(json.dumps(chart))
    if odd != "\ud800":
        assert ">Odd title<" in charts.draw(json.dumps(chart, ensure_ascii=False))


def test_processes_that_draw_end_with_the_one_they_draw_for() -> None:
    code = (
        "import time; from concurrent.futures import ProcessPoolExecutor; from multiprocessing import get_context\n"
        "from scoutgen.site.charts import _end_together\n"
        "pool = ProcessPoolExecutor(1, mp_context=get_context('spawn'), initializer=_end_together)\n"
        "pool.submit(time.sleep, 0).result()\n"
        "print(*pool._processes, flush=True)\n"
        "time.sleep(600)"
    )
    drawing = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
    assert drawing.stdout
    worker = int(drawing.stdout.readline())
    drawing.kill()
    drawing.communicate()
    end = time.monotonic() + 60
    while Path(f"/proc/{worker}/cmdline").exists() and Path(f"/proc/{worker}/cmdline").read_bytes():
        assert time.monotonic() < end, "it draws for nobody"
        time.sleep(0.05)

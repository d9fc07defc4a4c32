"""Charts drawn once and kept: a drawing is looked up by the hash of what it shows."""

import hashlib
import json
import os
import re
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from multiprocessing import get_context, parent_process
from pathlib import Path
from typing import Any

from scoutgen.pages.book import Chart
from scoutgen.site.plain import plain
from scoutgen.site.sealed import Sealed

# Part of every drawing's address: raise it whenever svg.py or the renderer would draw the same chart otherwise.
DRAWING_VERSION = 2
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_UNPRINTABLE_ESCAPE = re.compile(
    r"\\u(?:00[01789]|[dD][89a-fA-F]|[fF]{3}[eEfF])|\\[bf]|[\x7f-\x9f\ud800-\udfff\ufffe\uffff]"
)
# Below this many charts, starting processes costs more than it saves.
_WORTH_A_POOL = 40


@dataclass(frozen=True)
class Drawings:
    """Cleaned SVG by the chart's key, how many of them had to be drawn, and where all are kept."""

    svg: Mapping[str, str]
    drawn: int
    kept: Sealed


class DrawingError(RuntimeError):
    """The renderer gave up on a chart."""


def draw(spec: str) -> str:
    """One Vega-Lite specification as a cleaned SVG element; nothing is fetched for it."""
    import vl_convert  # noqa: PLC0415 - half a second, and not needed where every chart is in the cache

    from scoutgen.site.svg import clean  # noqa: PLC0415

    kind: dict[str, Any] = json.loads(_printable(spec))
    rows = kind.pop("datasets", None)
    if not isinstance(rows, dict):
        return clean(vl_convert.vegalite_to_svg(_printable(spec), allowed_base_urls=[]))
    # A chart of the same kind differs in its rows alone; what it compiles to, two fifths of the work, is kept.
    vega = _compiled(json.dumps(kind))
    data = [{**one, "values": rows[one["name"]]} if one["name"] in rows else one for one in vega["data"]]
    return clean(vl_convert.vega_to_svg(json.dumps({**vega, "data": data}), allowed_base_urls=[]))


@lru_cache(maxsize=64)
def _compiled(kind: str) -> dict[str, Any]:
    """A specification without its rows as Vega."""
    import vl_convert  # noqa: PLC0415 - as above

    return dict(vl_convert.vegalite_to_vega(kind))


def draw_all(charts: Mapping[str, Chart], cache: Path, progress: Callable[[int, int], None] | None = None) -> Drawings:
    """Every chart's SVG, from the cache where it is whole, else drawn on all processors.

    Args:
        charts: by key.
        cache: folder of drawings; damaged ones and those of another version are drawn again.
        progress: called with the number drawn so far and the number to draw.

    Raises:
        DrawingError: the renderer gave up.
    """
    kept = Sealed(cache, ".svg")
    names = {key: _name(chart.spec) for key, chart in charts.items()}
    found = {key: kept.get(name) for key, name in names.items()}
    missing: dict[str, str] = {names[key]: charts[key].spec for key, svg in found.items() if svg is None}
    fresh: dict[str, str] = {}
    with _giving_up():
        for name, svg in zip(missing, _drawn(list(missing.values())), strict=True):
            kept.put(name, svg)
            fresh[name] = svg
            if progress:
                progress(len(fresh), len(missing))
    svg_by_key = {key: svg if svg is not None else fresh[names[key]] for key, svg in found.items()}
    return Drawings(svg=svg_by_key, drawn=len(fresh), kept=kept)


def figure(svg: str, chart: Chart) -> str:
    """The drawing with its name and description, ready to stand in a page."""
    head, body = svg.split(">", 1)
    title, description = plain(chart.title), plain(chart.description)
    return f'<figure class="chart">{head} role="img"><title>{title}</title><desc>{description}</desc>{body}</figure>'


def _drawn(specs: list[str]) -> Iterable[str]:
    if len(specs) < _WORTH_A_POOL:
        yield from map(draw, specs)
        return
    workers = min(os.cpu_count() or 1, len(specs))
    # Fresh processes: a fork would copy whatever threads and locks the caller has.
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_end_together) as pool:
        yield from pool.map(draw, specs, chunksize=4)


@contextmanager
def _giving_up() -> Iterator[None]:
    """Say in a line that the renderer died, or what it could not do: it has no kind of error of its own."""
    try:
        yield
    except BrokenProcessPool:
        raise DrawingError("the chart renderer broke down, perhaps for want of memory; build again") from None
    except (ValueError, SyntaxError) as gave_up:
        # SyntaxError: what it drew is no XML.
        words = " ".join(str(gave_up).split())[:200]
        raise DrawingError(f"the chart renderer gave up, perhaps for want of memory or open files: {words}") from None


def _end_together() -> None:
    """In a process that draws: end with the one that wants the drawings, which a kill leaves no time to say so."""
    parent = parent_process()
    if parent is None:
        return

    def wait() -> None:
        parent.join()
        os._exit(1)

    threading.Thread(target=wait, daemon=True).start()


def _printable(spec: str) -> str:
    """The specification with spaces for characters XML has no place for: the renderer dies of them."""
    if not _UNPRINTABLE_ESCAPE.search(spec):
        return spec

    def cleaned(value: object) -> object:
        if isinstance(value, str):
            return _UNPRINTABLE.sub(" ", value)
        if isinstance(value, list):
            return [cleaned(item) for item in value]
        if isinstance(value, dict):
            return {_UNPRINTABLE.sub(" ", key): cleaned(item) for key, item in value.items()}
        return value

    return json.dumps(cleaned(json.loads(spec)), sort_keys=True, separators=(",", ":"))


def _name(spec: str) -> str:
    return hashlib.sha256(f"{DRAWING_VERSION}\n{spec}".encode()).hexdigest()

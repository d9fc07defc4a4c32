"""A template is compiled once for all builds; what is damaged, of other words or of other options is compiled anew."""

import sys
from collections.abc import Callable
from pathlib import Path

import jinja2
import pytest

from scoutgen.pages.compiled import Compiled

Fill = Callable[..., str]


@pytest.fixture
def compiled(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the templates that were compiled."""
    names: list[str] = []

    class Noted(jinja2.Environment):
        def _compile(self, source: str, filename: str) -> object:
            names.append(filename)
            return super()._compile(source, filename)

    monkeypatch.setattr(jinja2, "Environment", Noted)
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    return names


@pytest.fixture
def fill(tmp_path: Path) -> Fill:
    """Fills a template of these words in an environment of its own, as the next build does."""

    def filled(words: str, *, options: str = "") -> str:
        environment = jinja2.Environment(
            loader=jinja2.DictLoader({"page": words}),
            bytecode_cache=Compiled(options, tmp_path / "kept"),
            autoescape=True,
        )
        return environment.get_template("page").render(n=3)

    return filled


def test_the_next_build_compiles_nothing(fill: Fill, compiled: list[str]) -> None:
    assert fill("{{ n }} of 5") == fill("{{ n }} of 5") == "3 of 5"
    assert len(compiled) == 1


def test_other_words_and_other_options_are_compiled(fill: Fill, compiled: list[str]) -> None:
    fill("{{ n }} of 5")
    assert fill("{{ n }} of 7") == "3 of 7"
    fill("{{ n }} of 7", options="blocks trimmed")
    assert len(compiled) == 3


@pytest.mark.parametrize("damage", [lambda code: code[:-9], lambda code: code[:90] + b"\0" + code[91:], lambda _: b""])
def test_what_is_damaged_is_not_run(
    fill: Fill, compiled: list[str], tmp_path: Path, damage: Callable[[bytes], bytes]
) -> None:
    fill("{{ n }} of 5")
    [place] = (tmp_path / "kept").iterdir()
    whole = place.read_bytes()
    place.write_bytes(damage(whole))
    assert fill("{{ n }} of 5") == "3 of 5"
    assert len(compiled) == 2
    assert place.read_bytes() == whole


def test_where_nothing_can_be_kept_it_is_compiled_each_time(
    fill: Fill, compiled: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "kept").write_text("a file in the way")
    assert fill("{{ n }} of 5") == fill("{{ n }} of 5")
    assert len(compiled) == 2
    (tmp_path / "kept").unlink()
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    fill("{{ n }} of 5")
    assert not (tmp_path / "kept").exists()

"""What was printed last, as the project keeps it."""

from pathlib import Path

import pytest

from scoutgen.pages.printed import Printed, Sheet
from scoutgen.site.sheets_printed import in_words, recall, remember

BUILT = "2026-04-08 21:40"
ADDRESS = "cards/harbor/fielders"


def kept(project: Path) -> Path:
    return project / ".scoutgen" / "printed" / "staff.json"


def test_two_printings_are_kept_and_a_third_replaces_the_first(tmp_path: Path) -> None:
    assert recall(tmp_path, "staff") == {}
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    assert recall(tmp_path, "staff") == {ADDRESS: Printed(Sheet("8 Apr, 21:40", {"a": "1"}))}
    remember(tmp_path, "staff", {ADDRESS: {"a": "2"}}, "2026-04-09 09:05")
    remember(tmp_path, "staff", {ADDRESS: {"a": "3"}}, "2026-04-10 10:00")
    assert recall(tmp_path, "staff")[ADDRESS] == Printed(
        Sheet("10 Apr, 10:00", {"a": "3"}), Sheet("9 Apr, 09:05", {"a": "2"})
    )
    assert [file.name for file in kept(tmp_path).parent.iterdir()] == ["staff.json"]


def test_editions_and_series_are_kept_apart(tmp_path: Path) -> None:
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    remember(tmp_path, "players", {ADDRESS: {"a": "2"}}, BUILT)
    remember(tmp_path, "staff", {"cards/other/fielders": {"b": "1"}}, BUILT)
    assert set(recall(tmp_path, "staff")) == {ADDRESS, "cards/other/fielders"}
    assert recall(tmp_path, "players")[ADDRESS].last.cells == {"a": "2"}


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "null", '{"format": 1}', '{"format": 2, "sheets": {}}', '{"format": 1, "sheets": {"a": 1}}',
     '{"format": 1, "sheets": {"a": {"last": {"when": "x"}, "before": null}}}', "[" * 100_000],
)  # fmt: skip
def test_a_damaged_file_counts_as_none_and_is_written_anew(tmp_path: Path, text: str) -> None:
    kept(tmp_path).parent.mkdir(parents=True)
    kept(tmp_path).write_text(text, encoding="utf-8")
    assert recall(tmp_path, "staff") == {}
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    assert recall(tmp_path, "staff")[ADDRESS].last.cells == {"a": "1"}


def test_a_time_is_short_enough_for_a_card() -> None:
    assert in_words("2026-04-08 09:05") == "8 Apr, 09:05"

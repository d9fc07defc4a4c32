"""What was printed last, as the project keeps it."""

import os
from pathlib import Path

import pytest

from scoutgen.pages.printed import Printed, Sheet
from scoutgen.site.edition_book import read_book
from scoutgen.site.output import OutputError
from scoutgen.site.sheets_printed import recall, remember

BUILT = "2026-04-08 21:40"
ADDRESS = "cards/harbor/fielders"


def kept(project: Path) -> Path:
    return project / ".scoutgen" / "printed" / "staff.json"


def sheets(project: Path, edition: str = "staff") -> dict[str, Printed]:
    found = recall(project, edition)
    assert found is not None
    return found


def test_two_printings_are_kept_and_a_third_replaces_the_first(tmp_path: Path) -> None:
    assert recall(tmp_path, "staff") == {}
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    assert recall(tmp_path, "staff") == {ADDRESS: Printed(Sheet(BUILT, {"a": "1"}))}
    remember(tmp_path, "staff", {ADDRESS: {"a": "2"}}, "2026-04-09 09:05")
    remember(tmp_path, "staff", {ADDRESS: {"a": "3"}}, "2026-04-10 10:00")
    assert sheets(tmp_path)[ADDRESS] == Printed(
        Sheet("2026-04-10 10:00", {"a": "3"}), Sheet("2026-04-09 09:05", {"a": "2"})
    )
    assert sheets(tmp_path)[ADDRESS].last.when == "10 Apr, 10:00"
    assert [file.name for file in kept(tmp_path).parent.iterdir()] == ["staff.json"]


def test_editions_and_series_are_kept_apart(tmp_path: Path) -> None:
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    remember(tmp_path, "players", {ADDRESS: {"a": "2"}}, BUILT)
    remember(tmp_path, "staff", {"cards/other/fielders": {"b": "1"}}, BUILT)
    assert set(sheets(tmp_path)) == {ADDRESS, "cards/other/fielders"}
    assert sheets(tmp_path, "players")[ADDRESS].last.cells == {"a": "2"}


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "null", '{"format": 2}', '{"format": 1, "sheets": {}}', '{"format": 2, "sheets": {"a": 1}}',
     '{"format": 2, "sheets": {"a": {"last": {"built": "2026-04-08 21:40"}, "before": null}}}', "[" * 100_000,
     '{"format": 2, "sheets": {"a": {"last": {"built": "8 Apr", "cells": {}}, "before": null}}}',
     '{"format": 2, "sheets": {"a": {"last": {"built": 8, "cells": {}}, "before": null}}}'],
)  # fmt: skip
def test_a_damaged_file_counts_as_none_and_is_written_anew(tmp_path: Path, text: str) -> None:
    kept(tmp_path).parent.mkdir(parents=True)
    kept(tmp_path).write_text(text, encoding="utf-8")
    assert recall(tmp_path, "staff") is None
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    assert sheets(tmp_path)[ADDRESS].last.cells == {"a": "1"}


def test_two_that_print_at_once_do_not_lose_a_sheet(tmp_path: Path) -> None:
    remember(tmp_path, "staff", {ADDRESS: {"a": "1"}}, BUILT)
    # Another process that runs for as long as the test does.
    kept(tmp_path).with_suffix(".lock").write_text(str(os.getppid()))
    with pytest.raises(OutputError, match="that keeps sheets of the staff edition is running"):
        remember(tmp_path, "staff", {ADDRESS: {"a": "2"}}, BUILT)
    assert sheets(tmp_path)[ADDRESS].last.cells == {"a": "1"}


def test_a_damaged_file_is_said_in_one_line_of_a_build(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    kept(tmp_path).parent.mkdir(parents=True)
    kept(tmp_path).write_text("{")
    made = read_book(tmp_path, as_of="2026-04-09", edition="staff", skip_bad_rows=False)
    said = [str(warning) for warning in made.warnings]
    assert [text for text in said if text.startswith(".scoutgen/printed/staff.json: warning: what was printed")] == said
    assert len(said) == 1

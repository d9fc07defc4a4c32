"""What MkDocs is asked to build: the project's own settings, with those of the call on top."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from yaml_projects import write

from scoutgen.site.editions import EditionError
from scoutgen.site.settings import BuildFailedError, settings_of


def asked(project: Path, text: str | None, out: Path | None = None, **options: object) -> dict[str, Any]:
    if text is not None:
        write(project, {"mkdocs.yml": text})
    return settings_of(project, out, **options)


def test_a_project_without_settings_is_built_all_the_same(tmp_path: Path) -> None:
    made = asked(tmp_path, None)
    assert made == {
        "plugins": {"scoutgen": {"project": str(tmp_path)}},
        "config_file": str(tmp_path / ".scoutgen/mkdocs.yml"),
        "site_name": tmp_path.name,
        "site_dir": str(tmp_path / "site"),
        "docs_dir": str(tmp_path / ".scoutgen/no-pages"),
        "theme": "material",
    }
    assert Path(made["docs_dir"]).is_dir()
    assert Path(made["config_file"]).is_file()
    assert settings_of(tmp_path, tmp_path / "out")["site_dir"] == str(tmp_path / "out")


def test_its_own_settings_stand(tmp_path: Path) -> None:
    (tmp_path / "words").mkdir()
    made = asked(tmp_path, "site_name: Ours\ndocs_dir: words\ntheme: {name: material, language: en}\n")
    assert made["config_file"] == str(tmp_path / "mkdocs.yml")
    assert made["docs_dir"] == str(tmp_path / "words")
    assert made["theme"] == {"name": "material", "language": "en"}
    # MkDocs reads these itself.
    assert "site_name" not in made
    assert "site_dir" not in made
    assert asked(tmp_path, "", tmp_path / "out")["site_dir"] == str(tmp_path / "out")


@pytest.mark.parametrize(
    "plugins",
    [
        "[search, scoutgen: {edition: players, as_of: 2026-04-01}]",
        "{search: {}, scoutgen: {edition: players, as_of: 2026-04-01}}",
    ],
)
def test_options_of_the_call_stand_on_top_and_plugins_in_their_order(tmp_path: Path, plugins: str) -> None:
    options = {"as_of": "2026-04-09", "edition": None, "skip_bad_rows": False}
    made = asked(tmp_path, f"plugins: {plugins}\n", **options)
    assert list(made["plugins"]) == ["search", "scoutgen"]
    assert made["plugins"]["scoutgen"] == {"edition": "players", "as_of": "2026-04-09", "project": str(tmp_path)}


@pytest.mark.parametrize("plugins", ["", "[scoutgen]", "[{scoutgen: }]", "{scoutgen: }", "[]"])
def test_our_plugin_is_always_there(tmp_path: Path, plugins: str) -> None:
    made = asked(tmp_path, f"plugins: {plugins}\n", skip_bad_rows=True)
    assert made["plugins"] == {"scoutgen": {"project": str(tmp_path), "skip_bad_rows": True}}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: [", "mkdocs.yml cannot be read"),
        ("- a\n- b\n", "write keys and values, like site_name: Scouting"),
        ("words\n", "write keys and values"),
        ("plugins: scoutgen\n", "plugins: is no list; write each on a line of its own, like - scoutgen"),
        ("plugins: 3\n", "plugins: is no list"),
        ("plugins: [scoutgen: players]\n", "scoutgen: is not a list of options; write each on a line of its own"),
    ],
)
def test_what_cannot_be_followed_says_why(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(BuildFailedError, match=said):
        asked(tmp_path, text)


def _folder(place: Path) -> None:
    place.mkdir()


def _dangling(place: Path) -> None:
    place.symlink_to("nowhere.yml")


def _circle(place: Path) -> None:
    place.symlink_to(place.name)


def _pipe(place: Path) -> None:
    os.mkfifo(place)


def _latin_1(place: Path) -> None:
    place.write_bytes(b"# ours\nsite_name: Caf\xe9\n")


# Passed over, `edition: players` in it would be lost, and the staff's site be built in place of the players'.
@pytest.mark.parametrize(
    ("make", "said"),
    [
        (_folder, "mkdocs.yml: is not a plain file; a text file is meant to stand here"),
        (_pipe, "mkdocs.yml: is not a plain file; a text file is meant to stand here"),
        (_dangling, "mkdocs.yml: cannot be opened: No such file or directory"),
        (_circle, "mkdocs.yml: cannot be opened: its links go round in a circle"),
        (_latin_1, "mkdocs.yml:2: is not UTF-8 text; save the file with the encoding UTF-8"),
    ],
)
def test_settings_that_cannot_be_read_are_not_passed_over(
    tmp_path: Path, make: Callable[[Path], None], said: str
) -> None:
    make(tmp_path / "mkdocs.yml")
    with pytest.raises(BuildFailedError) as refused:
        settings_of(tmp_path, None)
    assert str(refused.value) == said


@pytest.mark.parametrize("name", ["mkdocs.yaml", "Mkdocs.yml", "MKDOCS.YML", "mkdoc.yml", "mkdocs.yml.txt"])
@pytest.mark.parametrize("own", [None, "site_name: A\n"])
def test_settings_under_a_name_that_nobody_reads_are_not_passed_over(
    tmp_path: Path, name: str, own: str | None
) -> None:
    (tmp_path / name).write_text("plugins: [scoutgen: {edition: players}]\n")
    with pytest.raises(BuildFailedError) as refused:
        asked(tmp_path, own)
    assert str(refused.value) == f"{name}: is not read; settings stand in mkdocs.yml; rename it, or move it away"


def test_other_names_and_links_to_settings_elsewhere_are_nobodys_business(tmp_path: Path) -> None:
    project = write(tmp_path / "project", {"mkdocs-old.yml": "", ".mkdocs.yml.swp": "", "docs.yml": "", "mkdocs": ""})
    write(tmp_path, {"shared.yml": "plugins: [scoutgen: {edition: players}]\n"})
    (project / "mkdocs.yml").symlink_to("../shared.yml")
    assert settings_of(project, None)["plugins"]["scoutgen"]["edition"] == "players"


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("# edition: playres\nplugins:\n  - scoutgen:\n      edition: playres\n", "mkdocs.yml:4"),
        ("plugins: {scoutgen: {'edition': 'playres'}}\n", "mkdocs.yml:1"),
        ("INHERIT: base.yml\n", "mkdocs.yml"),
    ],
)
def test_an_edition_that_there_is_not_is_said_with_its_line(tmp_path: Path, text: str, place: str) -> None:
    write(tmp_path, {"base.yml": "plugins: {scoutgen: {edition: playres}}\n"})
    with pytest.raises(EditionError) as refused:
        asked(tmp_path, text)
    said = "there is no edition 'playres'; editions are staff, players, recruiting"
    assert str(refused.value) == f"{place}: edition: {said}"
    assert asked(tmp_path, text, edition="staff")["plugins"]["scoutgen"]["edition"] == "staff"

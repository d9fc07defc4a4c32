"""What MkDocs is asked to build: the project's own settings, with those of the call on top."""

from pathlib import Path
from typing import Any

import pytest
from yaml_projects import write

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
    ],
)
def test_what_cannot_be_followed_says_why(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(BuildFailedError, match=said):
        asked(tmp_path, text)

"""Addresses of assets change with their content, and nothing that a page does not ask for comes along."""

import re
from collections.abc import Callable

import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from scoutgen.site import theme


def test_an_assets_address_changes_with_its_content(monkeypatch: pytest.MonkeyPatch, tmp_path: object) -> None:
    first = theme.asset_address("site.css")
    assert re.fullmatch(r"assets/scoutgen/site\.[0-9a-f]{8}\.css", first)
    assert theme.asset_address("site.css") == first
    monkeypatch.setattr(theme, "ASSETS", tmp_path)
    (tmp_path / "site.css").write_text("p { }")  # type: ignore[operator]
    assert theme.asset_address("site.css") != first


def test_what_no_page_asks_for_is_left_out_and_ours_comes_in() -> None:
    config = MkDocsConfig()
    config.load_dict({"site_name": "x"})
    config.validate()
    # MkDocs sets it while a plugin's event runs.
    config.plugins._current_plugin = "scoutgen"

    def made(address: str, content: bytes = b"x") -> File:
        return File.generated(config, address, content=content)

    add: Callable[[str, bytes], File] = made
    files = Files([made("a.md"), made("assets/stylesheets/main.css.map"), made("assets/javascripts/lunr/x.js")])
    theme.join_assets(files, add, "players")
    names = {file.src_uri for file in files}
    assert "a.md" in names
    assert {theme.asset_address("site.css"), theme.asset_address("site.js")} <= names
    assert not [name for name in names if name.endswith(".map") or "lunr" in name or "disk-worker" in name]
    assert not [name for name in names if "evaluations" in name]
    scouts = Files([])
    theme.join_assets(scouts, add, "recruiting")
    assert {file.src_uri for file in scouts} - names == {theme.asset_address("evaluations.js")}

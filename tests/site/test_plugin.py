"""What mkdocs.yml may set, and that a build that is refused holds nothing back."""

from datetime import date
from pathlib import Path

import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from scoutgen.site.plugin import ScoutgenConfig, ScoutgenPlugin


def test_a_date_without_quotes_is_taken_as_it_was_written() -> None:
    config = ScoutgenConfig()
    config.load_dict({"as_of": date(2026, 4, 9)})
    assert config.validate() == ([], [])
    assert config.as_of == "2026-04-09"


@pytest.mark.parametrize(
    ("options", "said"),
    [({"edition": "everybody"}, "there is no edition"), ({"as_of": "soon"}, "write year-month-day")],
)
def test_a_refused_build_leaves_no_lock_and_no_half_site(tmp_path: Path, options: dict[str, str], said: str) -> None:
    (tmp_path / "content").mkdir()
    plugin = ScoutgenPlugin()
    plugin.load_config({"project": str(tmp_path), **options})
    config = MkDocsConfig()
    config.load_dict({"site_name": "x", "site_dir": str(tmp_path / "site")})
    with pytest.raises(PluginError, match=said):
        plugin.on_config(config)
    assert [p.name for p in tmp_path.rglob("*") if "lock" in p.name or "site" in p.name] == []

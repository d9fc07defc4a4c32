"""What a project may set in mkdocs.yml under `plugins: - scoutgen:`."""

from typing import Any

from mkdocs.config import base
from mkdocs.config.config_options import Optional, Type

from scoutgen.site.editions import DEFAULT


class ScoutgenConfig(base.Config):  # type: ignore[no-untyped-call]  # MkDocs leaves its hook untyped
    """The plugin's options."""

    project = Optional(Type(str))  # default: the folder of mkdocs.yml
    as_of = Optional(Type(str))  # default: today; mkdocs.yml may write a date without quotes
    edition = Type(str, default=DEFAULT)
    skip_bad_rows = Type(bool, default=False)

    def load_dict(self, patch: dict[str, Any]) -> None:
        """Take a date as well as text for `as_of`: YAML reads 2026-04-09 as a date."""
        if patch.get("as_of") is not None:
            patch = {**patch, "as_of": str(patch["as_of"])}
        super().load_dict(patch)

"""What MkDocs is asked to build: the project's mkdocs.yml, or what stands for it, with the options of a call on top."""

from pathlib import Path
from typing import Any


class BuildFailedError(Exception):
    """The site was not built; what is wrong has been said in the log, or is the text."""


def settings_of(project: Path, out: Path | None, **options: Any) -> dict[str, Any]:  # noqa: ANN401 - MkDocs' own
    """Keyword arguments for MkDocs' load_config: the project's mkdocs.yml with the options of this call on top."""
    from mkdocs.utils.yaml import yaml_load  # noqa: PLC0415

    project = project.resolve()
    own = project / "mkdocs.yml"
    raw: dict[str, Any] = {}
    if own.is_file():
        try:
            with own.open(encoding="utf-8") as file:
                raw = yaml_load(file) or {}
        except Exception as problem:  # whatever the YAML library raises on text that is none
            raise BuildFailedError(f"mkdocs.yml cannot be read: {problem}") from problem
        if not isinstance(raw, dict):
            raise BuildFailedError(
                "mkdocs.yml is not a list of settings; write keys and values, like site_name: Scouting"
            )
        if not isinstance(raw.get("plugins") or [], dict | list):
            raise BuildFailedError("mkdocs.yml: plugins: is no list; write each on a line of its own, like - scoutgen")
    ours = {"project": str(project)} | {k: v for k, v in options.items() if v not in (None, False)}
    settings: dict[str, Any] = {"plugins": _plugins(raw.get("plugins"), ours)}
    if own.is_file():
        settings["config_file"] = str(own)
    else:
        settings |= {"config_file": str(_bare_config(project)), "site_name": project.name}
        settings["site_dir"] = str(project / "site")
    docs = project / str(raw.get("docs_dir", "content/pages"))
    if not docs.is_dir():
        docs = project / ".scoutgen" / "no-pages"
        docs.mkdir(parents=True, exist_ok=True)
    settings["docs_dir"] = str(docs)
    settings["theme"] = raw.get("theme", "material")
    if out is not None:
        settings["site_dir"] = str(out.resolve())
    return settings


def _plugins(given: Any, ours: dict[str, Any]) -> dict[str, Any]:  # noqa: ANN401 - as YAML has it
    """Plugins in their order with our options on top; a dict, since MkDocs empties lists it has read."""
    if isinstance(given, dict):
        named = dict(given)
    else:
        items = [{item: {}} if isinstance(item, str) else item for item in given or []]
        named = {name: options for item in items if isinstance(item, dict) for name, options in item.items()}
    return {**named, "scoutgen": {**(named.get("scoutgen") or {}), **ours}}


def _bare_config(project: Path) -> Path:
    """MkDocs wants a file; a project without one gets a blank one out of sight."""
    place = project / ".scoutgen" / "mkdocs.yml"
    place.parent.mkdir(exist_ok=True)
    place.write_text("{}\n", encoding="utf-8")
    return place

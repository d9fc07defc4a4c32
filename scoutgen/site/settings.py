"""What MkDocs is asked to build: the project's mkdocs.yml, or what stands for it, with the options of a call on top."""

import os
import re
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from scoutgen.records.textfile import read_text, relative
from scoutgen.site.editions import EditionError, require_edition

# What is meant for mkdocs.yml: other capitals, the other suffix, one that an editor put behind, a slip of the pen.
_NEAR: Final = re.compile(r"mkdocs?\.ya?ml(?:\.txt)?", re.IGNORECASE)


class BuildFailedError(Exception):
    """The site was not built; what is wrong has been said in the log, or is the text."""


def settings_of(project: Path, out: Path | None, **options: Any) -> dict[str, Any]:  # noqa: ANN401 - MkDocs' own
    """Keyword arguments for MkDocs' load_config: the project's mkdocs.yml with the options of this call on top.

    Raises:
        BuildFailedError: there are settings that cannot be read, or stand under a name that nobody reads.
        EditionError: mkdocs.yml names an edition that there is not.
    """
    from mkdocs.utils.yaml import yaml_load  # noqa: PLC0415

    project = project.resolve()
    own = project / "mkdocs.yml"
    raw: dict[str, Any] = {}
    text = _own_text(project)
    if text is not None:
        try:
            # The file and not its text: INHERIT leads on from where it stands.
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
    _check_edition(settings["plugins"]["scoutgen"], options, text or "")
    if text is not None:
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


def _own_text(project: Path) -> str | None:
    """The text of the project's mkdocs.yml; None where there is none, and nothing that could be meant for it.

    Passed over without a word, `edition: players` in it would be lost and the staff's site be built in its place.

    Raises:
        BuildFailedError: it is no plain file or no text, or its name is a little other.
    """
    own, wrong, text = project / "mkdocs.yml", [], None
    if os.path.lexists(own):
        # A link may lead out of the project: what builds run is trusted. Only what is there at its end must be a file.
        text, problems = read_text(own, Path(os.path.realpath(own)).parent)
        wrong = [str(replace(problem, file=own.name)) for problem in problems]
    for path in sorted(project.iterdir()):
        if path.name != own.name and _NEAR.fullmatch(path.name):
            name = relative(path, project)
            wrong.append(f"{name}: is not read; settings stand in mkdocs.yml; rename it, or move it away")
    if wrong:
        raise BuildFailedError("\n".join(wrong))
    return text


def _check_edition(ours: dict[str, Any], options: dict[str, Any], text: str) -> None:
    """Refuse an edition of mkdocs.yml that there is not, with its line; one of the call is another's business."""
    name = ours.get("edition")
    if options.get("edition") is not None or not isinstance(name, str):
        return
    try:
        require_edition(name)
    except EditionError as wrong:
        # None in a file that mkdocs.yml inherits from.
        there = re.search(rf"^[^#\n]*\bedition[\"']?\s*:\s*[\"']?{re.escape(name)}", text, re.MULTILINE)
        place = f"mkdocs.yml:{text.count(chr(10), 0, there.end()) + 1}" if there else "mkdocs.yml"
        raise EditionError(f"{place}: edition: {wrong}") from None


def _plugins(given: Any, ours: dict[str, Any]) -> dict[str, Any]:  # noqa: ANN401 - as YAML has it
    """Plugins in their order with our options on top; a dict, since MkDocs empties lists it has read."""
    if isinstance(given, dict):
        named = dict(given)
    else:
        items = [{item: {}} if isinstance(item, str) else item for item in given or []]
        named = {name: options for item in items if isinstance(item, dict) for name, options in item.items()}
    own = named.get("scoutgen") or {}
    if not isinstance(own, dict):
        raise BuildFailedError(
            "mkdocs.yml: scoutgen: is not a list of options; write each on a line of its own, like edition: players"
        )
    return {**named, "scoutgen": {**own, **ours}}


def _bare_config(project: Path) -> Path:
    """MkDocs wants a file; a project without one gets a blank one out of sight."""
    place = project / ".scoutgen" / "mkdocs.yml"
    place.parent.mkdir(exist_ok=True)
    place.write_text("{}\n", encoding="utf-8")
    return place

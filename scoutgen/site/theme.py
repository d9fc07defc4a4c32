"""What privacy and looks need of the theme, whatever the project's mkdocs.yml says."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from mkdocs.config import base
from mkdocs.config.config_options import Type
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.theme import Theme

from scoutgen.site.asset_names import hashed_name
from scoutgen.site.editions import EDITIONS, scripts_of_others

HERE = Path(__file__).parent
ASSETS = HERE / "assets"
# Loaded by file:// builds only, where a browser refuses workers.
_ONLY_FROM_DISK = "disk-worker.js"
_NAMED_IN_PAGES = ("early.js", "palette.js", "offline.js", "icon-touch-180.png")
_FEATURES = ("navigation.prune", "navigation.top", "search.highlight")
# Features that would fetch pages by script, share addresses, or fight our own left/right switch.
_REFUSED = ("navigation.instant", "search.share", "content.tabs.link", "announce.dismiss", "navigation.indexes")
ON_THIS_PHONE = "on-this-phone/index.html"
_EXTENSIONS = ("toc", "tables", "fenced_code")
# Files of the theme that no page of ours asks for.
_UNUSED = (".map", "assets/javascripts/lunr/", "assets/images/favicon.png", "sitemap.xml")
_OWN_COLOURS = {"primary": "custom", "accent": "custom"}
_PALETTE: list[dict[str, object]] = [
    {
        "media": "(prefers-color-scheme)",
        "scheme": "default",
        **_OWN_COLOURS,
        "toggle": {"icon": "material/brightness-auto", "name": "Colours follow the phone; tap for light"},
    },
    {
        "media": "(prefers-color-scheme: light)",
        "scheme": "default",
        **_OWN_COLOURS,
        "toggle": {"icon": "material/brightness-7", "name": "Light; tap for dark"},
    },
    {
        "media": "(prefers-color-scheme: dark)",
        "scheme": "slate",
        **_OWN_COLOURS,
        "toggle": {"icon": "material/brightness-4", "name": "Dark; tap for bright sun"},
    },
    {
        # No setting of a phone asks for it by day alone, so it is only ever chosen.
        "media": "not all",
        "scheme": "sun",
        **_OWN_COLOURS,
        "toggle": {"icon": "material/contrast-circle", "name": "Bright sun; tap to follow the phone"},
    },
]


class SearchBoxConfig(base.Config):  # type: ignore[no-untyped-call]  # MkDocs leaves its hook untyped
    """The one option the theme's templates look at."""

    enabled = Type(bool, default=True)


class SearchBox(BasePlugin[SearchBoxConfig]):  # type: ignore[no-untyped-call]  # as above
    """Stands where the theme expects its own search plugin, so that it shows the search box; it does nothing."""


def impose(config: MkDocsConfig, edition: str, *, kept: bool) -> None:
    """Set what must be so, and take out what must not be.

    Without `use_directory_urls` the pages are made to open from a folder: every link names a file, and search finds its
    way without a worker.

    Args:
        config: the project's.
        edition: for whom it is.
        kept: phones keep the site, so that its pages say so.
    """
    if config.theme.name != "material":
        config.theme = Theme(name="material")
    theme: Any = config.theme
    theme.dirs.insert(0, str(HERE / "overrides"))
    asked = [f for f in theme.get("features") or [] if not f.startswith(_REFUSED)]
    theme["features"] = list(dict.fromkeys([*asked, *_FEATURES]))
    theme["font"] = False
    theme["language"] = "en"
    theme["palette"] = _PALETTE
    theme["favicon"] = asset_address("icon.svg")
    theme["icon"] = {"logo": "material/baseball"}
    # A list of all addresses is made for search engines, which are not wanted here.
    theme.static_templates.discard("sitemap.xml")
    if kept:
        theme.static_templates.add(ON_THIS_PHONE)
    if not config.use_directory_urls:
        # Its links begin at the root of a host, and a folder shows nothing for what is not in it.
        theme.static_templates.discard("404.html")
    config.copyright = None
    config.repo_url = config.site_description = config.site_author = None
    config.edit_uri = config.edit_uri_template = None
    frame = EDITIONS[edition]
    others = {k: v for k, v in config.extra.items() if k not in {"analytics", "consent", "social", "version", "scope"}}
    extra: Any = {
        **others,
        "generator": False,
        "social": None,
        "polyfills": [] if config.use_directory_urls else [asset_address(_ONLY_FROM_DISK)],
        "scoutgen": {
            **{name: asset_address(name) for name in _NAMED_IN_PAGES},
            "kept": kept,
            "home": frame.home,
            "home_page": "." if config.use_directory_urls else "index.html",
            "home_link": frame.home_link,
            "readers": frame.readers,
            "list_page": frame.list_page,
            "list_scripts": [*map(asset_address, frame.list_scripts)],
        },
    }
    config.extra = extra
    config.extra_css = [*config.extra_css, asset_address("site.css")]
    config.extra_javascript = [*config.extra_javascript, asset_address("site.js")]
    for extension in _EXTENSIONS:
        if extension not in config.markdown_extensions:
            config.markdown_extensions.append(extension)
    _replace_search(config)


def asset_address(name: str) -> str:
    """Where an asset stands in the site; a changed file has another address, so that no old copy is shown."""
    return f"assets/scoutgen/{hashed_name(name, (ASSETS / name).read_bytes())}"


def join_assets(files: Files, add: Callable[[str, bytes], File], edition: str, *, for_disk: bool = False) -> None:
    """Bring our own assets in, and leave out what no page of the edition asks for."""
    unused = {*([] if for_disk else [_ONLY_FROM_DISK]), *scripts_of_others(edition)}
    for file in list(files):
        if file.src_uri.endswith(_UNUSED[0]) or file.src_uri.startswith(_UNUSED[1:]):
            files.remove(file)
    for path in sorted(ASSETS.iterdir()):
        if path.is_file() and path.name not in unused:
            files.append(add(asset_address(path.name), path.read_bytes()))


def _replace_search(config: MkDocsConfig) -> None:
    """Our own index takes the place of the stock plugin's, whose parsing of every page costs a quarter of a build."""
    for name in ("material/search", "search"):
        stock = config.plugins.pop(name, None)
        if stock is None:
            continue
        for event, methods in config.plugins.events.items():
            config.plugins.events[event] = [m for m in methods if getattr(m, "__self__", None) is not stock]
    box = SearchBox()
    box.load_config({})
    config.plugins["material/search"] = box

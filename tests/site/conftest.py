"""A project whose pages are a made-up book, through the one seam where the site asks the rooms before it."""

import json
import shutil
import time
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import sample_book
from hosts import Host
from locked import PASSPHRASE, SALT, Lock
from once import once, shared_folder
from playwright.sync_api import Browser, BrowserContext
from small_builds import build_small
from small_season import write_small_season

from scoutgen.pages.book import Book
from scoutgen.site import plugin
from scoutgen.site.build import Built, build_site
from scoutgen.site.locked_site import lock_site
from scoutgen.site.output import MARKER
from scoutgen.site.pack import pack_site

AS_OF = "2026-04-09"
BuildBook = Callable[..., Built]


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """An empty project."""
    folder = tmp_path / "project"
    (folder / "content").mkdir(parents=True)
    return folder


@pytest.fixture
def use_book(monkeypatch: pytest.MonkeyPatch) -> Callable[[Book | Exception], None]:
    """A function that makes every build take this book, or fail as reading would."""

    def use(book: Book | Exception) -> None:
        def read(*_: object, **__: object) -> object:
            if isinstance(book, Exception):
                raise book
            return sample_book.edition_book(book)

        monkeypatch.setattr(plugin, "read_book", read)

    return use


@pytest.fixture
def build_book(project: Path, use_book: Callable[[Book | Exception], None]) -> BuildBook:
    """A function from a book to a built site."""

    def build(book: Book | Exception | None = None, **options: object) -> Built:
        use_book(book or sample_book.book())
        return build_site(project, as_of=AS_OF, **options)  # type: ignore[arg-type]

    return build


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    """A phone with a browser that has never been here."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    yield context
    context.close()


@pytest.fixture
def host(tmp_path: Path) -> Iterator[Host]:
    """Serves under a path, as most free hosts do."""
    with Host(tmp_path / "host", "team/scouting/") as started:
        yield started


def _own_copy(factory: pytest.TempPathFactory, name: str, build: Callable[[Path], object]) -> Path:
    """The site of a project built once for all processes: a copy of both, so that nobody builds in another's folder."""
    made, own = once(shared_folder(factory) / f"{name}-for-all", build), factory.mktemp(name)
    shutil.copytree(made, own, dirs_exist_ok=True)
    return own / "site"


@pytest.fixture(scope="session")
def sample_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The made-up book as a finished site, built once."""

    def build(folder: Path) -> None:
        (folder / "content/pages").mkdir(parents=True)
        (folder / "content/pages/phones.md").write_text("# Phones\n\nNo phones in the dugout: print the cards.\n")
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(plugin, "read_book", lambda *_, **__: sample_book.edition_book())
            build_site(folder, as_of=AS_OF)

    return _own_copy(tmp_path_factory, "sample", build)


@pytest.fixture(scope="session")
def small_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small season's site, built by the command line on two processors; said.txt beside it is what that said."""

    def build(folder: Path) -> None:
        (folder / "said.txt").write_text(build_small(write_small_season(folder), processors=2))

    return _own_copy(tmp_path_factory, "small", build)


@pytest.fixture(scope="session")
def demo_site(measured_demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The repository's demo as a finished site, built from a copy that keeps what was measured."""

    def build(folder: Path) -> None:
        repository = Path(__file__).parents[2]
        for name in ("content", "data"):
            shutil.copytree(repository / name, folder / name)
        shutil.copy(repository / "mkdocs.yml", folder)
        shutil.copytree(measured_demo / ".scoutgen", folder / ".scoutgen")
        build_site(folder, as_of=AS_OF)

    return _own_copy(tmp_path_factory, "demo", build)


@pytest.fixture(scope="session")
def demo_site_later(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same demo built again two hours later, when nothing had changed but the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SOURCE_DATE_EPOCH", str(int(time.time()) + 7200))
        return build_site(demo_site.parent, tmp_path_factory.mktemp("later") / "site", as_of=AS_OF).out


@pytest.fixture(scope="session")
def demo_pack(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo as it is handed over by cable, unpacked; nobody writes into it."""

    def build(folder: Path) -> None:
        folder.mkdir()
        with zipfile.ZipFile(pack_site(demo_site.parent, folder / "demo.zip", as_of=AS_OF).out) as packed:
            packed.extractall(folder)

    made = once(shared_folder(tmp_path_factory) / "demo-pack", build)
    return next(place for place in made.iterdir() if place.is_dir())


@pytest.fixture(scope="session")
def lock(tmp_path_factory: pytest.TempPathFactory) -> Lock:
    """A function from a site to its locked form."""

    def make(site: Path, passphrase: str = PASSPHRASE, built: str = "", salt: bytes = SALT) -> Path:
        out = tmp_path_factory.mktemp("locked") / "site"
        # The time its pages were built at: where the index says another, they rightly offer the newer version.
        at = built or json.loads((site / MARKER).read_text(encoding="utf-8"))["built"]
        lock_site(site, out, passphrase, salt, built=at)
        return out

    return make


@pytest.fixture(scope="session")
def locked_demo(demo_site: Path, lock: Lock, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo behind a passphrase, locked once for all processes; nobody writes into it."""
    return once(shared_folder(tmp_path_factory) / "locked-demo", lambda place: lock(demo_site).rename(place))


@pytest.fixture(scope="session")
def locked_sample(sample_site: Path, lock: Lock) -> Path:
    """The made-up book behind a passphrase."""
    return lock(sample_site)

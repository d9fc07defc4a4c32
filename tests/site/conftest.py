"""A project whose pages are a made-up book, through the one seam where the site asks the rooms before it."""

import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import sample_book
from hosts import Host
from playwright.sync_api import Browser, BrowserContext

from scoutgen.pages.book import Book
from scoutgen.site import plugin
from scoutgen.site.build import Built, build_site

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


@pytest.fixture(scope="session")
def sample_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The made-up book as a finished site, built once."""
    folder = tmp_path_factory.mktemp("sample")
    (folder / "content/pages").mkdir(parents=True)
    (folder / "content/pages/phones.md").write_text("# Phones\n\nNo phones in the dugout: print the cards.\n")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plugin, "read_book", lambda *_, **__: sample_book.edition_book())
        built = build_site(folder, as_of=AS_OF)
    return built.out


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The repository's demo as a finished site, built from a copy."""
    repository, folder = Path(__file__).parents[2], tmp_path_factory.mktemp("demo")
    for name in ("content", "data"):
        shutil.copytree(repository / name, folder / name)
    shutil.copy(repository / "mkdocs.yml", folder)
    return build_site(folder, as_of=AS_OF).out


@pytest.fixture(scope="session")
def demo_site_later(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same demo built again two hours later, when nothing had changed but the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SOURCE_DATE_EPOCH", str(int(time.time()) + 7200))
        return build_site(demo_site.parent, tmp_path_factory.mktemp("later") / "site", as_of=AS_OF).out

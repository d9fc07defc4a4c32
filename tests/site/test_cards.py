"""Cards as they come out of a printer, measured in a browser, and the command that prints them."""

import io
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from types import SimpleNamespace

import pypdf
import pytest
from click.testing import CliRunner, Result
from conftest import must_run
from planted import copy_few_games
from playwright.sync_api import Browser, Page

from scoutgen.cli import main
from scoutgen.site import cards
from scoutgen.site.cards import BROWSERS, find_browser

LAST_GAME = "0322-harbor.csv"

INCH = 96
POINT = 96 / 72
FOLDER = "cards/gannet-harbor/"
# Page and its cards, how many of them, and inches across and down.
CARDS = [
    ("base-coaches/", ".box-index-card", 4, (5, 3)),
    # Unfolded, and each of the two that fold into one.
    ("fielders/", ".box-wallet", 4, (7, 2.5)),
    ("fielders/", ":is(.box-wallet-front, .box-wallet-back)", 8, (3.5, 2.5)),
    ("hitters/", ".box-half", 3, (8.5, 5.5)),
]
# Page, cards on it, sheets, and the paper in points.
SHEETS = [
    ("base-coaches/", 4, 1, (792, 612)),
    ("fielders/", 4, 1, (612, 792)),
    ("hitters/", 3, 2, (612, 792)),
]
# The longest a card must hold: a roster of forty, and names longer than any we met.
LONGEST = """() => {
  const name = "Wolfeschlegelsteinhausen", numbers = [...Array(36).keys()].map(n => n + 10).join(", ");
  for (const card of document.querySelectorAll(".box-index-card:has(li:nth-child(6))")) {
    card.querySelector("h2").textContent = "Saturday afternoon: 44 Bartholomew " + name + ", RHP";
    const lines = [...card.querySelectorAll("li")];
    lines.slice(6).forEach(line => line.remove());
    lines[5].textContent = "Took third, home on a single: LF 12 of 30, 26 of 42; CF 13 of 37, 34 of 46, 1 out; " +
      "RF 62 % (12 of 36), 71 % (26 of 42).";
    lines[6].textContent = "▲ go: " + [1, 2, 3, 4].map(n => `${n} ${name} 90 %`).join(", ");
    const others = lines[6].cloneNode();
    others.textContent = "◆ only if: " + numbers;
    lines[5].after(lines[6], others);
    card.querySelector(".box-card-foot p").textContent += " · * changed since 28 Sep, 21:40";
  }
}"""

# Three turns of two changes, and strikeouts that ended on seven pitches.
LONGEST_HALF = """() => {
  const pitches = ["fastball", "sinker", "cutter", "slider", "sweeper", "splitter", "knuckleball"];
  const change = pitch => `${pitch} likely down, 117 of 255 after 155 of 288 the first time`;
  for (const half of document.querySelectorAll(".box-half")) {
    for (const p of half.querySelectorAll(".side > p:not(.side-name)")) {
      p.textContent = "Strikeouts ended on: " + pitches.map(pitch => `${pitch} 12`).join(", ") + ".";
    }
    const first = half.querySelector("li");
    for (const at of [0, 1, 2]) {
      const turn = first.cloneNode();
      turn.textContent = "Second time through to lefties: " + pitches.slice(5).map(change).join("; ");
      first.before(turn);
    }
    first.remove();
  }
}"""

# Ten hitters, all to be moved both ways and bunting, and on the back a longer legend and every order of four men.
LONGEST_WALLET = """() => {
  const name = "Wolfeschlegelsteinhausen";
  for (const body of document.querySelectorAll(".box-wallet-front tbody")) {
    body.append(body.rows[0].cloneNode(true));
    for (const row of body.rows) {
      const texts = ["24 " + name, "S", "4 opp / 3 opp", "3 opp / 2 opp", "2 opp", "B 12 of 288"];
      texts.forEach((text, at) => { row.cells[at].textContent = text; });
    }
  }
  for (const title of document.querySelectorAll(".box-wallet-front > p")) {
    title.textContent = "Fielders · as of Thu 9 Apr 2026 · At the " + name + " Invitational in February";
  }
  for (const line of document.querySelectorAll(".box-wallet-back li:nth-child(1)")) {
    const words = "second baseman behind the bag, others two steps";
    line.textContent = "Infield: " + [1, 2, 3, 4].map(n => `${n} ${words}`).join(", ");
  }
  for (const line of document.querySelectorAll(".box-wallet-back li:nth-child(4)")) {
    line.textContent += " Level 2 opp (righty), 3 opp (lefty), 4 (righty): shortstop, third, second, first base.";
  }
}"""


@pytest.fixture(scope="module")
def base(serve: Callable[[Path], str], demo_site: Path) -> str:
    return serve(demo_site)


@pytest.fixture
def printed(browser: Browser) -> Iterator[Page]:
    """A page as a printer sees it, in dark mode, which paper must not show."""
    if wider := cards.wider_letters():
        must_run("cards on paper", wider)
    context = browser.new_context(color_scheme="dark", viewport={"width": 1000, "height": 800})
    page = context.new_page()
    page.emulate_media(media="print")
    yield page
    context.close()


@pytest.mark.parametrize(
    ("letters", "warned"), [("DejaVu Sans", True), ("Liberation Sans", False), ("Arial,Arial Bold", False), ("", False)]
)
def test_a_machine_with_wider_letters_is_told_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, letters: str, *, warned: bool
) -> None:
    tool = tmp_path / "fc-match"
    tool.write_text(f"#!/bin/sh\necho '{letters}'\n")
    tool.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    assert ("fonts-liberation" in cards.wider_letters()) == warned
    monkeypatch.setenv("PATH", str(tmp_path / "nothing"))
    assert cards.wider_letters() == ""


@pytest.mark.browser
@pytest.mark.parametrize(("path", "card", "number", "inches"), CARDS)
def test_cards_are_true_to_size_legible_and_black_on_white(
    printed: Page, base: str, *, path: str, card: str, number: int, inches: tuple[float, float]
) -> None:
    printed.goto(base + FOLDER + path)
    found = printed.locator(card)
    assert found.count() == number
    boxes = found.evaluate_all("all => all.map(e => e.getBoundingClientRect()).map(b => [b.width, b.height])")
    for width, height in boxes:
        assert (width / INCH, height / INCH) == pytest.approx(inches, abs=0.005)
    over = found.evaluate_all("all => all.map(e => [e.scrollWidth - e.clientWidth, e.scrollHeight - e.clientHeight])")
    # The marks stand 0.07 inches outside on purpose; the words do not.
    assert max(max(pair) for pair in over) <= 0.07 * INCH + 1
    words = printed.locator(f"{card} :is(h2, p, li, th, td, strong)")
    looks = words.evaluate_all(
        "all => all.map(e => getComputedStyle(e)).map(s => [parseFloat(s.fontSize), s.color, s.backgroundColor])"
    )
    assert len(looks) > 50
    assert min(size for size, _, _ in looks) >= 8 * POINT - 0.01
    assert {colour for _, colour, _ in looks} == {"rgb(0, 0, 0)"}
    assert {ground for _, _, ground in looks} <= {"rgba(0, 0, 0, 0)", "rgb(255, 255, 255)"}
    if ".box-wallet" not in card:
        assert inside(printed, card)


@pytest.mark.browser
@pytest.mark.parametrize(("path", "number", "sheets", "paper"), SHEETS)
def test_the_sheets_hold_nothing_but_cards(
    printed: Page, base: str, *, path: str, number: int, sheets: int, paper: tuple[int, int]
) -> None:
    printed.goto(base + FOLDER + path)
    read = pypdf.PdfReader(io.BytesIO(printed.pdf(prefer_css_page_size=True)))
    assert len(read.pages) == sheets
    texts = [" ".join(sheet.extract_text().replace("\N{NO-BREAK SPACE}", " ").split()) for sheet in read.pages]
    for sheet in read.pages:
        assert (round(float(sheet.mediabox.width)), round(float(sheet.mediabox.height))) == paper
    assert sum(text.count("as of Thu 9 Apr 2026 · staff edition") for text in texts) == number
    assert all("This page is for printing" not in text for text in texts)


@pytest.mark.browser
def test_the_longest_roster_and_names_stay_on_the_card(printed: Page, base: str) -> None:
    printed.goto(base + FOLDER + "base-coaches/")
    printed.evaluate(LONGEST)
    assert "Wolfeschlegelsteinhausen 90 %" in printed.locator(".box-index-card").first.inner_text()
    assert inside(printed, ".box-index-card")


@pytest.mark.browser
def test_a_pitcher_of_seven_pitches_who_changes_a_lot_stays_on_his_half_sheet(printed: Page, base: str) -> None:
    printed.goto(base + FOLDER + "hitters/")
    printed.evaluate(LONGEST_HALF)
    assert "knuckleball 12" in printed.locator(".box-half").first.inner_text()
    assert inside(printed, ".box-half")


@pytest.mark.browser
def test_ten_hitters_of_long_names_all_to_be_moved_stay_on_the_wallet_card(printed: Page, base: str) -> None:
    printed.goto(base + FOLDER + "fielders/")
    printed.evaluate(LONGEST_WALLET)
    front, back = printed.locator(".box-wallet-front").first, printed.locator(".box-wallet-back").first
    assert front.inner_text().count("4 opp / 3 opp") == 10
    assert back.inner_text().count("two steps") == 4
    assert inside(printed, ".box-wallet-back")
    for part in (front, back):
        (box,) = part.evaluate_all("all => all.map(e => e.getBoundingClientRect())")
        edges = part.locator(":is(td, th, p, li)").evaluate_all("all => all.map(e => e.getBoundingClientRect())")
        assert max(edge["right"] for edge in edges) <= box["right"]
        assert max(edge["bottom"] for edge in edges) <= box["bottom"]
    # A name too long is cut at its end; the number never is.
    names = front.locator("tbody th").evaluate_all("all => all.map(e => e.clientWidth)")
    assert min(names) >= 0.4 * INCH
    assert len(pypdf.PdfReader(io.BytesIO(printed.pdf(prefer_css_page_size=True))).pages) == 1


@pytest.mark.browser
def test_on_the_screen_one_wallet_card_is_enough(browser: Browser, base: str) -> None:
    page = browser.new_page(viewport={"width": 1000, "height": 800})
    page.goto(base + FOLDER + "fielders/")
    assert [card.is_visible() for card in page.locator(".box-wallet").all()] == [True, False, False, False]
    page.close()


def inside(page: Page, card: str) -> bool:
    """Whether every word stands on its card, and no two parts of a card over each other."""
    return bool(
        page.evaluate(
            """card => [...document.querySelectorAll(card)].every(e => {
              const box = e.getBoundingClientRect(), foot = e.querySelector(".box-card-foot").getBoundingClientRect();
              const parts = [...e.querySelectorAll("h2, li, td, th, p:not(.box-card-foot p)")];
              return foot.bottom <= box.bottom && parts.every(part => {
                const at = part.getBoundingClientRect();
                return at.left >= box.left && at.right <= box.right && at.top >= box.top && at.bottom <= foot.top + 1;
              });
            })""",
            card,
        )
    )


@pytest.mark.browser
def test_on_a_phone_a_card_is_no_wider_than_the_screen(browser: Browser, base: str) -> None:
    page = browser.new_page(viewport={"width": 360, "height": 740})
    for path, card, *_ in CARDS:
        page.goto(base + FOLDER + path)
        assert "This page is for printing" in page.locator("main").inner_text()
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        assert page.locator(card).first.is_visible()
    page.close()


# The command


def run(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["cards", *map(str, arguments)])


@pytest.fixture(scope="module")
def demo_project(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the demo, which builds beside no other: nothing printed yet, charts drawn, pages rendered."""
    folder = tmp_path_factory.mktemp("cards") / "project"
    return Path(shutil.copytree(demo_site.parent, folder, ignore=shutil.ignore_patterns("site")))


@pytest.mark.browser
def test_the_command_writes_a_pdf_for_every_page_of_cards(
    demo_project: Path, chromium: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CHROMIUM", chromium)
    out = tmp_path / "pdf"
    ran = run("--project", demo_project, "--series", "gannet-harbor", "--as-of", "2026-04-09", "--out", out)
    assert ran.exit_code == 0, ran.output
    names = [f"gannet-harbor-{name}.pdf" for name in ("base-coaches", "fielders", "hitters")]
    assert ran.stdout.splitlines() == [f"wrote {out / name}" for name in names]
    assert sorted(file.name for file in out.iterdir()) == names
    for (_, _, sheets, paper), name in zip(SHEETS, names, strict=True):
        read = pypdf.PdfReader(out / name)
        assert len(read.pages) == sheets
        box = read.pages[0].mediabox
        assert (round(float(box.width)), round(float(box.height))) == paper
        known = "24 Vandersloot" if "fielders" in name else "27 Iker Núñez, RHP"
        assert known in " ".join(read.pages[0].extract_text().split())
    # Built in a folder of its own: no site appeared in the project.
    assert not (demo_project / "site").exists()


@pytest.mark.browser
def test_printed_again_a_sheet_marks_what_is_new_since_the_sheet_before(
    chromium: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CHROMIUM", chromium)
    real = cards.print_page

    def print_coaches(browser: str, page: Path, to: Path, *, profile: Path) -> None:
        """The cards that are read here; the others are asked about where all are printed."""
        if to.name.endswith("base-coaches.pdf"):
            real(browser, page, to, profile=profile)
        else:
            to.write_bytes(b"%PDF-")

    monkeypatch.setattr(cards, "print_page", print_coaches)
    project = tmp_path / "project"
    copy_few_games(project, (LAST_GAME.removesuffix(".csv"),))
    game = project / "data" / "holds" / LAST_GAME
    charted = game.read_text(encoding="utf-8")
    game.unlink()

    def coaches(name: str) -> str:
        arguments = ("--project", project, "--series", "gannet-harbor", "--as-of", "2026-04-09", "--out")
        ran = run(*arguments, tmp_path / name)
        assert ran.exit_code == 0, ran.output
        read = pypdf.PdfReader(tmp_path / name / "gannet-harbor-base-coaches.pdf")
        text = " ".join(read.pages[0].extract_text().replace("\N{NO-BREAK SPACE}", " ").split())
        return re.sub(r"built [0-9-]+ [0-9:]+", "", text)

    assert "*" not in coaches("first")
    game.write_text(charted, encoding="utf-8")
    again = coaches("again")
    assert "* changed since" in again
    assert "* Throws over:" in again
    assert "* 12 Ruben Castellane, pop:" not in again
    # Printed once more, say for the second coach: the marks are those of the sheet he did not get.
    assert coaches("once more") == again


def test_without_a_browser_one_line_says_how_to_print(
    demo_project: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv("CHROMIUM", raising=False)
    ran = run("--project", demo_project, "--series", "gannet-harbor", "--out", tmp_path / "pdf")
    assert ran.exit_code == 3
    assert ran.stderr == (
        "scoutgen: no Chromium was found (looked for chromium, chromium-browser, google-chrome; CHROMIUM may name "
        "one); run scoutgen serve, open cards/gannet-harbor/ and print from the browser: letter paper, actual "
        "size (100 %), no headers\n"
    )
    assert not (tmp_path / "pdf").exists()


def test_an_unknown_series_is_wrong_use_and_the_known_ones_are_named(demo_project: Path) -> None:
    for name in ("gannet", "../gannet-harbor", ""):
        ran = run("--project", demo_project, "--series", name)
        assert ran.exit_code == 2
        assert ran.stderr == (
            f"scoutgen: there is no series '{name}'; content/series/ has gannet-harbor, slatefield-march\n"
        )


def browser_that(folder: Path, does: str, name: str = "browser") -> str:
    """A program in place of a browser."""
    program = folder / name
    program.write_text(f"#!/bin/sh\n{does}\n")
    program.chmod(0o700)
    return str(program)


def test_a_series_that_is_over_has_no_cards_and_it_is_said_which_have(
    demo_project: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CHROMIUM", browser_that(tmp_path, "exit 1"))
    ran = run("--project", demo_project, "--series", "slatefield-march", "--as-of", "2026-04-09")
    assert ran.exit_code == 2
    assert "the series 'slatefield-march' has no cards: it is over" in ran.stderr
    assert ran.stderr.endswith("; there are cards for gannet-harbor\n")


def test_a_browser_that_prints_nothing_is_quoted(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    page = tmp_path / "base-coaches" / "index.html"
    for does, said in (
        ("echo first >&2; echo cannot open display >&2; exit 1", "cannot open display"),
        ("exit 0", "it did not say why"),
        ("sleep 5", "it took longer than 0.2 s"),
    ):
        monkeypatch.setattr(cards, "_SECONDS", 0.2)
        with pytest.raises(cards.PrintingError, match=f"did not print base-coaches: {said}"):
            cards.print_page(browser_that(tmp_path, does), page, tmp_path / "made.pdf", profile=tmp_path / "profile")


def test_the_browser_is_the_one_named_or_the_first_there_is(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv("CHROMIUM", raising=False)
    assert find_browser() is None
    for name in reversed(BROWSERS):
        browser_that(tmp_path, "exit 0", name)
        assert find_browser() == str(tmp_path / name)
    monkeypatch.setenv("CHROMIUM", browser_that(tmp_path, "exit 0"))
    assert find_browser() == str(tmp_path / "browser")


def test_sheets_that_cannot_be_remembered_are_said_beside_the_files_that_stand(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def build(_: Path, site: Path, **__: object) -> SimpleNamespace:
        (site / "cards/opener/fielders").mkdir(parents=True)
        (site / "cards/opener/fielders/index.html").write_text("")
        book = SimpleNamespace(book=SimpleNamespace(pages=()), built="2026-04-09 12:00")
        return SimpleNamespace(edition="staff", warnings=(), edition_book=book)

    def print_page(_: str, __: Path, to: Path, *, profile: Path) -> None:
        to.write_bytes(f"%PDF-{profile.name}".encode())

    (tmp_path / "content/series").mkdir(parents=True)
    (tmp_path / "content/series/opener.yml").write_text("opponent: harbor\nstart: 2026-04-10\n")
    (tmp_path / ".scoutgen").mkdir()
    (tmp_path / ".scoutgen/printed").write_text("a file in the way")
    monkeypatch.setattr(cards, "build_site", build)
    monkeypatch.setattr(cards, "find_browser", lambda: "chromium")
    monkeypatch.setattr(cards, "print_page", print_page)
    ran = run("--project", tmp_path, "--series", "opener")
    assert ran.exit_code == 0
    pdf = tmp_path / "cards/opener-fielders.pdf"
    assert ran.stdout == f"wrote {pdf}\n"
    assert ran.stderr.startswith(".scoutgen/printed/staff.json: warning: these sheets are not remembered (")
    assert ran.stderr.count("\n") == 1
    assert [file.name for file in pdf.parent.iterdir()] == [pdf.name]
    assert pdf.read_bytes().startswith(b"%PDF-")

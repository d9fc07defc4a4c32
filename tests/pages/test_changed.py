"""The page of what changed: on the demo before and after its last day, and on builds made up."""

import re
from dataclasses import replace
from datetime import date

import pytest
from pages.demo import plain

from scoutgen.pages import kept_findings
from scoutgen.pages.book import Book, Page
from scoutgen.pages.changed import NOT_COMPARED, ChangedPage, Earlier, changed_page
from scoutgen.pages.findings import Findings
from scoutgen.pages.markdown import render
from scoutgen.pages.said import Said, Saying
from scoutgen.pages.write import write_book, write_said
from scoutgen.records.season import Season
from scoutgen.records.until import before_day
from scoutgen.site.shelf import TableShelf

AS_OF = date(2026, 4, 9)
WHEN = "the build of Thu 2 Apr 2026, 21:40"


def page(earlier: Said | None, now: Said, *, coming: str = "", first: bool = False) -> ChangedPage:
    then = Earlier(earlier, WHEN, "2 Apr, 21:40", first=first)
    return changed_page(then, now, {"levels", "running", "a"}, coming=coming, built="now", as_of=AS_OF)


def text(made: ChangedPage) -> str:
    return plain(render("changed.md.j2", page=made))


@pytest.fixture(scope="module")
def known(demo_season: Season) -> Said:
    """What was said before the demo's last weekend."""
    return write_said(before_day(demo_season, date(2026, 4, 3)), edition="staff", built="then")


@pytest.fixture(scope="module")
def since_thursday(demo_season: Season, known: Said, measured: TableShelf) -> dict[str, Page]:
    """The demo's pages beside what was known before its last weekend."""
    book = write_book(
        demo_season,
        edition="staff",
        built="now",
        compared_with=lambda _: Earlier(known, WHEN, "2 Apr, 21:40"),
        tables=measured,
    )
    return {page.address: page for page in book.pages}


def test_what_changed_since_the_last_weekend(since_thursday: dict[str, Page], demo_season: Season) -> None:
    said = plain(since_thursday["changed"].markdown)
    assert said.startswith(f"# What changed\n\nSince {WHEN}: 7 new games, ")
    assert re.findall(r"^## (.+)$", said, flags=re.MULTILINE)[:2] == ["Gannet Harbor", "Games"]
    games = said.split("## Games\n")[1].split("\n[fold")[0]
    pitches = demo_season.pitches
    charted = int((pitches["game"] == "g0407-harbor").sum())
    assert f"- [Tue 7 Apr: Cottersby at Gannet Harbor](teams/harbor/index.md): {charted} pitches, " in games
    assert games.count("\n- ") == 7
    assert re.search(r"fastball \(\d+ of 13\) or cutter → fastball \d+ % \(\d+ of 22\) or cutter, ◐ usable", said)


def test_the_coming_series_stands_before_other_teams_and_its_men_in_the_order_we_meet_them(
    known: Said, demo_book: Book
) -> None:
    addresses = {page.address for page in demo_book.pages}
    then = Earlier(known, WHEN, "2 Apr, 21:40")
    made = changed_page(then, demo_book.said, addresses, coming="Gannet Harbor", built="now", as_of=AS_OF)
    said = text(made)
    assert re.findall(r"^## (.+)$", said, flags=re.MULTILINE)[:2] == ["Gannet Harbor", "Games"]
    mine = said.split("## Gannet Harbor\n")[1].split("\n## Games")[0]
    assert re.findall(r"^### (.+)$", mine, flags=re.MULTILINE) == ["Decisions", "Habits", "Numbers", "Notes", "Grades"]
    notes = re.findall(r"^- \[(\d+ [^\]]+)\]", mine.split("### Notes\n")[1], flags=re.MULTILINE)
    assert list(dict.fromkeys(notes))[:4] == ["27 Núñez", "19 Tran", "44 Adeyemi-Frost", "12 Castellane"]
    calls = mine.split("### Decisions\n")[1].splitlines()
    assert [bool(re.search("steal|home on", line)) for line in calls if line][:3] == [True, True, False]
    assert re.search(r"steal of second: ◆ only if → ▲ go: 2 Farnsworth-Li 82 % → 83 % \(plate \d+, pop \d+ timed", mine)
    assert re.search(r"to the plate, from the stretch: 1\.57 s → 1\.50 s \(13 watch → 32 watch\)", mine)


def test_home_says_it_in_a_line(since_thursday: dict[str, Page]) -> None:
    (line,) = [line for line in plain(since_thursday["index"].markdown).splitlines() if "changed.md" in line]
    assert re.fullmatch(r"\[New since 2 Apr, 21:40\]\(changed\.md\): 7 new games, .+\.", line)


def test_home_says_nothing_where_nothing_is_new(demo_book: Book) -> None:
    assert "changed.md" not in demo_book.pages[0].markdown


def test_it_stands_in_the_menu_and_is_found(demo_book: Book) -> None:
    (made,) = [page for page in demo_book.pages if page.address == "changed"]
    assert made.menu == ("What changed",)
    assert made.search[0].title == "What changed"


def test_the_same_season_again_has_not_changed(demo_season: Season, demo_book: Book, measured: TableShelf) -> None:
    then = Earlier(demo_book.said, WHEN, "")
    again = write_book(demo_season, edition="staff", built="now", compared_with=lambda _: then, tables=measured)
    (made,) = [plain(page.markdown) for page in again.pages if page.address == "changed"]
    assert f"Nothing that a page says has changed since {WHEN}." in made
    assert "changed.md" not in again.pages[0].markdown


def test_a_first_build_says_so() -> None:
    assert "First build of this edition: nothing to compare with yet." in text(page(None, {}, first=True))
    assert "not compared" in text(changed_page(NOT_COMPARED, {}, (), coming="", built="now", as_of=AS_OF))


def test_a_first_build_whose_memory_was_damaged_says_that_too() -> None:
    made = changed_page(Earlier(first=True, unreadable=True), {}, (), coming="", built="now", as_of=AS_OF)
    assert "could not be read, so this one is taken for the first" in text(made)


def call(who: str, said: str, value: float) -> Saying:
    return Saying("call", "Harbor", "Friday, Reyes", "steal of second", said, "running", who, n=9, value=value,
                  detail="plate 9, pop 6 timed")  # fmt: skip


def test_runners_who_hear_the_same_new_call_share_a_line() -> None:
    before = {name: call(name, "◆ only if", 0.70) for name in ("1 Wren", "4 Hira", "9 Toiv")}
    now = {"1 Wren": call("1 Wren", "▲ go", 0.80), "4 Hira": call("4 Hira", "▲ go", 0.79), "9 Toiv": before["9 Toiv"]}
    made = page(before, now)
    assert made.counts == ("2 calls",)
    assert (
        "- [Friday, Reyes](running.md), steal of second: ◆ only if → ▲ go: 1 Wren 70 % → 80 %, 4 Hira 70 % → 79 % "
        "(plate 9, pop 6 timed)\n" in text(made)
    )


def test_both_hands_share_a_line_where_the_level_is_the_same() -> None:
    def level(hand: str, said: str, n: int) -> Saying:
        return Saying("level", "Harbor", "8 Okon", "outfield", said, "levels", hand, n=n)

    before = {hand: level(hand, "1", 18) for hand in ("our right-hander", "our left-hander")}
    now = {hand: level(hand, "2", 22) for hand in before}
    assert "- [8 Okon](levels.md), outfield: 1 → 2 (18 → 22 balls)\n" in text(page(before, now))
    now["our left-hander"] = before["our left-hander"]
    assert "outfield, our right-hander: 1 → 2" in text(page(before, now))


def test_no_line_links_to_a_page_that_is_gone() -> None:
    gone = Saying("lineup", "Harbor", "8 Okon", "in the lineup", "bats 2nd", "teams/harbor/players/okon#notes")
    made = page({"x": gone, "y": replace(gone, about="9 Ida", address="a#part")}, {})
    assert "- 8 Okon: out of the lineup\n- [9 Ida](a.md): out of the lineup\n" in text(made)


def test_who_plays_reads_in_words() -> None:
    def one(kind: str, said: str) -> Saying:
        return Saying(kind, "Harbor", "At Harbor", "probable pitcher, Friday", said, "a")

    both = page({"p": one("probable", "27 Núñez")}, {"p": one("probable", "19 Tran"), "b": one("bullpen", "limited")})
    assert "probable pitcher, Friday: 27 Núñez → 19 Tran" in text(both)
    assert "not listed → limited" in text(both)
    assert "nobody named → 27 Núñez" in text(page({}, {"p": one("probable", "27 Núñez")}))
    assert "27 Núñez → nobody named" in text(page({"p": one("probable", "27 Núñez")}, {}))


def test_text_of_the_staff_is_only_text() -> None:
    note = Saying("note", "Harbor", "8 Okon", "lead", "**bold** <b>x</b> [a](b)", "a")
    assert "<b>" not in text(page({}, {"x": note}))
    assert "[a](b)" not in text(page({}, {"x": note}))


def test_the_team_we_meet_next_is_counted_and_the_others_folded() -> None:
    def note(group: str) -> Saying:
        return Saying("note", group, "8 Okon", "lead", f"long, of {group}", "a")

    made = page({}, {"m": note("Marsh"), "h": note("Harbor"), "g": Saying("game", "", "Tue", "", "9 pitches", "a")},
                coming="Harbor")  # fmt: skip
    assert made.summary == "1 new game, 1 note; 1 more about other teams"
    shown, folded = text(made).split("[fold:Other teams: Marsh]")
    assert "of Harbor" in shown
    assert "of Marsh" in folded


def test_a_note_for_the_staff_is_new_in_no_other_edition_and_one_taken_back_is_not_repeated(
    demo_season: Season, demo_findings: Findings, players_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Notes are not measured.
    monkeypatch.setattr(kept_findings, "find", lambda *_: demo_findings)
    key, entry = next(
        (key, entry)
        for key, entry in demo_season.entries.items()
        if any(o.editions == ("staff",) for o in entry.observations)
    )
    secret = next(o for o in entry.observations if o.editions == ("staff",))
    shown = replace(
        entry,
        observations=tuple(
            o if o is not secret else o.model_copy(update={"editions": ("staff", "players")})
            for o in entry.observations
        ),
    )
    leaked = replace(demo_season, entries={**demo_season.entries, key: shown})
    before = write_said(leaked, edition="players", built="then")
    assert secret.text in {one.said for one in before.values()}
    assert secret.text not in {one.said for one in players_book.said.values()}
    pages = {page.address: plain(page.markdown) for page in players_book.pages}
    changed = changed_page(
        Earlier(before, WHEN, ""), players_book.said, set(pages), coming="", built="now", as_of=AS_OF
    )
    assert WHEN in text(changed)
    assert secret.text not in "\n".join([*pages.values(), text(changed)])

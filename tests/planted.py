"""The demo with a word of its own in every field that some edition may not show, and a search for such words in bytes.

A word is letters and digits only, so that no escape of Markdown, HTML or JSON takes it apart; what can be written
another way all the same is searched for in that way, too (`spellings`).
"""

import base64
import gzip
import html
import json
import re
import shutil
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import quote, unquote

from told import stand_in

ROOT = Path(__file__).parents[1]
STAFF, PLAYERS, RECRUITING = "staff", "players", "recruiting"
ALL = frozenset({STAFF, PLAYERS, RECRUITING})
# A few games are enough to have every page; all of them take a minute.
GAMES = ("0306-harbor", "0320-harbor", "0403-saltmarsh", "0328-saltmarsh", "0321-harbor")
# Four letters of no Latin alphabet, since initials are no longer: whose a note is, too, may be nobody's to know.
INITIALS = ("ΨΞΩΘ", "ΔΦΨΛ", "ΩΞΔΨ", "ΘΛΞΦ")


@dataclass
class Planted:
    """Words by where they were planted: each with the editions that may show it, and those that do."""

    may: dict[str, frozenset[str]] = field(default_factory=dict)
    where: dict[str, str] = field(default_factory=dict)
    shown: dict[str, frozenset[str]] = field(default_factory=dict)

    def word(self, where: str, may: Iterable[str], *, shown: Iterable[str] | None = None, word: str = "") -> str:
        """A new word; unless said otherwise, every edition that may show it does."""
        word = word or f"zq{len(self.may):03d}{re.sub('[^a-z]', '', where.lower())[:12]}"
        assert word not in self.may
        self.may[word], self.where[word] = frozenset(may), where
        self.shown[word] = frozenset(may if shown is None else shown)
        return word

    def kept_from(self, edition: str) -> list[str]:
        """Words that an edition may not show."""
        return [word for word, may in self.may.items() if edition not in may]

    def shown_by(self, edition: str) -> list[str]:
        """Words that an edition shows, without which a search that finds nothing would prove nothing."""
        return [word for word, shown in self.shown.items() if edition in shown]


def copy_few_games(project: Path, more: Iterable[str] = ()) -> None:
    """The demo's own files, with all that is written and a few of the games that are charted, by the names of files."""
    games = {*GAMES, *more}
    shutil.copytree(ROOT / "content", project / "content")
    for place in sorted((ROOT / "data").rglob("*.csv")):
        if place.name == "games.csv" or place.stem in games:
            target = project / place.relative_to(ROOT)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(place, target)


def plant(project: Path) -> Planted:
    """Write the project and say what was planted where."""
    planted = Planted()
    copy_few_games(project)
    _in_entries(project, planted)
    _in_team_and_series(project, planted)
    _in_program_and_habits(project, planted)
    _in_charts(project, planted)
    _in_pages(project, planted)
    return planted


def _observation(
    planted: Planted, where: str, mark: str, may: Iterable[str], *, by: str, day: str, old: str = ""
) -> str:
    """An observation with a word in each field; `mark` is its `for:`, blank for none."""
    lines = [
        f"  - about: {planted.word(f'{where} about', may)}",
        f"    text: Saw {planted.word(f'{where} text', may)} and more.",
        f"    seen: {day}",
        "    source: video",
        f"    by: {planted.word(f'{where} by', may, word=by)}",
        "    confidence: hunch",
        f"    clip: {planted.word(f'{where} clip', may)}.mp4 0:10",
    ]
    lines += [f"    for: {mark}"] if mark else []
    lines += [f"    expires: {old}"] if old else []
    return "\n".join(lines) + "\n"


def _in_entries(project: Path, planted: Planted) -> None:
    players = project / "content/opponents/harbor/players"
    both, staff, scouts = (STAFF, PLAYERS), (STAFF,), (STAFF, RECRUITING)
    entry = players / "iker-nunez.yml"
    text = entry.read_text(encoding="utf-8")
    text = re.sub(r"^summary: .*$", f"summary: Throws {planted.word('summary', both)} hard.", text, flags=re.MULTILINE)
    notes = "".join(
        (
            _observation(planted, "staff note", "[staff]", staff, by=INITIALS[0], day="2026-03-06"),
            _observation(planted, "old staff note", "staff", staff, by=INITIALS[1], day="2026-03-06", old="2026-03-07"),
            _observation(planted, "scouts note", "[recruiting]", scouts, by=INITIALS[2], day="2026-03-20"),
            _observation(planted, "note", "", both, by=INITIALS[3], day="2026-03-20"),
        )
    )
    text = text.replace("observations:\n", f"observations:\n{notes}", 1)
    head, _, _ = text.partition("grades:\n")
    grades = [
        "grades:", "  seen: 2026-04-03", "  source: video", "  by: ΣΠΓΔ",
        f"  body: Long {planted.word('grades body', scouts)} arms.",
        f"  role: A {planted.word('grades role', scouts)} role.",
        "  tools:",
        f"    fastball: {{now: 55, later: 60, saw: A {planted.word('grades saw', scouts)} there.}}",
        f"    overall: {{now: 50, saw: An {planted.word('grades overall saw', scouts)} there.}}",
    ]  # fmt: skip
    planted.word("grades by", scouts, word="ΣΠΓΔ")
    entry.write_text(f"{head}# {planted.word('comment', ())}\n" + "\n".join(grades) + "\n", encoding="utf-8")
    # A man of whom nothing else is written: whether he has an evaluation at all may show nowhere else.
    (players / "nikhil-varghese.yml").write_text(
        f"grades: {{seen: 2026-02-13, by: CV, body: {planted.word('lone grades body', scouts)}, tools: {{run: 35}}}}\n"
    )


def _in_team_and_series(project: Path, planted: Planted) -> None:
    both, staff = (STAFF, PLAYERS), (STAFF,)
    team = project / "content/opponents/harbor/team.yml"
    text = team.read_text(encoding="utf-8")
    notes = _observation(planted, "staff tendency", "[staff]", staff, by="ΛΩΣΠ", day="2026-03-06")
    notes += _observation(planted, "tendency", "", both, by="ΞΣΠΛ", day="2026-03-06")
    # What a team likes to do is a game plan, whoever it is marked for; the staff has all there is.
    notes += _observation(planted, "scouts tendency", "[recruiting]", staff, by="ΠΞΛΓ", day="2026-03-06")
    text = text.replace("tendencies:\n", f"tendencies:\n{notes}", 1)
    text = text.replace("  name: Breakwater Park", f"  name: {planted.word('park name', both)} Park")
    text = text.replace("  notes:\n", f"  notes:\n    - The {planted.word('park note', both)} blows in.\n", 1)
    team.write_text(text, encoding="utf-8")
    series = project / "content/series/gannet-harbor.yml"
    text = series.read_text(encoding="utf-8")
    plan = (
        f"plan:\n  - Do {planted.word('plan', both)} early.\n"
        f"  - about: {planted.word('staff plan about', staff)}\n"
        f"    text: Do {planted.word('staff plan text', staff)} late.\n    for: [staff]\n"
        f"  - {{text: Do {planted.word('players plan', both)} too., for: players}}\n"
    )
    text = text.replace("plan:\n", plan, 1)
    text = text.replace("title: At Gannet Harbor", f"title: At {planted.word('series title', both)}")
    # A series' name is part of the addresses of its cards.
    (series.with_name(f"{planted.word('series name', both)}.yml")).write_text(text, encoding="utf-8")
    series.unlink()


def _in_program_and_habits(project: Path, planted: Planted) -> None:
    both = (STAFF, PLAYERS)
    program = project / "content/program.yml"
    text = program.read_text(encoding="utf-8")
    text = text.replace("policy:\n", f"policy:\n  banner: No {planted.word('banner', ALL)} here.\n", 1)
    text = text.replace("Jabari Wrenfield", f"Jabari {planted.word('our own runner', both).capitalize()}")
    program.write_text(text, encoding="utf-8")
    habits = project / "content/habits.yml"
    text = habits.read_text(encoding="utf-8")
    text = text.replace(
        "    gives: A head start", f"    gives: A {planted.word('habit gives', both, shown=())} start", 1
    )
    text = re.sub(
        r"^(    (?:statement|question): )Walks off", rf"\g<1>{planted.word('habit said', both)} off", text, count=1,
        flags=re.MULTILINE,
    )  # fmt: skip
    habits.write_text(text, encoding="utf-8")


def _in_charts(project: Path, planted: Planted) -> None:
    games = project / "data/games.csv"
    text = games.read_text(encoding="utf-8")
    charter = planted.word("charted_by", (STAFF,))
    rows = [
        re.sub(r",(AJR|TMW|DSK),[^,]*,[^,]*$", f",{charter},{{clip}}.mp4,{{note}}", row) for row in text.splitlines()
    ]
    clip, note = planted.word("games clip", ()), planted.word("games note", ())
    games.write_text("\n".join(rows).format(clip=clip, note=note) + "\n", encoding="utf-8")
    for table in ("pitches", "times", "throws", "holds", "habits", "positions"):
        for place in sorted((project / "data" / table).glob("*.csv")):
            head, *rows = place.read_text(encoding="utf-8").splitlines()
            columns = [name for name in ("clip", "note") if name not in head.split(",")]
            columns = [name for name in columns if (table, name) != ("positions", "clip")]
            added = [*columns, "x_own"]
            words = ",".join(_once(planted, f"{table} {name}", ()) for name in added)
            lines = [",".join([head, *added]), *(f"{row},{words}" for row in rows)]
            place.write_text("\n".join(lines) + "\n", encoding="utf-8")
    # A row that is left out: its file, its cell and what is wrong with it stand on the page of data quality alone.
    name, cell = planted.word("bad file", (STAFF,)), planted.word("bad cell", (STAFF,))
    header = "game,pitcher,bats,balls,strikes,pitch\n"
    (project / f"data/pitches/{name}.csv").write_text(f"{header}g0320-harbor,iker-nunez,R,0,0,{cell}\n")


def _once(planted: Planted, where: str, may: Iterable[str]) -> str:
    """The word planted there already, or a new one: every row of a table has the same."""
    return next((word for word, place in planted.where.items() if place == where), "") or planted.word(where, may)


def _in_pages(project: Path, planted: Planted) -> None:
    pages = project / "content/pages"
    menu = []
    for edition, mark in ((STAFF, "[staff]"), (PLAYERS, "players"), (RECRUITING, "[recruiting]")):
        may = (STAFF,) if edition == STAFF else (STAFF, edition)

        def word(where: str, may: Iterable[str] = may, edition: str = edition, **how: Iterable[str]) -> str:
            return planted.word(f"{edition} page {where}", may, **how)  # type: ignore[arg-type]

        name, file, alt = word("name"), word("file"), word("alt")
        # A menu's own words stand beside the page; the theme shows neither description nor tags.
        front = f"---\ntitle: {word('title')}\ndescription: {word('description', shown=())}\nfor: {mark}\n---\n"
        body = f"# A {word('heading')} page\n\nThe {word('body')}.\n\n| a | b |\n|---|---|\n| {word('cell')} | 1 |\n\n"
        body += f"<!-- {word('comment', shown=())} -->\n\n![{alt}]({file}.png)\n\n[Read]({file}.pdf)\n"
        (pages / f"{name}.md").write_text(front + body, encoding="utf-8")
        (pages / f"{file}.png").write_bytes(PNG)
        (pages / f"{file}.pdf").write_bytes(f"%PDF-1.4 {word('file content')}".encode())
        menu.append(f"  - {word('menu')}:\n    - {word('menu item')}: {name}.md\n")
    loose = planted.word("file nobody links to", (STAFF,))
    (pages / f"{loose}.txt").write_text(planted.word("its content", (STAFF,)))
    (project / "mkdocs.yml").write_text(
        "site_name: Planted\ndocs_dir: content/pages\ntheme:\n  name: material\n"
        "plugins:\n  - scoutgen:\n      as_of: 2026-04-09\nnav:\n" + "".join(menu),
        encoding="utf-8",
    )


# One white point.
PNG = base64.b64decode("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mP8/x8AAwMCAO+ip1sAAAAASUVORK5CYII=")


def spellings(word: str) -> Iterator[bytes]:
    """A word in every form in which a file may hold it: as it is, escaped, in base64, in hexadecimal, in two bytes."""
    plain = word.encode()
    yield plain
    yield quote(word).encode()
    yield json.dumps(word)[1:-1].encode()
    yield "".join(f"&#{ord(c)};" for c in word).encode()
    yield "".join(f"\\{ord(c):x} " for c in word).encode()
    yield plain.hex().encode()
    yield word.encode("utf-16-le")
    for shift in range(3):
        # Whatever stands before and after, these letters of its base64 are the same.
        whole = base64.b64encode(b"\0" * shift + plain)
        yield whole[(0, 2, 3)[shift] : len(whole) - 4]


def search(site: Path, words: Iterable[str], *, first: bool = False) -> tuple[list[tuple[str, str]], int]:
    """Where in a finished site which word stands, as it is or in another spelling, and how many bytes were read.

    Names of files and folders count as much as what is in them; case does not count. With `first` a word that was found
    is looked for no further: whether it stands anywhere is known by then.
    """
    looked = [(word, form.lower()) for word in words for name in (word.lower(), word) for form in spellings(name)]
    forms = [form for _, form in looked]
    found: list[tuple[str, str]] = []
    size = 0
    for place in sorted(site.rglob("*")):
        content = place.read_bytes() if place.is_file() else b""
        if content[:2] == b"\x1f\x8b":
            content += gzip.decompress(content)
        size += len(content)
        text = content.decode("utf-8", "replace")
        # Decoded once more in case something was escaped twice.
        decoded = html.unescape(html.unescape(unquote(text)))
        heap = b"\n".join(
            (str(place.relative_to(site)).encode(), content, decoded.encode(), _unescaped(text).encode())
        ).lower()
        here = dict.fromkeys(word for (word, _), stands in zip(looked, stand_in(heap, forms), strict=True) if stands)
        found += [(word, str(place.relative_to(site))) for word in here]
        if first and here:
            looked = [(word, form) for word, form in looked if word not in here]
            forms = [form for _, form in looked]
            if not looked:
                break
    return found, size


def _unescaped(text: str) -> str:
    return re.sub(r"\\u([0-9a-fA-F]{4})", lambda match: chr(int(match[1], 16)), text)

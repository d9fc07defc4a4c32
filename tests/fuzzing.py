"""Reads one mutated file of the demo as the program would and says what came of it: read, refused, or a failure.

`tests/bench/fuzz_readers.py` does it by the hundred thousand, `tests/records/test_reading_anything.py` by the hundred.
"""

import io
import shutil
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from random import Random

from mutations import PAGE, TABLE, WORKBOOK, YAML, Mutation, bomb, mutated
from openpyxl import Workbook

from scoutgen.records import import_project
from scoutgen.records.directory import Directory
from scoutgen.records.games import read_games
from scoutgen.records.habit_kinds import read_habit_kinds
from scoutgen.records.habits import read_habits
from scoutgen.records.hand_pages import read_hand_pages
from scoutgen.records.holds import read_holds
from scoutgen.records.import_guess import write_guess
from scoutgen.records.import_map import ImportMap
from scoutgen.records.import_names import Names, rosters_on_paper
from scoutgen.records.import_output import WriteError
from scoutgen.records.import_project import import_file
from scoutgen.records.import_rows import imported_rows
from scoutgen.records.import_rules import read_map
from scoutgen.records.opponents import Opponents, Team, read_opponents
from scoutgen.records.pitches import read_pitches
from scoutgen.records.positions import read_positions
from scoutgen.records.problems import Problem, ProblemsFoundError
from scoutgen.records.program import Program, read_program
from scoutgen.records.season import TABLES, Season, connect, finished, read_season
from scoutgen.records.series import read_series
from scoutgen.records.throws import read_throws
from scoutgen.records.times import read_times
from scoutgen.records.vocabulary import Names as Words
from scoutgen.records.yamlrecord import YamlSource

DEMO = Path(__file__).parents[1]
DEMO_DAY = date(2026, 4, 9)
ROWS = 40
MAP = """\
table: pitches
columns:
  game: {from: Day, date: day.month.year, team: harbor}
  inning: Inn
  half: {from: T/B, values: {t: top, b: bottom}}
  outs: Outs
  bases: {from: Runners, bases: marks}
  pitcher: Arm
  batter: Hitter
  bats: {from: Stance, values: {left: L, right: R}, blank: [n/a]}
  balls: {from: Count, split: '-', part: 1}
  strikes: {from: Count, split: '-', part: 2}
  pitch: {from: Type, values: {Heater: fastball}}
  speed_mph: {from: Velo, unit: kph, decimal: comma, blank: --}
  distance_ft: {from: Metres, unit: m}
  result: {from: Call, values: {ok: called_strike}}
  note: [Remarks, Clip]
only: {Kind: [game, Game]}
sheets: [Friday]
"""
HEADER = ["Day", "Inn", "T/B", "Outs", "Runners", "Arm", "Hitter", "Stance", "Count", "Type", "Velo", "Metres", "Call",
          "Remarks", "Clip", "Kind"]  # fmt: skip

# About as often as a reader has ways to go wrong for its time; bombs are few ideas, and costly ones.
WEIGHTS = {
    "map": 10, "page": 10, "program": 8, "habits.yml": 6, "series": 5, "entry": 3, "team": 1.5, "foreign CSV": 1.5,
    "workbook": 1, "imported": 0.1, "bomb": 0.02, **dict.fromkeys(TABLES, 0.5),
}  # fmt: skip


@dataclass(frozen=True)
class Outcome:
    """What came of one file: "read" or "refused"; everything else is raised."""

    kind: str
    word: str


def kind_of(number: int, seed: int, kinds: list[str]) -> tuple[str, Random]:
    """Which kind of file the number is, and the chance it is drawn by."""
    chance = Random(f"{seed}:{number}")  # noqa: S311 - to be drawn again, not to be secret
    return chance.choices(kinds, [WEIGHTS.get(kind, 1) for kind in kinds])[0], chance


def copy_demo(root: Path, *names: str) -> None:
    """A project small enough to be read a hundred thousand times: these parts of content/, and the games."""
    for name in names:
        source, target = DEMO / "content" / name, root / "content" / name
        target.parent.mkdir(parents=True, exist_ok=True)
        (shutil.copytree if source.is_dir() else shutil.copyfile)(source, target)
    (root / "data").mkdir()
    shutil.copyfile(DEMO / "data/games.csv", root / "data/games.csv")


def sample_rows(table: str) -> bytes:
    """The head of the last file of a table, or the file itself."""
    last = sorted((DEMO / "data" / table).glob("*-harbor.csv"))[-1:] or [DEMO / "data" / f"{table}.csv"]
    return b"".join(last[0].read_bytes().splitlines(keepends=True)[: ROWS + 1])


def foreign_rows() -> list[list[str]]:
    """Some pitches of the demo as another staff might write them."""
    lines = sample_rows("pitches").decode().splitlines()
    names = lines[0].split(",")
    found = [HEADER]
    for line in lines[1:]:
        row = dict(zip(names, line.split(","), strict=True))
        kph = f"{float(row['speed_mph']) * 1.609344:.1f}".replace(".", ",") if row["speed_mph"] else "--"
        found.append([
            "07.04.2026", row["inning"], row["half"][0].upper(), row["outs"],
            "".join(base if base in row["bases"] else "_" for base in "123"), row["pitcher"], row["batter"],
            {"L": "left", "R": "right"}.get(row["bats"], ""), f"{row['balls']}-{row['strikes']}", row["pitch"], kph,
            "30,5", row["result"], row["note"], "=1+1", "Game",
        ])  # fmt: skip
    return found


def foreign_workbook() -> bytes:
    """The same as a workbook with two sheets, a formula and a day as spreadsheets have it."""
    book = Workbook()
    book.active.title = "Friday"
    for row in foreign_rows():
        book.active.append([date(2026, 4, 7) if cell == "07.04.2026" else cell for cell in row])
    book.create_sheet("Saturday").append(HEADER)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


@dataclass(frozen=True)
class Kind:
    """A kind of file: its demo files, how they are changed, where they stand, and who reads them."""

    samples: tuple[bytes, ...]
    mutations: tuple[Mutation, ...]
    place: str
    reads: "Callable[[Readers, Path, Random], Iterable[Problem]]"


class Readers:
    """A project in a folder, and every reader there is for a file put into it."""

    def __init__(self, folder: Path) -> None:
        self.root = folder / "charts"
        copy_demo(self.root, "program.yml", "opponents/harbor/team.yml")
        # Entries and pages stand apart: reading them beside every table would take most of the time.
        self.notes = folder / "notes"
        copy_demo(self.notes, "program.yml", "habits.yml", "opponents/harbor", "pages", "series/gannet-harbor.yml")

    def try_one(self, name: str, content: bytes, chance: Random) -> Outcome:
        """Put a file in its place, read it, and take it away again.

        Raises:
            AssertionError: a refusal that says no place or shows what no screen can.
            Exception: whatever a reader let through, which is the failure looked for.
        """
        kind = self.kinds[name]
        path = (self.notes if kind.place.startswith("content/") else self.root) / kind.place
        before = path.read_bytes() if path.exists() else None
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        try:
            problems = list(kind.reads(self, path, chance))
        finally:
            if before is None:
                path.unlink()
            else:
                path.write_bytes(before)
        for problem in problems:
            shown = str(problem)
            assert problem.file, shown
            assert problem.line >= 0, shown
            assert shown.isprintable(), shown
            assert len(shown) < 3_000, shown
            assert problem.text.strip(), shown
        wrong = [problem for problem in problems if problem.severity == "error"]
        return Outcome("refused" if wrong else "read", wrong[0].text.split("; ")[0] if wrong else "")

    @cached_property
    def kinds(self) -> Mapping[str, Kind]:
        """Every kind of file by name."""
        content = self.notes / "content"
        entries = tuple(path.read_bytes() for path in sorted((content / "opponents/harbor/players").glob("*.yml")))
        sheet = foreign_rows()
        tables = {table: Kind((sample_rows(table),), TABLE, f"data/{table}.csv", Readers.table) for table in TABLES}
        written = {
            "program": ("program.yml", Readers.own_program),
            "habits.yml": ("habits.yml", Readers.habits),
            "team": ("opponents/harbor/team.yml", Readers.opponents),
            "series": ("series/gannet-harbor.yml", Readers.series),
        }
        return {
            **tables,
            **{
                name: Kind(((content / file).read_bytes(),), YAML, f"content/{file}", reads)
                for name, (file, reads) in written.items()
            },
            "entry": Kind(entries, YAML, "content/opponents/harbor/players/wendell-achterberg.yml", Readers.opponents),
            "page": Kind(
                tuple(path.read_bytes() for path in sorted((content / "pages").glob("*.md"))),
                PAGE, "content/pages/some-page.md", Readers.pages,
            ),
            "map": Kind((MAP.encode(),), YAML, "in/map.yml", Readers.map),
            "foreign CSV": Kind(
                tuple("\n".join(sign.join(row) for row in sheet).encode(encoding)
                      for sign, encoding in ((";", "utf-8"), ("\t", "utf-16"), ("\t", "latin-1"))),
                TABLE, "in/night.csv", Readers.foreign,
            ),
            "workbook": Kind((foreign_workbook(),), WORKBOOK, "in/night.xlsx", Readers.foreign),
            "bomb": Kind((foreign_workbook(),), (bomb,), "in/night.xlsx", Readers.foreign),
            "imported": Kind((), TABLE, "data/pitches/night-import.csv", Readers.imported),
        }  # fmt: skip

    def drawn(self, name: str, chance: Random) -> bytes:
        """A mutated file of a kind."""
        kind = self.kinds[name]
        return mutated(chance.choice(kind.samples or (self.imported_before,)), kind.mutations, chance)

    def table(self, path: Path, chance: Random) -> Iterable[Problem]:
        """One table by itself through the steps of `read_season`, where the empty ones would take most of the time."""
        if chance.random() < 0.05:
            season = read_season(self.root, as_of=DEMO_DAY, skip_bad_rows=True)
            return [*season.skipped, *season.warnings]
        own = Team(self.program.key, self.program.name, own=True, roster=self.program.roster, file="program.yml")
        directory = Directory({own.key: own, **self.rosters.teams}, frozenset())
        games = read_games(self.root, as_of=DEMO_DAY)
        reads = {
            "pitches": lambda: read_pitches(self.root, zone=self.program.zone), "times": lambda: read_times(self.root),
            "holds": lambda: read_holds(self.root), "throws": lambda: read_throws(self.root),
            "habits": lambda: read_habits(self.root, habits=self.words["habits"]),
            "positions": lambda: read_positions(self.root),
        }  # fmt: skip
        tables = [reads[path.stem]()] if path.stem in reads else []
        frame, _ = connect(games, tables, directory)
        order = {name: number for number, name in enumerate(frame["game"])}
        for rows in tables:
            assert not finished(rows, frame, order)["game"].isna().any()
        return [problem for rows in (games, *tables) for problem in rows.problems]

    def own_program(self, _: Path, __: Random) -> Iterable[Problem]:
        return read_program(self.notes)[1]

    def habits(self, _: Path, __: Random) -> Iterable[Problem]:
        return read_habit_kinds(self.notes)[1]

    def opponents(self, _: Path, __: Random) -> Iterable[Problem]:
        return read_opponents(self.notes, DEMO_DAY, self.program.key)[1]

    def series(self, _: Path, __: Random) -> Iterable[Problem]:
        return read_series(self.notes, self.rosters, DEMO_DAY)[1]

    def pages(self, _: Path, __: Random) -> Iterable[Problem]:
        return read_hand_pages(self.notes)[1]

    def map(self, path: Path, _: Random) -> Iterable[Problem]:
        return read_map(path, self.words)[2]

    def foreign(self, path: Path, chance: Random) -> Iterable[Problem]:
        """Guessed at, read through a map, or imported to the end."""
        try:
            which = chance.random()
            if which < 0.3:
                write_guess(path, self.root, as_of=DEMO_DAY).path.unlink()
                return []
            if which > 0.95:
                return self._imported_whole(path)
            wanted, source = self.maps[path.suffix]
            sheets = import_project._sheets(path, wanted, source)
            found = imported_rows(sheets, wanted, source, Names(self.season, self.on_paper))
        except ProblemsFoundError as refused:
            return refused.problems
        return found.problems

    def imported(self, path: Path, _: Random) -> Iterable[Problem]:
        """What an earlier import wrote, changed since: never written over."""
        content = path.read_bytes()
        night = self.root / "in/night.csv"
        night.write_bytes(self.kinds["foreign CSV"].samples[0])
        try:
            import_file(self.root, night, self.root / "in/map.csv.yml", as_of=DEMO_DAY, skip_bad_rows=True)
        except ProblemsFoundError as refused:
            return refused.problems
        except WriteError as refused:
            return [Problem("data/pitches/night-import.csv", 0, "", str(refused))]
        finally:
            night.unlink()
        assert path.read_bytes() in (content, self.imported_before)
        return []

    def _imported_whole(self, path: Path) -> Iterable[Problem]:
        map_ = self.root / f"in/map{path.suffix}.yml"
        try:
            report = import_file(self.root, path, map_, as_of=DEMO_DAY, skip_bad_rows=True)
        finally:
            for made in (self.root / "data/pitches").glob("*-import.csv"):
                made.unlink()
        assert not [problem for problem in report.problems if problem.severity == "error"], report.problems
        return report.bad

    @cached_property
    def season(self) -> Season:
        return read_season(self.root, as_of=DEMO_DAY)

    @cached_property
    def program(self) -> Program:
        return read_program(self.root)[0]

    @cached_property
    def rosters(self) -> Opponents:
        return read_opponents(self.notes, DEMO_DAY, self.program.key)[0]

    @cached_property
    def on_paper(self) -> frozenset[str]:
        return rosters_on_paper(self.root, self.season)

    @cached_property
    def words(self) -> dict[str, Words]:
        return import_project.vocabularies(self.root)

    @cached_property
    def maps(self) -> dict[str, tuple[ImportMap, YamlSource]]:
        """By suffix of the foreign file its map, which stands in the project as well."""
        found = {}
        for suffix, text in ((".csv", MAP.partition("sheets:")[0]), (".xlsx", MAP)):
            file = self.root / f"in/map{suffix}.yml"
            file.parent.mkdir(exist_ok=True)
            file.write_text(text)
            wanted, source, problems = read_map(file, self.words)
            assert wanted is not None, problems
            found[suffix] = (wanted, source)
        return found

    @cached_property
    def imported_before(self) -> bytes:
        """What an import of the foreign rows writes."""
        night, made = self.root / "in/night.csv", self.root / "data/pitches/night-import.csv"
        assert ".csv" in self.maps
        night.write_bytes(self.kinds["foreign CSV"].samples[0])
        import_file(self.root, night, self.root / "in/map.csv.yml", as_of=DEMO_DAY)
        content = made.read_bytes()
        night.unlink()
        made.unlink()
        return content

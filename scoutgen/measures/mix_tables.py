"""Pitches counted into the tables the mix is learned from: outing x side x count x pitch."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple, TypeAlias

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from scoutgen.measures.counts import COUNTS, SIDES, count_index
from scoutgen.measures.intervals import Floats
from scoutgen.measures.mix_centre import CELLS, LEAGUE_COUNTS, LEAGUE_SIDES, USUAL

Codes: TypeAlias = NDArray[np.int64]

#: Sides and counts, with "not charted" as the last of each: the place that code -1 stands for.
_SIDES: Final = len(SIDES) + 1
_COUNTS: Final = len(COUNTS) + 1


class Seen(NamedTuple):
    """In how many games something came up, and the date of the last of them; NaT where in none or without a date."""

    games: Codes
    last: NDArray[np.datetime64]


@dataclass(frozen=True)
class MixTables:
    """Charted pitches as counts. A player is a pitcher of a team; an outing is his part of one game.

    Attributes:
        players: `team`, `player`, `games`, `last_seen`: one row a player, sorted.
        vocabulary: names of the pitches that may be thrown, in their order.
        outing_player: row in `players` of each outing; outings are sorted by player, then by date.
        outing_age: how many outings of the same player came after it.
        outing_date: the day of each outing.
        counted: outings x 3 sides (L, R, not charted) x 13 counts (twelve, not charted) x pitches.
        row_outing, row_side, row_count, row_pitch: codes of each row of the frame; -1 where not charted.
    """

    players: pd.DataFrame
    vocabulary: tuple[str, ...]
    outing_player: Codes
    outing_age: Codes
    outing_date: NDArray[np.datetime64]
    counted: Floats
    row_outing: Codes
    row_side: Codes
    row_count: Codes
    row_pitch: Codes

    def thrown(self) -> Floats:
        """Pitches by player, side, count and pitch: players x 3 x 13 x pitches."""
        return sum_by_player(self.counted, self.outing_player, len(self.players))

    def seen(self, came_up: NDArray[np.bool_]) -> Seen:
        """When things came up, by player; `came_up`: outings x whatever is asked about, any number of axes."""
        players = len(self.players)
        games = sum_by_player(came_up.astype(np.float64), self.outing_player, players).astype(np.int64)
        outing = np.arange(len(came_up)).reshape(-1, *[1] * (came_up.ndim - 1))
        at = np.where(came_up, outing, -1)
        starts = np.searchsorted(self.outing_player, np.arange(players))
        last = np.maximum.reduceat(at, starts, axis=0) if players else at
        return Seen(games, np.where(games > 0, self.outing_date[last], np.datetime64("NaT")))

    def named(self, player: Codes) -> dict[str, pd.api.extensions.ExtensionArray]:
        """Columns `team` and `player` of rows of `players`."""
        return {name: self.players[name].array.take(player) for name in ("team", "player")}

    def pitch_names(self, pitch: Codes) -> "pd.Categorical[str]":
        """The column `pitch` of places in the vocabulary."""
        return pd.Categorical.from_codes(pitch, categories=pd.Index(self.vocabulary))

    def cells(self) -> Floats:
        """Pitches by outing, cell and pitch, those of unknown side or count dealt out: outings x cells x pitches.

        A pitch whose side was not charted counts for both sides in the proportion that player meets them, one
        whose count was not charted for all twelve as often as they come up.
        """
        by_player = self.thrown().sum(axis=3)
        known = by_player[:, : len(SIDES), :].sum(axis=2) + 20 * LEAGUE_SIDES
        sides = (known / known.sum(axis=1, keepdims=True))[self.outing_player]
        dealt = self.counted[:, : len(SIDES)] + sides[:, :, None, None] * self.counted[:, len(SIDES) :]
        counts = LEAGUE_COUNTS / LEAGUE_COUNTS.sum()
        full = dealt[:, :, : len(COUNTS)] + counts[:, None] * dealt[:, :, len(COUNTS) :]
        return np.asarray(full.reshape(len(full), CELLS, len(self.vocabulary)), dtype=np.float64)

    def visits(self) -> Floats:
        """Share of his next game's pitches that each cell will have, leaning on the league: players x cells."""
        own = sum_by_player(self.cells().sum(axis=2), self.outing_player, len(self.players))
        league = np.outer(LEAGUE_SIDES, LEAGUE_COUNTS / LEAGUE_COUNTS.sum()).ravel()
        total = own + 50 * league
        return np.asarray(total / total.sum(axis=1, keepdims=True), dtype=np.float64)


def count_pitches(pitches: pd.DataFrame, *, vocabulary: Sequence[str] = ()) -> MixTables:
    """How many of each pitch did each man throw in each game, to each side, at each count?

    Args:
        pitches: the season's pitches in the order thrown; rows without a pitch, pitcher or game are left out.
        vocabulary: pitches that may be thrown; the usual ones and those of the frame are always added.
    """
    names = _vocabulary(pitches, vocabulary)
    pitch, side = _codes_in(pitches["pitch"], names), _codes_in(pitches["bats"], SIDES)
    count = count_index(pitches).astype(np.int64)
    player, players = _players(pitches, pitch >= 0)
    game = _codes(pitches["game"])
    used = np.flatnonzero((pitch >= 0) & (player >= 0) & (game >= 0))
    outing, outing_player, first_row = _outings(player[used], game[used], used)
    row_outing = np.full(len(pitches), -1, dtype=np.int64)
    row_outing[used] = outing
    size = (len(outing_player), _SIDES, _COUNTS, len(names))
    place = ((outing * _SIDES + side[used] % _SIDES) * _COUNTS + count[used] % _COUNTS) * len(names) + pitch[used]
    counted = np.bincount(place, minlength=int(np.prod(size))).reshape(size).astype(np.float64)
    games = np.bincount(outing_player, minlength=len(players))
    latest = np.cumsum(games) - 1
    players["games"] = games
    dates = pitches["date"].to_numpy()[first_row]
    players["last_seen"] = dates[latest]
    age = latest[outing_player] - np.arange(len(outing_player))
    return MixTables(players, names, outing_player, age, dates, counted, row_outing, side, count, pitch)


def sum_by_player(values: Floats, player: Codes, players: int) -> Floats:
    """Sum over the first axis of what belongs to each player; `player` is sorted and leaves none out."""
    if not players:
        return np.zeros((0, *values.shape[1:]))
    starts = np.searchsorted(player, np.arange(players))
    return np.asarray(np.add.reduceat(values, starts, axis=0), dtype=np.float64)


def _vocabulary(pitches: pd.DataFrame, vocabulary: Sequence[str]) -> tuple[str, ...]:
    seen = sorted(str(name) for name in pitches["pitch"].astype("category").cat.categories)
    return tuple(dict.fromkeys([*USUAL, *vocabulary, *seen]))


def _codes(column: pd.Series) -> Codes:
    return column.astype("category").cat.codes.to_numpy().astype(np.int64)


def _codes_in(column: pd.Series, names: Sequence[str]) -> Codes:
    """Place of each value in `names`; -1 where it is missing or not one of them."""
    values = column.astype("category").cat
    place = {name: at for at, name in enumerate(names)}
    table = np.array([*(place.get(str(name), -1) for name in values.categories), -1], dtype=np.int64)
    return np.asarray(table[values.codes.to_numpy()], dtype=np.int64)


def _players(pitches: pd.DataFrame, charted: NDArray[np.bool_]) -> tuple[Codes, pd.DataFrame]:
    """Which player threw each row (-1: not known, or none of his pitches was charted), and the players in order."""
    team, pitcher = pitches["pitcher_team"].astype("category"), pitches["pitcher"].astype("category")
    teams, pitchers = team.cat.categories, pitcher.cat.categories
    # A team that is not known sorts after those that are.
    team_code = np.where(team.cat.codes < 0, len(teams), team.cat.codes).astype(np.int64)
    both = np.where((pitcher.cat.codes >= 0) & charted, team_code * max(len(pitchers), 1) + pitcher.cat.codes, -1)
    place, found = _ranked(both)
    missing = int(len(found) > 0 and found[0] < 0)
    found = found[missing:]
    at_team, at_player = np.divmod(found, max(len(pitchers), 1))
    named = pd.Categorical.from_codes(np.where(at_team == len(teams), -1, at_team), categories=teams)
    players = pd.DataFrame({"team": named, "player": pd.Categorical.from_codes(at_player, categories=pitchers)})
    return (place - missing).astype(np.int64), players


def _outings(player: Codes, game: Codes, rows: Codes) -> tuple[Codes, Codes, Codes]:
    """Outing of each row, player of each outing, and an outing's first row; by player, then in order of the rows."""
    games = int(game.max()) + 1 if len(game) else 1
    place, found = _ranked(player * games + game)
    first = np.full(len(found), len(rows), dtype=np.int64)
    np.minimum.at(first, place, np.arange(len(rows)))
    order = np.lexsort((first, found // games))
    rank = np.empty(len(found), dtype=np.int64)
    rank[order] = np.arange(len(found))
    return rank[place], (found // games)[order], rows[first[order]]


def _ranked(values: Codes) -> tuple[Codes, Codes]:
    """Rank of each value among the different ones, and those in order; hashing beats sorting a million rows."""
    place, found = pd.factorize(values)
    order = np.argsort(found)
    rank = np.empty(len(found), dtype=np.int64)
    rank[order] = np.arange(len(found))
    return rank[place], np.asarray(found)[order]

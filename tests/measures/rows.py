"""Season frames in small: every column there, the dtypes of the reader, written as one would chart them."""

import pandas as pd

TEXT = {
    "game", "source", "half", "bases", "pitcher", "pitcher_team", "batter", "batter_team", "catcher", "bats", "pitch",
    "result", "play", "contact", "fielder_name", "clip", "note", "player", "team", "measure", "style", "method", "then",
    "runner", "to", "accuracy", "habit", "toward", "file", "charted_by", "away", "home",
}  # fmt: skip
WHOLE = {"inning", "outs", "lead", "balls", "strikes", "height", "side", "fielder", "looks", "position"}
MEASURED = {
    "speed_mph", "plate_x_ft", "plate_z_ft", "direction_deg", "distance_ft", "seconds", "hold_seconds", "pop_seconds",
    "exchange_seconds", "feet", "depth_ft", "off_bag_ft",
}  # fmt: skip
YES_NO = {"warmup", "seen"}
COLUMNS = {
    "games": "game date away home source charted_by clip note",
    "pitches": "game date source inning half outs bases lead pitcher pitcher_team batter batter_team catcher bats "
    "balls strikes pitch speed_mph height side plate_x_ft plate_z_ft result play contact direction_deg distance_ft "
    "fielder clip note",
    "times": "game date source inning player team measure style bases outs balls strikes bats seconds method warmup "
    "clip note",
    "holds": "game date source inning pitcher team bases balls strikes looks hold_seconds then style clip note",
    "throws": "game date source inning catcher team pitcher runner to pop_seconds exchange_seconds method accuracy "
    "result warmup clip note",
    "habits": "game date source inning team player position habit bases bats outs seen feet clip note",
    "positions": "game date source inning team position player bats bases outs strikes depth_ft off_bag_ft toward note",
}


def frame(table: str, *rows: dict[str, object], **same: object) -> pd.DataFrame:
    """A frame of one table: `rows` over what is the `same` in all; game "g1" on 6 March 2026 unless said otherwise."""
    columns = [*COLUMNS[table].split(), *([] if table == "games" else ["file", "line"])]
    usual = {"game": "g1", "date": "2026-03-06", "source": "video"}
    filled = [{**usual, **same, **row} for row in rows]
    unknown = {key for row in filled for key in row} - set(columns)
    assert not unknown, f"no such column in {table}: {unknown}"
    out = pd.DataFrame({name: [row.get(name) for row in filled] for name in columns}, columns=columns)
    return typed(out)


def typed(out: pd.DataFrame) -> pd.DataFrame:
    """The same frame with the dtypes the reader gives."""
    for name in out.columns:
        if name in TEXT:
            out[name] = out[name].astype(object).astype("category")
        elif name in WHOLE:
            out[name] = out[name].astype("Int16")
        elif name in MEASURED:
            out[name] = out[name].astype("float64")
        elif name in YES_NO:
            out[name] = out[name].astype("boolean")
        elif name == "date":
            out[name] = pd.to_datetime(out[name]).astype("datetime64[s]")
    return out


def seasonal(table: str, data: dict[str, object]) -> pd.DataFrame:
    """A large frame from whole columns; those not given are all missing."""
    columns = [*COLUMNS[table].split(), *([] if table == "games" else ["file", "line"])]
    out = pd.DataFrame(data)
    assert set(out.columns) <= set(columns)
    return typed(out.reindex(columns=columns))

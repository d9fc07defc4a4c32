"""The quick way through CSV lines that hold no quotes: pandas' C parser, on blocks proved beforehand to be regular.

A block is plain when it holds no quote, no NUL and no lone carriage return, and every line has exactly the header's
number of commas. Then RFC 4180 leaves nothing to decide and a line is a row. At the first block that is not plain the
caller goes on with the standard library's reader, which finds the trouble and names it.
"""

import csv
import io
from collections.abc import Iterator, Sequence
from typing import BinaryIO

import numpy as np
import numpy.typing as npt
import pandas as pd

# A column of a block: for every row the number of its text, and the different texts.
Column = tuple[npt.NDArray[np.int64], list[str]]
Codes = npt.NDArray[np.int32]
BLOCK_BYTES = 4_000_000


def is_plain_line(line: bytes) -> bool:
    """Whether one line can be taken apart at its commas."""
    return b'"' not in line and b"\0" not in line and b"\r" not in line.rstrip(b"\r\n") and line.count(b",") > 0


def plain_blocks(stream: BinaryIO, width: int) -> Iterator[list[Column]]:
    """Read on as long as the lines are plain.

    Args:
        stream: the file behind its header; left at the first block that is not plain, or at the end.
        width: cells of a row, at least two.

    Yields:
        For every block its columns in the file's order.
    """
    while True:
        begin = stream.tell()
        block = stream.read(BLOCK_BYTES)
        block += stream.readline() if block[-1:] != b"\n" else b""
        if not block:
            return
        if not is_plain(block, width):
            stream.seek(begin)
            return
        # As objects: the parser would read categories of numbers as numbers, and 1e3 must stay what was written.
        frame = pd.read_csv(
            io.BytesIO(block),
            header=None,
            names=[str(place) for place in range(width)],
            index_col=False,
            dtype=object,
            na_filter=False,
            quoting=csv.QUOTE_NONE,
            skip_blank_lines=False,
            low_memory=False,
        )
        cells = frame.to_numpy()
        columns: list[Column] = []
        for place in range(width):
            numbers, texts = pd.factorize(cells[:, place])
            columns.append((numbers, texts.tolist()))
        yield columns


def is_plain(block: bytes, width: int) -> bool:
    """Whether every line of a block can be taken apart at its commas into `width` cells."""
    returns = block.count(b"\r")
    if b'"' in block or b"\0" in block or returns != block.count(b"\r\n"):
        return False
    signs = np.frombuffer(block, np.uint8)
    ends = np.flatnonzero(signs == ord("\n"))
    if not block.endswith(b"\n"):
        ends = np.append(ends, len(block))
    commas = np.flatnonzero(signs == ord(","))
    if len(commas) != len(ends) * (width - 1):
        return False
    by_line = commas.reshape(len(ends), width - 1)
    return bool((by_line[:, -1] < ends).all() and (by_line[1:, 0] > ends[:-1]).all())


def all_blank(columns: Sequence[Column]) -> npt.NDArray[np.bool_] | None:
    """Which rows are blank throughout; None where no row is."""
    blank: npt.NDArray[np.bool_] | None = None
    for numbers, texts in columns:
        empty = [not text.strip() for text in texts]
        if not any(empty):
            return None
        here = np.array(empty)[numbers]
        blank = here if blank is None else blank & here
    return blank if blank is not None and blank.any() else None

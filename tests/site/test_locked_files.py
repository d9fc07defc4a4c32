"""Files into blocks and back; what changes when a file does; blocks that were swapped, dropped or kept from before."""

import random
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scoutgen.site.lock import BLOCK, LockError, derive_keys
from scoutgen.site.locked_files import Packed, pack, read_index, unpack

KEYS = derive_keys("tova kilu mesu rida bune fozi", b"salt" * 8, rounds=1)
CHANCE = random.Random(4)  # noqa: S311 - no secret, only bytes that do not compress


def packed(files: dict[str, bytes], stamps: tuple[str, ...] = ()) -> Packed:
    return pack(KEYS, files, {address: address for address in files}, stamps)


def site(pages: int = 120) -> dict[str, bytes]:
    chance = random.Random(7)  # noqa: S311 - as above
    return {f"teams/t{n % 7}/p{n}/index.html": chance.randbytes(chance.randrange(200, 30_000)) for n in range(pages)}


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(st.text("abc/é", min_size=1, max_size=8), st.binary(max_size=300), max_size=30))
def test_every_file_comes_back(files: dict[str, bytes]) -> None:
    assert unpack(KEYS, packed(files)) == files


def test_files_larger_than_a_block_and_empty_ones_come_back() -> None:
    files = {"large": CHANCE.randbytes(5 * BLOCK + 1), "empty": b"", "one": CHANCE.randbytes(BLOCK)}
    made = packed(files)
    assert unpack(KEYS, made) == files
    assert {len(block) for block in made.blocks.values()} == {BLOCK}


def test_an_index_larger_than_a_block_comes_back() -> None:
    files = {f"{CHANCE.randbytes(40).hex()}/{n}": b"" for n in range(3000)}
    assert unpack(KEYS, packed(files)) == files


def test_stamps_are_put_back_and_change_no_block_but_the_index() -> None:
    files = {"a.html": b"built %s, %s.", "b.html": b"none", "own.js": b"a \x020\x03 of its own", "c.png": b"\x020\x03"}
    monday, tuesday = (files | {"a.html": b"built on %s: %s." % (day, day[:3])} for day in (b"monday", b"tuesday"))
    one, two = packed(monday, ("monday", "mon")), packed(tuesday, ("tuesday", "tue"))
    assert unpack(KEYS, one) == monday
    assert unpack(KEYS, two) == tuesday
    assert len(set(two.blocks) - set(one.blocks)) == 1
    assert two.index != one.index


def test_a_changed_file_changes_few_blocks() -> None:
    files = site()
    before = packed(files)
    for address in list(files)[::17]:
        after = packed({**files, address: CHANCE.randbytes(9000)})
        # A run of files has 16 on average, here of 15 KB each; most of a large site stays.
        assert len(set(after.blocks) - set(before.blocks)) < len(before.blocks) / 3
        assert unpack(KEYS, after)[address] != files[address]


def test_nothing_changed_changes_no_byte() -> None:
    assert packed(site()) == packed(dict(reversed(site().items())))


def test_a_block_that_is_missing_or_from_an_older_site_is_refused() -> None:
    files = site()
    old, new = packed(files), packed({**files, "teams/t1/p1/index.html": b"new"})
    [*fresh] = set(new.blocks) - set(old.blocks)
    with pytest.raises(LockError, match="missing"):
        unpack(KEYS, replace(new, blocks=old.blocks))
    # The host gives out an old block under a new name, and two blocks for each other.
    names = [name for run in read_index(KEYS, old)["runs"] for name in run]
    with pytest.raises(LockError, match="does not decrypt"):
        unpack(KEYS, replace(new, blocks=new.blocks | dict.fromkeys(fresh, old.blocks[names[0]])))
    with pytest.raises(LockError, match="does not decrypt"):
        unpack(KEYS, replace(old, blocks=old.blocks | {names[0]: old.blocks[names[1]]}))
    # An old index with its old blocks is an old site, whole; a block of files is no index.
    with pytest.raises(LockError, match="does not decrypt"):
        unpack(KEYS, replace(old, index=names[0]))


def test_another_passphrase_opens_nothing() -> None:
    other = derive_keys("another", b"salt" * 8, rounds=1)
    with pytest.raises(LockError):
        unpack(other, packed({"a": b"a"}))

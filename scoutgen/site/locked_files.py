"""Files into blocks and back: compressed, set one behind the other, cut, and listed in an encrypted index."""

import gzip
import hmac
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from scoutgen.site.lock import ROOM, Keys, LockError, decrypt_block, encrypt_block

_NAME = 32
_LENGTH = 4
# A run of files ends after one in so many, chosen by a keyed hash of the address: what a changed file shifts in its run
# ends with the run, and the blocks of all others keep their bytes.
_RUN = 16
_TEXTS = (".html", ".json", ".js")
_MARK = re.compile(rb"\x02(\d+)\x03")


@dataclass(frozen=True)
class Packed:
    """A locked site as bytes: blocks by name, and the name of the index's first."""

    index: str
    blocks: dict[str, bytes]


def pack(keys: Keys, files: Mapping[str, bytes], shown: Mapping[str, str], stamps: Sequence[str] = ()) -> Packed:
    r"""Lock files.

    Args:
        keys: of the site.
        files: contents by address, like `teams/harbor/index.html`.
        shown: for each address the one the browser shows.
        stamps: texts that any new build changes in every page. They are kept in the index, and a file has their number
            between \x02 and \x03, so that a file in which nothing else changed keeps its bytes.
    """
    blocks: dict[str, bytes] = {}

    def keep(kind: str, text: bytes) -> str:
        name, block = encrypt_block(keys, kind, text)
        blocks[name] = block
        return name

    runs: list[list[str]] = []
    listed: dict[str, list[object]] = {}
    for addresses in _runs(keys, files):
        stream = b""
        for address in addresses:
            content = _stamped(address, files[address], stamps)
            body = gzip.compress(content, mtime=0)
            listed[address] = [shown[address], len(runs), len(stream), len(body), int(content != files[address])]
            stream += body
        runs.append([keep("files", stream[at : at + ROOM]) for at in range(0, len(stream), ROOM)])
    index = {"format": 1, "stamps": list(stamps), "runs": runs, "files": listed}
    packed = gzip.compress(json.dumps(index, separators=(",", ":"), ensure_ascii=False).encode(), mtime=0)
    stream = len(packed).to_bytes(_LENGTH) + packed
    following = "0" * _NAME
    # From the last to the first, since each names the next.
    for at in reversed(range(0, len(stream), ROOM - _NAME)):
        following = keep("index", following.encode() + stream[at : at + ROOM - _NAME])
    return Packed(following, blocks)


def unpack(keys: Keys, packed: Packed) -> dict[str, bytes]:
    """The files of a locked site by address, stamps put in.

    Raises:
        LockError: another passphrase, or a block that is missing, swapped or changed.
    """
    index = read_index(keys, packed)
    runs = [b"".join(_opened(keys, "files", name, packed.blocks) for name in names) for names in index["runs"]]

    def stamp(mark: re.Match[bytes]) -> bytes:
        return str(index["stamps"][int(mark[1])]).encode()

    return {
        address: _MARK.sub(stamp, content) if stamped else content
        for address, (_, run, start, length, stamped) in index["files"].items()
        for content in [gzip.decompress(runs[run][start : start + length])]
    }


def read_index(keys: Keys, packed: Packed) -> dict[str, Any]:
    """What a locked site holds: `files`, `runs` of block names, `stamps`.

    A file is listed by its address with the shown one, its run, start and length in it, and whether it has stamps.

    Raises:
        LockError: as unpack.
    """
    stream, name = b"", packed.index
    while name.strip("0"):
        text = _opened(keys, "index", name, packed.blocks)
        name, stream = text[:_NAME].decode(), stream + text[_NAME:]
    length = int.from_bytes(stream[:_LENGTH])
    index: dict[str, Any] = json.loads(gzip.decompress(stream[_LENGTH : _LENGTH + length]))
    return index


def _stamped(address: str, content: bytes, stamps: Sequence[str]) -> bytes:
    # Pages and facts never have such signs; what somebody put into the site by hand may.
    if not address.endswith(_TEXTS) or b"\x02" in content:
        return content
    for which, stamp in enumerate(stamps):
        content = content.replace(stamp.encode(), f"\x02{which}\x03".encode())
    return content


def _opened(keys: Keys, kind: str, name: str, blocks: Mapping[str, bytes]) -> bytes:
    if name not in blocks:
        raise LockError(f"block {name} is missing")
    return decrypt_block(keys, kind, name, blocks[name])


def _runs(keys: Keys, files: Mapping[str, bytes]) -> Iterator[list[str]]:
    run: list[str] = []
    for address in sorted(files):
        run.append(address)
        if hmac.digest(keys.cuts, address.encode(), "sha256")[0] < 256 // _RUN:
            yield run
            run = []
    if run:
        yield run

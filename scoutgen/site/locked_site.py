"""From a finished folder to a locked one: everything as blocks, behind one page that is the same for all."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template

from scoutgen.site.asset_names import hashed_name
from scoutgen.site.hidden_addresses import hidden, with_hidden_links
from scoutgen.site.installable import MANIFEST, manifest
from scoutgen.site.lock import BLOCK, ROUNDS, Keys, derive_keys
from scoutgen.site.locked_files import Packed, pack, unpack
from scoutgen.site.offline import WORKER, keep_offline
from scoutgen.site.policy import with_policy
from scoutgen.site.theme import ON_THIS_PHONE

# After so many hours without use a phone asks again: longer than a game and the way home, shorter than two days on a
# seat.
IDLE_HOURS = 12
_SOURCES = Path(__file__).parent / "assets" / "lock"
_BLOCKS, _GATE = "b", "gate"
# Pages stand no deeper: teams/…/players/…/ and some to spare.
_DEPTH = 6
# Before which the page about this phone says what the lock is.
_ABOUT = "<h2>Off this phone</h2>"


@dataclass(frozen=True)
class Locked:
    """What was written, for the last line of a build."""

    files: int
    blocks: int
    size_bytes: int


def lock_site(
    site: Path, out: Path, passphrase: str, salt: bytes, *, built: str, stamps: Sequence[str] = (), root: str = "/"
) -> Locked:
    """Write a finished site to another folder so that nothing in it can be read without the passphrase.

    Args:
        site: the finished folder; files whose names begin with a dot are left out.
        out: an empty folder, or one that is not there yet.
        passphrase: in its normal form.
        salt: of this project and edition.
        built: when it was built, as the bar for a new version says it; in plain, since the host sees it anyway.
        stamps: texts on every page that any new build changes; kept in the index, so that a page in which nothing
            else changed need not be fetched again.
        root: path under which the site is served; links of the page for unknown addresses begin with it.
    """
    keys = derive_keys(passphrase, salt)
    files = _files(site)
    style, script = _asset("pages.css"), _asset("pages.js")
    files |= {f"assets/scoutgen/{name}": text.encode() for name, text in (style, script)}
    shown = {address: hidden(keys.addresses, address) for address in files}
    if len(set(shown.values())) != len(shown):
        raise ValueError("two addresses have one hash")
    look = f"{_GATE}/{_asset('gate.css')[0]}"
    about = _template("on-this-phone.html.j2").render(idle_hours=IDLE_HOURS)

    def finished(address: str, content: bytes) -> bytes:
        up = root if address == "404.html" else "../" * address.count("/")
        head = f'<link rel="stylesheet" href="{up}assets/scoutgen/{style[0]}">'
        foot = f'<script src="{up}assets/scoutgen/{script[0]}" data-look="{look}"></script>'
        return with_hidden_links(address, _with_lock(address, content, head=head, foot=foot, about=about), shown, root)

    files = {address: finished(address, content) for address, content in files.items()}
    packed = pack(keys, files, shown, stamps)
    (out / _BLOCKS).mkdir(parents=True, exist_ok=True)
    for name, block in packed.blocks.items():
        (out / _BLOCKS / name).write_bytes(block)
    gate = _write_gate(out, root)
    facts = {
        "salt": salt.hex(),
        "rounds": ROUNDS,
        "index": packed.index,
        "idle_hours": IDLE_HOURS,
        "gate": [address for address in gate if not address.endswith(".html")],
    }
    part = f"self.LOCK = {json.dumps(facts)};\n" + _source("unlock.js")
    keep_offline(out, built=built, root=root, order=gate, parts={"unlock.js": part})
    return Locked(len(files), len(packed.blocks), len(packed.blocks) * BLOCK)


def unlock_site(locked: Path, passphrase: str) -> dict[str, bytes]:
    """The files of a locked site by address, with its stamps in place; links lead to the hidden addresses.

    Raises:
        LockError: another passphrase, or blocks that are missing or changed.
    """
    keys, packed = read_locked(locked, passphrase)
    return unpack(keys, packed)


def read_locked(locked: Path, passphrase: str) -> tuple[Keys, Packed]:
    """The keys and blocks of a locked folder."""
    [part] = (locked / "assets" / "offline").glob("unlock.*.js")
    facts = json.loads(part.read_text(encoding="utf-8").partition("self.LOCK = ")[2].partition(";\n")[0])
    blocks = {place.name: place.read_bytes() for place in (locked / _BLOCKS).iterdir()}
    return derive_keys(passphrase, bytes.fromhex(facts["salt"]), facts["rounds"]), Packed(facts["index"], blocks)


def _files(site: Path) -> dict[str, bytes]:
    """Every file that can be asked for; the plain site's worker and its list have no work here."""
    found = {}
    for place in sorted(site.rglob("*")):
        address = place.relative_to(site).as_posix()
        unasked = address == WORKER or address.startswith((".", "assets/offline/")) or "/." in address
        if place.is_file() and not unasked:
            found[address] = place.read_bytes()
    return found


def _with_lock(address: str, content: bytes, *, head: str, foot: str, about: str) -> bytes:
    """A page with Lock and Remove in reach; the page about this phone also says what they do."""
    if not address.endswith(".html"):
        return content
    html = content.decode()
    # What somebody wrote as HTML by hand may have neither.
    for place, more in (("</head>", head), ("</body>", foot)):
        before, found, after = html.rpartition(place)
        html = f"{before}{more}{found}{after}" if found else html
    if address == ON_THIS_PHONE:
        before, after = html.split(_ABOUT)
        html = f"{before}{about}{_ABOUT}{after}"
    return html.encode()


def _write_gate(out: Path, root: str) -> list[str]:
    """Write the page that asks, and what it needs; returns the addresses."""
    written: dict[str, bytes] = {}
    style, script = _asset("gate.css"), _asset("gate.js")
    for name, text in (style, script):
        written[f"{_GATE}/{name}"] = text.encode()
    icons = {place.name: place.read_bytes() for place in sorted(_SOURCES.glob("icon*"))}
    written |= {f"{_GATE}/{name}": content for name, content in icons.items()}
    # As an app on the home screen, without saying what of.
    generic = manifest("Private pages", lambda name: f"{_GATE}/{name}", short="Private", coloured=False)
    written[MANIFEST] = generic.encode()
    page = _template("gate.html.j2")
    # A host shows the page for unknown addresses at any depth, and its root may not be known here: of the ways to the
    # script the nearest that leads there wins.
    ups = [*("../" * up for up in range(_DEPTH + 1)), root]
    for address, base, ways in (("index.html", "", [""]), ("404.html", root, ups)):
        html = page.render(
            base=base,
            ways=ways,
            style=f"{_GATE}/{style[0]}",
            script=f"{_GATE}/{script[0]}",
            icon=f"{_GATE}/icon.svg",
            touch_icon=f"{_GATE}/icon-touch-180.png",
            manifest=MANIFEST,
            idle_hours=IDLE_HOURS,
        )
        written[address] = with_policy(html).encode()
    for address, content in written.items():
        (out / address).parent.mkdir(parents=True, exist_ok=True)
        (out / address).write_bytes(content)
    return sorted(written)


def _asset(name: str) -> tuple[str, str]:
    """A file's name with its hash in it, and the file; scripts bring along what is left to see after Remove."""
    text = _source("removed.js") + _source(name) if name.endswith(".js") else _source(name)
    return hashed_name(name, text.encode()), text


def _template(name: str) -> Template:
    return Environment(loader=FileSystemLoader(_SOURCES), undefined=StrictUndefined, autoescape=True).get_template(name)


def _source(name: str) -> str:
    return (_SOURCES / name).read_text(encoding="utf-8")

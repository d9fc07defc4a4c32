"""What time, spreadsheets, editors and people with bad intentions do to a file; all of it drawn from one `Random`."""

import io
import re
import zipfile
from collections.abc import Callable
from random import Random
from typing import Any

import yaml

Mutation = Callable[[bytes, Random], bytes]

HOSTILE = [
    "", " ", "0", "-1", "-0", "1e309", "nan", "inf", "1.7976931348623157e308", "9" * 30, "1" * 400, "0x10",
    "1_000", "٣",
    "½", "1,5", "1.234.567,8", "2026-02-30", "0000-00-00", "9999-12-31", "2026-04-09T25:61", "46087", "1/2/3", "=1+1",
    "=cmd|' /C calc'!A0", "@SUM(A1)", "-2+3", "+1", "'", '"', '""', "\\", "`", "{{ 7*7 }}", "{% raw %}", "${x}",
    "<script>alert(1)</script>", "<b>", "&lt;", "&#0;", "](javascript:x)", "| a | b |", "--- ", "...",
    "../../etc/passwd",
    "con", "nul\0", "\u202e", "\u200b", "\ufeff", "\ufffe", "\x85", "\u2028", "\U0001f600", "e\u0301", "İ",
    "ß", "ﬁ", "\x07",
    "a" * 5_000, "yes", "no", "null", "~", "!!python/object:os.system", "*a", "&a", "? ", "- - -", "[", "{", "#27", "#",
    "unlisted", "x_", "1-3", "123", "3-2", "FB", "harbor", "ridge", "%00", "\r", "\n", "\t", ";", ",",
]  # fmt: skip
LOCALE_ENCODINGS = ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "latin-1", "cp1252", "cp037", "utf-7"]
# By libyaml where it is built in, fifteen times as fast.
LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
DUMPER = getattr(yaml, "CDumper", yaml.Dumper)
# More of one thing than any file has; small enough to be made a thousand times over.
MANY = (3, 20, 200, 3_000)


def text_of(content: bytes) -> str:
    """The file as text that gives the same bytes back."""
    return content.decode("utf-8", "surrogateescape")


def bytes_of(text: str) -> bytes:
    """The other way."""
    return text.encode("utf-8", "surrogatepass" if re.search("[\ud800-\udbff]", text) else "surrogateescape")


def some_bytes(content: bytes, chance: Random) -> bytes:
    """A few bytes flipped, put in, taken out or doubled."""
    data = bytearray(content)
    for _ in range(chance.choice((1, 1, 2, 5, 40))):
        at, length = chance.randrange(len(data) + 1), chance.choice((1, 1, 2, 8, 100))
        kind = chance.randrange(5)
        if kind == 0 and at < len(data):
            data[at] ^= 1 << chance.randrange(8)
        elif kind == 1:
            data[at:at] = chance.randbytes(length)
        elif kind == 2:
            del data[at : at + length]
        elif kind == 3:
            data[at:at] = data[at : at + length]
        else:
            data[at:at] = bytes_of(chance.choice(HOSTILE))
    return bytes(data)


def cut_short(content: bytes, chance: Random) -> bytes:
    """The beginning or the end alone."""
    at = chance.randrange(len(content) + 1)
    return content[:at] if chance.random() < 0.7 else content[at:]


def some_lines(content: bytes, chance: Random) -> bytes:
    """Lines doubled, dropped, swapped, joined, or a great many of one."""
    lines = content.splitlines(keepends=True) or [b""]
    for _ in range(chance.choice((1, 1, 2, 6))):
        one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        kind = chance.randrange(6)
        if kind == 0:
            lines[one:one] = [lines[other]]
        elif kind == 1 and len(lines) > 1:
            del lines[one]
        elif kind == 2:
            lines[one], lines[other] = lines[other], lines[one]
        elif kind == 3:
            lines[one] = lines[one].rstrip(b"\r\n")
        elif kind == 4:
            lines[one] *= min(chance.choice(MANY), 1 + 300_000 // (len(lines[one]) + 1))
        else:
            lines[one] = bytes_of(chance.choice(HOSTILE)) + chance.choice((b"", b"\n"))
        lines = lines or [b""]
    return b"".join(lines)


def other_line_ends(content: bytes, chance: Random) -> bytes:
    """As other systems end lines, all or some."""
    ends = [b"\r\n", b"\r", b"\n\r", b"\n\n", b"\x0b", b"\xe2\x80\xa8"]
    if chance.random() < 0.5:
        return content.replace(b"\n", chance.choice(ends))
    return b"".join(line[:-1] + chance.choice([b"\n", *ends]) for line in content.splitlines(keepends=True))


def other_encoding(content: bytes, chance: Random) -> bytes:
    """As other programs save text, whole or in the middle."""
    encoding = chance.choice(LOCALE_ENCODINGS)
    at = 0 if chance.random() < 0.7 else chance.randrange(len(content) + 1)
    return content[:at] + content[at:].decode("utf-8", "replace").encode(encoding, "replace")


def some_cells(content: bytes, chance: Random) -> bytes:
    """Cells of a table written over, dropped, added, moved; columns doubled, renamed, exchanged."""
    separator = chance.choice((",", ",", ",", ";", "\t"))
    rows = [line.split(separator) for line in text_of(content).split("\n")]
    for _ in range(chance.choice((1, 1, 1, 2, 4, 30))):
        row = rows[0] if chance.random() < 0.2 else chance.choice(rows)
        at = chance.randrange(len(row))
        kind = chance.randrange(7)
        if kind <= 2:
            row[at] = chance.choice(HOSTILE)
        elif kind == 3:
            row[at] = chance.choice(chance.choice(rows))
        elif kind == 4:
            del row[at]
            row += [] if row else [""]
        elif kind == 5:
            row[at:at] = [chance.choice(HOSTILE)] * chance.choice((1, 1, 3, 600))
        else:
            row[at] = '"' + row[at] + chance.choice(('"', "", '""', '"x', '\n"'))
    return bytes_of("\n".join(separator.join(row) for row in rows))


def yaml_tree(content: bytes, chance: Random) -> bytes:
    """The same file with nodes replaced, renamed, nested, repeated."""
    try:
        # Deep nesting takes the square of its depth.
        if content.count(b"[") + content.count(b"- -") > 2_000:
            return some_bytes(content, chance)
        tree = yaml.load(content, LOADER)  # noqa: S506 - it makes nothing but text
    except (yaml.YAMLError, ValueError, OverflowError, RecursionError):
        return some_bytes(content, chance)
    for _ in range(chance.choice((1, 1, 2, 5))):
        tree = _other_node(tree, chance)
    flow = chance.choice((None, None, True, False))
    try:
        text = yaml.dump(tree, Dumper=DUMPER, allow_unicode=True, sort_keys=False, default_flow_style=flow)
    except (yaml.YAMLError, ValueError, RecursionError):
        return some_bytes(content, chance)
    return text.encode("utf-8", "replace")


def _other_node(node: Any, chance: Random, depth: int = 0) -> Any:  # noqa: ANN401, PLR0911 - a return for each kind of node
    if isinstance(node, dict) and node and chance.random() < 0.85 - depth / 10:
        key = chance.choice(list(node))
        kind = chance.randrange(8)
        if kind == 0:
            return {name: value for name, value in node.items() if name != key}
        if kind == 1:
            return {(chance.choice(HOSTILE) if name == key else name): value for name, value in node.items()}
        if kind == 2:
            return {**node, chance.choice([*node, *HOSTILE]): chance.choice(list(node.values()))}
        return {**node, key: _other_node(node[key], chance, depth + 1)}
    if isinstance(node, list) and node and chance.random() < 0.85 - depth / 10:
        at = chance.randrange(len(node))
        kind = chance.randrange(6)
        if kind == 0:
            return node[:at] + node[at + 1 :]
        if kind == 1:
            return node[:at] + [node[at]] * min(chance.choice(MANY), 300) + node[at:]
        return [*node[:at], _other_node(node[at], chance, depth + 1), *node[at + 1 :]]
    hostile = chance.choice(HOSTILE)
    nested: Any = hostile
    for _ in range(chance.choice((1, 5, 19, 40))):
        nested = [nested] if chance.random() < 0.5 else {"a": nested}
    return chance.choice((hostile, hostile, hostile, [], {}, [hostile, node], {hostile: node}, nested, [node] * 30))


def yaml_marks(content: bytes, chance: Random) -> bytes:
    """What YAML can say that no file of ours should: anchors, tags, merges, documents, deep and endless nesting."""
    marks = [
        "a: &a [x]\nb: *a\n", "<<: *a\n", "? [a, b]\n: c\n", "--- \n", "...\n", "!!binary aGk=\n", "%YAML 9.9\n---\n",
        "%TAG ! tag:x,2026:\n---\n", '"\\UFFFFFFFF"\n', '"\\ud800"\n', "a: !!python/object/apply:os.system [ls]\n",
        "- " * 3_000 + "x\n", "[" * 9_000, "{a: " * 4_000, "a: " + "[x, " * 500 + "]" * 500 + "\n", "'" * 20_001,
        "a: |\n" + "  x\n" * 5_000, "a: >9\n x\n", "? " * 2_000, "key: value: other\n", "\tkey: 1\n", "a: 1\n a: 2\n",
        "".join(f"k{i}: {i}\n" for i in range(9_000)), "&" + "a" * 2_000 + " x\n",
        "!<" + "x" * 2_000 + "> y\n", "@\n", "`\n",
        "a: 0o7777777777777777777777\nb: 1:30:00\nc: 012\nd: .inf\ne: 2026-99-99\n", "- &x [*x]\n", "\x00", "\u2028",
    ]  # fmt: skip
    text = text_of(content)
    at = chance.choice((0, len(text), chance.randrange(len(text) + 1)))
    at = text.rfind("\n", 0, at) + 1 if chance.random() < 0.6 else at
    return bytes_of(text[:at] + chance.choice(marks) + text[at:])


def markdown_marks(content: bytes, chance: Random) -> bytes:
    """What a page can hold that costs a Markdown reader its time, or that a site would run."""
    marks = [
        "[" * 3_000, "](" * 2_000, "*" * 5_001, "_a*" * 1_000, "`" * 999, ">" * 500 + " x\n",
        "- " * 400 + "x\n", "<" * 4_000,
        "&" * 2_000, "|" * 3_000 + "\n" + "|-" * 1_500 + "|\n", "![x](file:///etc/passwd)",
        "<img src=x onerror=1>", "\n```\n",
        "[a]: javascript:x\n", "--8<-- '/etc/passwd'\n", "{% include 'x' %}",
        "!!! note\n" + "    " * 300 + "x\n", "#" * 2_000,
        "\n---\ntitle: x\n---\n", "(" * 3_000, "a@b.example", "+1 555 0100", "\\" * 3_000, "[^1]: x\n" * 300,
        "x" * 200_000,
    ]  # fmt: skip
    text = text_of(content)
    at = chance.choice((0, len(text), chance.randrange(len(text) + 1)))
    return bytes_of(text[:at] + chance.choice(marks) + text[at:])


def workbook_part(content: bytes, chance: Random) -> bytes:
    """One part of a workbook changed, the package itself in order."""
    parts = _unpacked(content)
    if not parts:
        return some_bytes(content, chance)
    sheets = [name for name in parts if "sheets/" in name or "sharedStrings" in name]
    name = chance.choice(sheets if sheets and chance.random() < 0.7 else list(parts))
    kind = chance.randrange(7)
    if kind == 0:
        del parts[name]
    elif kind == 1:
        parts[chance.choice(list(parts))] = parts[name]
    elif kind <= 4:
        parts[name] = _other_xml(parts[name], chance)
    else:
        parts[name] = chance.choice((some_bytes, cut_short, other_encoding))(parts[name], chance)
    return packed_again(parts)


def _unpacked(content: bytes) -> dict[str, bytes]:
    """The parts of a package; none of one that was broken before."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            return {name: packed.read(name) for name in packed.namelist()}
    except Exception:  # noqa: BLE001 - whatever the broken package led to
        return {}


def _other_xml(part: bytes, chance: Random) -> bytes:
    """Attributes and texts of a part replaced: addresses, counts, kinds of cells, numbers beyond any sheet."""
    values = [
        "A1", "XFD1048576", "A1048576", "ZZZZ1", "A0", "A-1", "A99999999999", "1:1", "", "-1", "0", "1048577",
        "4294967296",
        "9" * 25, "s", "str", "inlineStr", "b", "e", "d", "n", "nan", "1e400", "2026-13-45T99:99:99", "R1C1",
        "&amp;" * 50, "rId99",
        "../../../x.xml", "http://127.0.0.1:9/x", "true", "&#x1;", "A1:XFD1048576",
    ]  # fmt: skip
    text = part.decode("utf-8", "replace")
    for _ in range(chance.choice((1, 1, 2, 6))):
        found = list(re.finditer(r'="([^"]*)"|>([^<>]+)<', text))
        if not found:
            break
        one = chance.choice(found)
        group = 1 if one[1] is not None else 2
        new = chance.choice(values)
        text = text[: one.start(group)] + new + text[one.end(group) :]
    if chance.random() < 0.15:
        hostile = [
            "<!DOCTYPE a [<!ENTITY b 'c'>]>",
            "<a>" * 20_000,
            "<!--" + "x" * 2_000 + "-->",
            "<row r='9'/>" * 2_000,
        ]
        at = text.find("?>") + 2
        text = text[:at] + chance.choice(hostile) + text[at:]
    return text.encode()


def packed_again(parts: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """Parts as a zip; the same parts give the same bytes."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method) as packed:
        for name, part in parts.items():
            packed.writestr(zipfile.ZipInfo(name), part, method)
    return stream.getvalue()


def bomb(content: bytes, chance: Random) -> bytes:
    """A package that is small on the disk and large in the memory, or lies about it."""
    parts = _unpacked(content)
    if not parts:
        return some_bytes(content, chance)
    name = chance.choice([part for part in parts if part.endswith(".xml")])
    method = chance.choice((zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA))
    kind = chance.randrange(5)
    head = parts[name].split(b"<sheetData>")[0]
    if kind == 0:
        parts[name] = head + b"<sheetData>" + b"<row><c><v>1</v></c></row>" * chance.choice((1_000, 200_000))
    elif kind == 1:
        parts[name] = head + b" " * chance.choice((1_000_000, 40_000_000))
    elif kind == 2:
        parts |= {f"xl/extra{number}.xml": b"<a/>" for number in range(chance.choice((100, 6_000)))}
    elif kind == 3:
        parts[name] = head + b"<sheetData><row r='1'>" + b"<c t='inlineStr'><is><t>x</t></is></c>" * 100_000
    made = bytearray(packed_again(parts, method))
    if kind == 4 or chance.random() < 0.3:
        # The sizes that the package's own list gives: 24 bytes into each entry.
        entries = [found.start() for found in re.finditer(b"PK\x01\x02", bytes(made))]
        at = chance.choice(entries) + 24
        made[at : at + 4] = chance.choice((b"\0\0\0\0", b"\xff\xff\xff\xff", b"\x10\0\0\0"))
    return bytes(made)


TEXT: tuple[Mutation, ...] = (some_bytes, cut_short, some_lines, other_line_ends, other_encoding)
TABLE: tuple[Mutation, ...] = (*TEXT, some_cells, some_cells, some_cells, some_cells)
YAML: tuple[Mutation, ...] = (*TEXT, yaml_tree, yaml_tree, yaml_tree, yaml_tree, yaml_marks)
PAGE: tuple[Mutation, ...] = (*TEXT, markdown_marks, markdown_marks, yaml_marks)
WORKBOOK: tuple[Mutation, ...] = (some_bytes, cut_short, workbook_part, workbook_part, workbook_part, workbook_part)


def mutated(content: bytes, mutations: tuple[Mutation, ...], chance: Random) -> bytes:
    """A file after one to three of the mutations."""
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        content = chance.choice(mutations)(content, chance)
    return content

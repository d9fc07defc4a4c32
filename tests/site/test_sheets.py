import html
import re

import pytest

from scoutgen.site.sheets import with_sheet_lines

PAGE = '<!doctype html>\n<html lang="en" class="no-js">\n<head></head></html>'


NAMES = ["27 Iker Núñez", "O'Dea", "a'; } body { display: none", 'x" onload="y', "url(x)", "\\27"]


@pytest.mark.parametrize("who", NAMES)
def test_whatever_a_name_holds_it_stays_inside_its_string(who: str) -> None:
    page = with_sheet_lines(PAGE, who=who, edition="staff edition, as of 2026-04-09")
    (style,) = re.findall(r'<html style="([^"]*)" lang="en"', page)
    first, second = re.fullmatch(r"--sheet-who:'([^']*)';--sheet-edition:'([^']*)'", html.unescape(style)).groups()  # type: ignore[union-attr]
    # CSS: a backslash, hexadecimal digits and one space are a character (CSS Syntax Module Level 3, 4.3.7).
    read = [re.sub(r"\\([0-9a-f]+) ", lambda code: chr(int(code[1], 16)), text) for text in (first, second)]
    assert read == [who, "staff edition, as of 2026-04-09"]
    assert "(" not in first

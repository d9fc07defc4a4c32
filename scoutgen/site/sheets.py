"""The running lines of printed sheets: whom a page is about, and for which day and edition it was made.

A browser repeats them from the margins of the printed page, which know nothing but the root element's style.
"""

import re

_ROOT = "<html "
_ODD = re.compile(r"[^\w ]", re.ASCII)


def with_sheet_lines(page: str, *, who: str, edition: str) -> str:
    """A finished page whose root names what stands on each sheet; see `@page` in assets/site.css.

    Args:
        page: the whole HTML.
        who: what the page is about, plain text.
        edition: day, edition and time of the build, plain text.
    """
    style = f"--sheet-who:{css_text(who)};--sheet-edition:{css_text(edition)}"
    return page.replace(_ROOT, f'{_ROOT}style="{style}" ', 1)


def css_text(text: str) -> str:
    """A CSS string that ends neither itself nor the attribute around it, whatever the text says."""
    return "'" + _ODD.sub(lambda odd: f"\\{ord(odd.group()):x} ", text) + "'"

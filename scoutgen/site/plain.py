"""Text that is only text, in HTML."""

import html

# What templates and our own marks begin with; written as references, no text can look like one left over.
_OPENERS = str.maketrans({"{": "&#123;", "[": "&#91;"})


def plain(text: str) -> str:
    """Any text as HTML that shows exactly that text, in an element or a quoted attribute."""
    return html.escape(text).translate(_OPENERS)


def without_openers(markup: str) -> str:
    """Markup whose texts cannot look like a template or a mark; for markup that has no use for { and [."""
    return markup.translate(_OPENERS)

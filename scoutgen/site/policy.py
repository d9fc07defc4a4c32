"""What every page says to the browser about itself before anything else: what may load, and that it is private."""

import re

# No inline script is allowed at all: the theme's three are replaced by files of ours (overrides/partials/javascripts).
# Style attributes are needed by the theme's own scripts, which place tooltips and sidebars with them.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; "
    "img-src 'self' data:; font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)
_FIRST_IN_HEAD = (
    f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
    '<meta name="referrer" content="no-referrer">'
    '<meta name="robots" content="noindex, nofollow, noarchive">'
)
_HEAD = re.compile(r"<head>", re.IGNORECASE)


class PolicyError(ValueError):
    """A page in which the policy has no place."""


def with_policy(page: str) -> str:
    """The page with the policy first in its head.

    Raises:
        PolicyError: the page has no head, or more than one.
    """
    marked, places = _HEAD.subn(lambda head: head.group() + _FIRST_IN_HEAD, page)
    if places != 1:
        raise PolicyError(f"{places} <head> elements where the policy needs exactly one")
    return marked

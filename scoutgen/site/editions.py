"""Which editions there are, and which can be built."""

KNOWN = ("staff", "players", "recruiting")
BUILT = ("staff",)


class EditionError(ValueError):
    """The edition asked for cannot be built; the text says why and what can."""


def require_edition(name: str) -> str:
    """The name itself, if that edition can be built.

    Raises:
        EditionError: an unknown name, or an edition this version does not build yet.
    """
    if name in BUILT:
        return name
    if name in KNOWN:
        raise EditionError(
            f"the {name} edition cannot be built by this version: it does not yet leave out what that edition must not"
            f" show; build {', '.join(BUILT)}"
        )
    raise EditionError(f"there is no edition {name!r}; editions are {', '.join(KNOWN)}")

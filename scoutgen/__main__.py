"""`python -m scoutgen` is the same as `scoutgen`."""

from scoutgen.cli import main

main()

"""Where one build works: it holds the project and the site's folder, and the next site grows out of sight."""

import logging
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from scoutgen.records.scratch import give_back, sweep, take
from scoutgen.records.writing import naming
from scoutgen.site import output

log = logging.getLogger("mkdocs.plugins.scoutgen")


class Building:
    """The place of one build, from `begun` to `end`.

    Args:
        project: the project's folder.
        out: where the finished site goes, and where a link there leads.
        locked: what stands there will be read with a passphrase alone, so until it is locked it grows where nobody
            else can look.
    """

    def __init__(self, project: Path, out: Path, *, locked: bool) -> None:
        self.project, self.out, self._locked = project, out, locked
        self._locks: tuple[Path, ...] = ()
        #: Where MkDocs writes.
        self.place = output.building_place(out)

    @contextmanager
    def begun(self) -> Iterator[None]:
        """Hold both folders, set right what a killed build left, and give all up where what follows fails.

        Raises:
            OutputError: the site cannot be written there, or another build is at work.
        """
        output.check_out(self.out, self.project, locked=self._locked)
        self._locks = output.claim(self.project, self.out)
        try:
            if output.recover(self.out):
                log.info("An earlier build was cut off; its last whole site is back in place")
                # What came back may be a locked site, where there was nothing to see a moment ago.
                output.check_out(self.out, self.project, locked=self._locked)
            # Of what a killed build that locks has left, anybody could read the pages.
            sweep(self.project)
            with naming(self.project / ".scoutgen"):
                yield
            if self._locked:
                self.place = take(self.project, "unlocked")
        except BaseException:
            self._release()
            raise

    @property
    def next_site(self) -> Path:
        """What is swapped in: the folder that MkDocs wrote, or what is locked of it."""
        return output.building_place(self.out)

    def swap_in(self, seal: dict[str, str]) -> None:
        """Say that the next site is whole, and put it in its place."""
        output.seal(self.next_site, output.LOCKED_SEAL if self._locked else seal)
        output.swap_in(self.out)

    def end(self) -> None:
        """Take away what is left and let the next build begin; at the end of any build, and more than once."""
        # Swapped in, it is not there any more; half built, it would only fill the disk.
        shutil.rmtree(self.next_site, ignore_errors=True)
        if self._locked and self.place != self.next_site:
            give_back(self.place)
        self._release()

    def _release(self) -> None:
        output.release(self._locks)
        self._locks = ()

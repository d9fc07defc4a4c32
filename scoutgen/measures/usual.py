"""What is usual for everybody, by the question it answers: from whoever is at hand, or as it was learned before.

A measure of one man leans on what is usual. Where that has been learned once, a part of the season (a team after one
more game) is measured by itself and gets the numbers it would have among all the others.
"""

from collections.abc import Callable, Mapping
from typing import Final

from scoutgen.measures.intervals import Floats


class Usual:
    """Learns from whoever is at hand.

    Attributes:
        only_learns: nobody will ask for the shares of those it learns from, so that they need not be worked out.
    """

    only_learns = False

    def of(self, _question: str, learn: Callable[[], Floats]) -> Floats | None:
        """What is usual.

        Args:
            question: names what is asked; the same in every part of a season.
            learn: works it out from those at hand.

        Returns:
            Numbers as `learn` has them; None where nobody taught them, and whoever asks stands alone.
        """
        return learn()

    def about(self, _measure: str) -> "Usual":
        """The same for the questions of one measure, which may be called as those of another."""
        return self


class Learning(Usual):
    """As above, and notes what was learned.

    Attributes:
        learned: numbers by question.
    """

    only_learns = True

    def __init__(self, learned: dict[str, Floats] | None = None, about: str = "") -> None:
        self.learned: dict[str, Floats] = {} if learned is None else learned
        self._about = about

    def of(self, question: str, learn: Callable[[], Floats]) -> Floats | None:
        """What is usual."""
        name = self._about + question
        if name not in self.learned:
            self.learned[name] = learn()
        return self.learned[name]

    def about(self, measure: str) -> "Learning":
        """The same for the questions of one measure."""
        return Learning(self.learned, f"{self._about}{measure}: ")


class Known(Usual):
    """Gives what was learned before, and learns nothing.

    Args:
        learned: numbers by question, from `Learning`.
    """

    def __init__(self, learned: Mapping[str, Floats], about: str = "") -> None:
        self._learned, self._about = learned, about

    def of(self, question: str, _learn: Callable[[], Floats]) -> Floats | None:
        """What is usual; None where nobody taught it."""
        return self._learned.get(self._about + question)

    def about(self, measure: str) -> "Known":
        """The same for the questions of one measure."""
        return Known(self._learned, f"{self._about}{measure}: ")


#: What is usual among those at hand.
AT_HAND: Final = Usual()

"""How may the words of a chart be shortened, on paper and in the file: which short forms mean one of them alone?

A form is the beginning of a word's first part and the first letter of each other part: of called_strike cs, cas, cals.
What a form may mean hangs on the words alone, not on what others are shortened to: a word that a project adds can make
a form open, but never another word's.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping

# Words as short as these are written as they are.
_SHORT = 3
_PARTS = re.compile(r"[_-]")
# Who writes one of these means a pitch, in whichever column his pen slips.
_PITCHES = frozenset({"fb", "si", "ct", "sl", "cb", "ch", "spl"})


def pen_forms(words: Iterable[str]) -> dict[str, str]:
    """The shortest form of each word, in the order of the words: it means that word alone, whatever its capitals.

    Args:
        words: the words one column allows, each once.
    """
    known = tuple(dict.fromkeys(words))
    if all(len(word) <= _SHORT for word in known):
        return {word: word for word in known}
    meanings = short_forms(known)
    return {
        word: next((form for form in _forms(word) if meanings.get(form.casefold()) == (word,)), word) for word in known
    }


def short_forms(words: Iterable[str]) -> Mapping[str, tuple[str, ...]]:
    """What each form in small letters may mean, one word or several; a word itself means nothing else.

    Args:
        words: as above.
    """
    known = tuple(dict.fromkeys(words))
    found: dict[str, list[str]] = defaultdict(list)
    for word in known:
        for form in {form.casefold() for form in _forms(word)} - _PITCHES:
            found[form].append(word)
    return {form: tuple(several) for form, several in found.items()} | {word.casefold(): (word,) for word in known}


def _forms(word: str) -> list[str]:
    first, *rest = _PARTS.split(word)
    return [first[:letters] + "".join(part[:1] for part in rest) for letters in range(1, len(first) + 1)]

"""How does a pen write the words of a chart: the shortest form that means one of them alone?"""

import re
from collections import Counter
from collections.abc import Iterable

# Words as short as these are written as they are.
_SHORT = 3
_PARTS = re.compile(r"[_-]")


def pen_forms(words: Iterable[str]) -> dict[str, str]:
    """Short forms by word, in the order of the words; each means one word alone, whatever its capitals.

    A form is the first letter of each part of a word; where two words would share it, more letters of their first part
    are taken until they differ, and at last the whole word.

    Args:
        words: the words one column allows, each once.
    """
    known = tuple(dict.fromkeys(words))
    if all(len(word) <= _SHORT for word in known):
        return {word: word for word in known}
    letters = dict.fromkeys(known, 1)
    while True:
        forms = {word: _form(word, letters[word]) for word in known}
        taken = Counter(form.casefold() for form in forms.values())
        shared = [word for word, form in forms.items() if taken[form.casefold()] > 1 and form != word]
        if not shared:
            return forms
        for word in shared:
            letters[word] += 1


def _form(word: str, letters: int) -> str:
    first, *rest = _PARTS.split(word)
    if letters > len(first):
        return word
    return first[:letters] + "".join(part[:1] for part in rest)

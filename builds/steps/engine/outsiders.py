"""Whether what somebody wrote is the name of a person from outside. Our own choice, no source."""

from collections.abc import Iterable

from garage.engine.letters import as_meant

NO_NAME = "Write the name of whoever looked: “{}” names nobody."
OF_THIS_GARAGE = "{} is of this garage, and signs as everybody here."
LIKE_ONE_HERE = "“{}” reads like {} of this garage: write the whole name of whoever looked."
LEAST_LETTERS = 2
# What stands for a person and names none.
_NO_NAMES = """
    me myself i you yourself he him himself she her herself we us ourselves they them themselves it one someone
    somebody anyone anybody everyone everybody nobody none no nil null na not unknown other others another person
    man woman guy bloke lad friend mate mates visitor guest outsider outside expert mechanic owner helper member
    signer inspector test tbd tba asdf name x xx xxx yes ok okay done self same ditto the a an my our his their of
    from here there who whoever
"""
_NOBODY = frozenset(_NO_NAMES.split())
# What stands before a name, and is none of it.
_BEFORE_NAMES = """
    mr mrs ms miss mx dr sir madam uncle aunt cousin brother sister dad mum
"""
_TITLES = frozenset(_BEFORE_NAMES.split())
# Letters that stay as they are when their accents are taken off.
_LETTERS = str.maketrans({"ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i"})


def refuse_outsider(name: str, here: Iterable[str]) -> str | None:
    """Why that is no outsider's name; `here` are the names of all who are or were of this garage."""
    words = _words(name)
    told = [word for word in words if word not in _NOBODY]
    if not any(len(word) >= LEAST_LETTERS for word in told):
        return NO_NAME.format(name)
    for member in here:
        theirs = _words(member)
        if words == theirs:
            return OF_THIS_GARAGE.format(name)
        if _short_of(words, theirs):
            return LIKE_ONE_HERE.format(name, member)
    return None


def _short_of(words: list[str], theirs: list[str]) -> bool:
    """Whether it is a member's name with an initial more, or with less: `Tove H`, `T Hansen`, `Tove` of Tove Hansen."""
    if "".join(words) == "".join(theirs) or _whole(words) == _whole(theirs):
        return True
    pairs = list(zip(words, theirs, strict=False))
    return len(words) <= len(theirs) and all(word == one or word == one[0] for word, one in pairs)


def _whole(words: list[str]) -> list[str]:
    """Without its initials."""
    return [word for word in words if len(word) > 1]


def _words(name: str) -> list[str]:
    """Small letters without accents, each word once, without titles; what is no letter parts them."""
    words = "".join(letter if letter.isalpha() else " " for letter in as_meant(name).translate(_LETTERS)).split()
    return list(dict.fromkeys(word for word in words if word not in _TITLES))

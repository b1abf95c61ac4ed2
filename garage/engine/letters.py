"""Letters as they were meant: full-width, circled, accented, those of another script that look alike, spaced out."""

import re
import unicodedata

# Cyrillic and Greek small letters that look like Latin ones. Source: UTS #39, confusables, those of these scripts.
_LOOK_ALIKE = str.maketrans("авеіјкмнорстухѕԁһԛѡγορυνικτα", "abeijkmhopctyxsdhqwyopuvikta")
_LATIN = re.compile(r"[a-z]")
_OTHER = re.compile(r"[\u0370-\u03ff\u0400-\u052f]")
_WORD = re.compile(r"[^\W\d_]+")
# `b r a k e`, `b.r.a.k.e`; three letters alone may be short for something (o s r).
_SPACED = re.compile(r"(?<![^\W_])[^\W\d_](?:[\W_]{1,2}[^\W\d_](?![^\W_])){3,}")


def as_meant(text: str) -> str:
    """The text in small letters, each as the Latin one that it stands for.

    Source: Unicode normalisation form KD; a letter that only looks Latin is one within a word of Latin letters, or in
    a text of them.
    """
    plain = unicodedata.normalize("NFKD", text).casefold()
    kept = "".join(sign for sign in plain if unicodedata.category(sign) not in ("Mn", "Cf"))
    if _OTHER.search(kept):
        beside = bool(_LATIN.search(kept))
        kept = _WORD.sub(lambda word: _latin(word[0], beside=beside), kept)
    return _SPACED.sub(lambda letters: re.sub(r"[\W_]", "", letters[0]), kept)


def _latin(word: str, *, beside: bool) -> str:
    read = word.translate(_LOOK_ALIKE)
    return read if not _OTHER.search(read) and (beside or _LATIN.search(word)) else word

"""A fault put into functions that are already loaded, and nothing else changed."""

import gc
from collections import defaultdict
from functools import _lru_cache_wrapper
from pathlib import Path
from types import CodeType, FunctionType

from tests.house.places import APPS
from tests.mutants.mutate import Mutant

Place = tuple[str, int]  # a code's name and first line


def faulty(file: Path, mutant: Mutant) -> tuple[set[str], dict[Place, CodeType]]:
    """Names of the functions that say something else now, and what each function of the file becomes."""
    old = _codes(compile(mutant.whole, str(file), "exec"))
    new = _codes(compile(mutant.tree, str(file), "exec"))
    changed = {place[0] for place in old if [*map(_says, old[place])] != [*map(_says, new.get(place, []))]}
    return changed, {place: same[0] for place, same in new.items() if len(same) == 1}


def _codes(code: CodeType) -> dict[Place, list[CodeType]]:
    """This and all that stand in it; a line may hold several of one name."""
    found, left = defaultdict(list), [code]
    while left:
        code = left.pop()
        found[code.co_qualname, code.co_firstlineno].append(code)
        left += [const for const in code.co_consts if isinstance(const, CodeType)]
    return found


def _says(code: CodeType) -> tuple:
    return code.co_code, code.co_names, [const for const in code.co_consts if not isinstance(const, CodeType)]


class Loaded:
    """Functions and caches of the project as they stand in this process."""

    def __init__(self) -> None:
        gc.unfreeze()  # what is frozen would not be listed
        self.caches, self.functions = [], defaultdict(list)
        for thing in gc.get_objects():
            if type(thing) is _lru_cache_wrapper and thing.__module__.split(".")[0] in APPS:
                self.caches.append(thing)
            elif type(thing) is FunctionType:
                self.functions[thing.__code__.co_filename].append(thing)
        gc.freeze()

    def forget(self) -> None:
        """What was worked out before would stand in for a function that is no longer called."""
        for cache in self.caches:
            cache.cache_clear()

    def put(self, file: Path, becomes: dict[Place, CodeType]) -> None:
        self.forget()
        for function in self.functions[str(file)]:
            code = function.__code__
            other = becomes.get((code.co_qualname, code.co_firstlineno))
            if other and len(other.co_freevars) == len(code.co_freevars):
                function.__code__ = other

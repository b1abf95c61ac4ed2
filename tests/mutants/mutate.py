"""Small faults made on purpose in plain source: a bound moved, a comparison turned, a guard left out."""

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass

TURNED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """The whole source with one fault in it, and what that is."""

    line: int
    before: str
    after: str
    source: str


def mutants(source: str) -> Iterator[Mutant]:
    """Every fault that can be made in the bodies of a module's functions, from top to bottom."""
    for place in range(len(_nodes(ast.parse(source)))):
        for number in range(2):
            tree = ast.parse(source)
            node = _nodes(tree)[place]
            before = ast.unparse(node)
            other = _faults(copy.deepcopy(node))[number : number + 1]
            if other:
                _put(tree, node, other[0])
                yield Mutant(node.lineno, before, ast.unparse(other[0]), ast.unparse(ast.fix_missing_locations(tree)))


def _nodes(tree: ast.Module) -> list[ast.AST]:
    """In functions alone: what stands outside of them are names and tables, which other tests read."""
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    found = {id(node): node for function in functions for part in function.body for node in ast.walk(part)}
    return [node for node in found.values() if _faults(node)]


def _faults(node: ast.AST) -> list[ast.AST]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in TURNED:
        return [ast.Compare(node.left, [TURNED[type(node.ops[0])]()], node.comparators)]
    if isinstance(node, ast.BoolOp):
        other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        return [ast.BoolOp(other, node.values)]
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        return [node.operand]
    if isinstance(node, ast.Constant) and type(node.value) is int:
        return [ast.Constant(node.value + 1), ast.Constant(node.value - 1)]
    if isinstance(node, ast.If) and _is_guard(node):
        return [ast.Pass()]
    return []


def _is_guard(node: ast.If) -> bool:
    """An `if` without an else that only refuses."""
    return not node.orelse and isinstance(node.body[-1], ast.Raise)


def _put(tree: ast.AST, node: ast.AST, other: ast.AST) -> None:
    for parent in ast.walk(tree):
        for name, value in ast.iter_fields(parent):
            if value is node:
                setattr(parent, name, other)
            elif isinstance(value, list) and any(part is node for part in value):
                value[[part is node for part in value].index(True)] = other

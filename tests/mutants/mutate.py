"""Small faults made on purpose in plain source: a bound moved, a comparison turned, a guard left out."""

import ast
from collections.abc import Iterator

TURNED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip


class Mutant:
    """A module with one fault in it; lines stay where they are."""

    def __init__(self, whole: str, place: int, fault: int) -> None:
        tree = ast.parse(whole)
        node = _nodes(tree)[place]
        other = ast.copy_location(_faults(node)[fault], node)
        self.whole, self.line, self.before, self.after = whole, node.lineno, ast.unparse(node), ast.unparse(other)
        _put(tree, node, other)
        self.tree = ast.fix_missing_locations(tree)

    @property
    def source(self) -> str:
        return ast.unparse(self.tree)


def places(source: str) -> list[tuple[int, int]]:
    """Where a fault can be made in the bodies of a module's functions: which node, and which of its faults."""
    nodes = enumerate(_nodes(ast.parse(source)))
    return [(place, fault) for place, node in nodes for fault in range(len(_faults(node)))]


def mutants(source: str) -> Iterator[Mutant]:
    for place, fault in places(source):
        yield Mutant(source, place, fault)


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

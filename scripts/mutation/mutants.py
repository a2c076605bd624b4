"""Finds where a C++ source can be changed, and writes it with all changes in, each asleep.

A changed place becomes a call into switch.h that asks which mutant is awake, so that one compilation
serves all of them. What stands in a constant expression cannot ask; it is changed in the text, one at
a time.
"""
import re
from dataclasses import dataclass

import clang.cindex as cx

ARITHMETIC = {"+": "-", "-": "+", "*": "+", "/": "*", "%": "*", "<<": ">>", ">>": "<<", "&": "|",
              "|": "&", "^": "&", "==": "!=", "!=": "==", "<": "<=", "<=": "<", ">": ">=", ">=": ">"}
LOGICAL = {"&&": "||", "||": "&&"}
ASSIGNMENTS = {"+=": "-=", "-=": "+=", "*=": "+=", "|=": "&=", "&=": "|=", "^=": "&=", "<<=": ">>=",
               ">>=": "<<=", "/=": "*=", "%=": "/="}
NAMES = {"+": "plus", "-": "minus", "*": "times", "/": "over", "%": "rest", "<<": "left",
         ">>": "right", "&": "bit_and", "|": "bit_or", "^": "bit_xor", "==": "same", "!=": "other",
         "<": "below", "<=": "up_to", ">": "above", ">=": "from"}
NUMBERS = set(cx.TypeKind.__dict__[k] for k in
              ("BOOL CHAR_U UCHAR CHAR16 CHAR32 USHORT UINT ULONG ULONGLONG CHAR_S SCHAR WCHAR SHORT "
               "INT LONG LONGLONG FLOAT DOUBLE ENUM").split())
K = cx.CursorKind


@dataclass
class Mutant:
    """One change: source[start:end], by the operator at `op` or by a whole new text."""
    file: str
    line: int
    start: int
    end: int
    kind: str          # operator, assignment, logical, negated, constant
    old: str
    new: str
    op: int = 0        # offset of the operator's text
    constant: bool = False  # stands in a constant expression: changed in the text
    number: int = 0

    def edits(self, awake_by_number):
        """(offset, length, text, rank) for each edit; the ranks order those at one offset."""
        n, size = self.number, self.end - self.start
        first, last = (self.start, 1, -size, n), (self.end, 0, size, -n)
        if not awake_by_number:
            if self.kind == "negated":
                return [(first, 0, "!("), (last, 0, ")")]
            if self.kind == "constant":
                return [(first, size, self.new)]
            return [(first, 0, "("), ((self.op, 2, 0, 0), len(self.old), self.new), (last, 0, ")")]
        if self.kind == "negated":
            return [(first, 0, f"mutants::negated({n}, static_cast<bool>("), (last, 0, "))")]
        if self.kind == "constant":
            name = "negated" if self.old in ("true", "false") else "constant"
            return [(first, 0, f"mutants::{name}({n}, "), (last, 0, ")")]
        if self.kind == "logical":
            # a || b is !(!a && !b): turning three truths over makes the one of the other, and each
            # side is still worked out only when it is needed.
            turn = f"(mutants::awake({n}) != static_cast<bool>("
            return [(first, 0, f"(mutants::awake({n}) != ({turn}"),
                    ((self.op, 2, 0, 0), 2, f")) {self.old} {turn}"), (last, 0, "))))")]
        name = NAMES[self.old.rstrip("=")] + "_assign" if self.kind == "assignment" else NAMES[self.old]
        return [(first, 0, f"mutants::{name}({n}, "), ((self.op, 2, 0, 0), len(self.old), ","),
                (last, 0, ")")]


def rewritten(source, mutants, awake_by_number=True):
    """The source with the mutants in: all asleep, or (one alone) in the text."""
    edits = sorted(edit for m in mutants for edit in m.edits(awake_by_number))
    out, at = [], 0
    for (offset, *_), length, text in edits:
        out.append(source[at:offset])
        out.append(text)
        at = offset + length
    out.append(source[at:])
    return "".join(out)


def is_number(cursor):
    return cursor.type.get_canonical().kind in NUMBERS


def find(path, arguments):
    """Every mutant of one source file, compiled with these arguments."""
    data = open(path, "rb").read()
    source = data.decode()
    unit = cx.Index.create().parse(path, args=arguments)
    wrong = [d for d in unit.diagnostics if d.severity >= cx.Diagnostic.Error]
    if wrong:
        raise SystemExit(f"mutation: clang does not read {path}: {wrong[0]}")
    # clang counts bytes, Python characters.
    chars, count = [], 0
    for byte in data:
        chars.append(count)
        count += (byte & 0xC0) != 0x80
    chars.append(count)

    found = []
    taken = set()

    def span(cursor):
        return chars[cursor.extent.start.offset], chars[cursor.extent.end.offset]

    def add(cursor, kind, old, new, constant, op=0):
        start, end = span(cursor)
        if (start, end, kind) in taken:
            return
        taken.add((start, end, kind))
        found.append(Mutant(path, cursor.extent.start.line, start, end, kind, old, new, op, constant))

    def operator_between(left, right):
        a, b = span(left)[1], span(right)[0]
        between = source[a:b]
        word = between.strip()
        return word, a + between.index(word) if word else a

    def condition(cursor, constant):
        inner = cursor
        while inner.kind in (K.UNEXPOSED_EXPR, K.PAREN_EXPR):
            children = list(inner.get_children())
            if len(children) != 1:
                break
            inner = children[0]
        if inner.kind == K.BINARY_OPERATOR:
            parts = list(inner.get_children())
            if len(parts) == 2 and operator_between(*parts)[0] in ("==", "!=") and is_number(parts[0]):
                return  # the operator's own mutant says the same
        start, end = span(cursor)
        add(cursor, "negated", source[start:end], "not", constant)

    def visit(cursor, constant):
        kind = cursor.kind
        children = list(cursor.get_children())
        start, end = span(cursor)
        if kind in (K.STATIC_ASSERT, K.ENUM_CONSTANT_DECL, K.TEMPLATE_TYPE_PARAMETER,
                    K.TEMPLATE_NON_TYPE_PARAMETER):
            return
        if kind == K.VAR_DECL or kind in (K.FUNCTION_DECL, K.CXX_METHOD, K.FUNCTION_TEMPLATE):
            head = source[start:min(end, start + 400)]
            head = re.split(r"[={(]", head)[0]
            constant = constant or "constexpr" in head or "consteval" in head
            # A function's mark may stand before what clang calls its extent.
            constant = constant or "constexpr" in source[max(0, start - 12):start]
        if kind in (K.BINARY_OPERATOR, K.COMPOUND_ASSIGNMENT_OPERATOR) and len(children) == 2:
            word, at = operator_between(*children)
            numbers = is_number(children[0]) and is_number(children[1])
            if word in ARITHMETIC and numbers:
                add(cursor, "operator", word, ARITHMETIC[word], constant, at)
            elif word in LOGICAL:
                add(cursor, "logical", word, LOGICAL[word], constant, at)
            elif word in ASSIGNMENTS and numbers:
                add(cursor, "assignment", word, ASSIGNMENTS[word], constant, at)
        elif kind in (K.IF_STMT, K.WHILE_STMT, K.CONDITIONAL_OPERATOR):
            fixed = source[start:start + 14].startswith("if constexpr")
            expressions = [c for c in children if c.kind.is_expression()]
            if expressions and not fixed and (kind == K.CONDITIONAL_OPERATOR or children[-1] != expressions[0]):
                condition(expressions[0], constant)
            if fixed:
                constant = True
        elif (kind == K.UNARY_OPERATOR and source[start] == "!" and source[start + 1] != "=" and
              len(children) == 1):
            if not any(m.kind == "negated" and m.start <= start and end <= m.end and
                       m.end - m.start <= end - start + 2 for m in found):
                add(cursor, "negated", source[start:end], "not", constant)
        elif kind == K.INTEGER_LITERAL:
            literal = source[start:end]
            number = re.fullmatch(r"(0[xX][0-9a-fA-F']+|[0-9][0-9']*)([uUlLzZ]*)", literal)
            if number:
                add(cursor, "constant", literal,
                    str(int(number[1].replace("'", ""), 0) + 1) + number[2], constant)
        elif kind == K.CHARACTER_LITERAL and re.fullmatch(r"'[!-&(-\[\]-}]'", source[start:end]):
            letter = source[start + 1]
            add(cursor, "constant", source[start:end], f"'{chr(ord(letter) + 1)}'", constant)
        elif kind == K.CXX_BOOL_LITERAL_EXPR and source[start:end] in ("true", "false"):
            add(cursor, "constant", source[start:end],
                "false" if source[start:end] == "true" else "true", constant)
        for i, child in enumerate(children):
            visit(child, constant or (kind == K.CASE_STMT and i == 0))

    for cursor in unit.cursor.get_children():
        if cursor.location.file and cursor.location.file.name == path:
            visit(cursor, False)
    found = [m for m in found if m.end > m.start and "\n#" not in source[m.start:m.end]]
    return source, found

"""Read the source as a tree, so that the house rules can be tested without importing it."""

import ast
import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "foamwright"
SECTION = re.compile(r"^(Args|Returns|Raises|Valid|Source|Example|Attributes):\s*$", re.M)
MARK = re.compile(r"\[[^\]]+\]")
NUMBER = re.compile(r"\b(float|int|complex|Band|Point|Vector|NDArray|ndarray|Array)\b")


@dataclass(frozen=True)
class Function:
    """A public function: where it stands and what it says of itself."""

    where: str
    name: str
    node: ast.FunctionDef
    is_command: bool

    @property
    def arguments(self) -> list[str]:
        spec = self.node.args
        named = [*spec.posonlyargs, *spec.args, *spec.kwonlyargs]
        return [argument.arg for argument in named if argument.arg not in ("self", "cls")]

    @property
    def numbers(self) -> set[str]:
        """Arguments that hold numbers, and so have a unit."""
        spec = self.node.args
        named = [*spec.posonlyargs, *spec.args, *spec.kwonlyargs]
        return {a.arg for a in named if a.annotation and NUMBER.search(ast.unparse(a.annotation))}

    @property
    def sections(self) -> dict[str, str]:
        """Heading -> text below it; the words before the first heading under ""."""
        text = ast.get_docstring(self.node) or ""
        pieces = SECTION.split(text)
        return {"": pieces[0]} | dict(zip(pieces[1::2], pieces[2::2], strict=True))

    @property
    def described(self) -> dict[str, str]:
        """Argument -> its words in the Args section, continuation lines joined."""
        text = self.sections.get("Args", "")
        entries = re.findall(r"^ {4}(\*{0,2}\w+)(?: \([^)]*\))?:((?:.|\n {5,})*)", text, re.M)
        return {name.lstrip("*"): " ".join(words.split()) for name, words in entries}

    @property
    def returns_number(self) -> bool:
        return self.node.returns is not None and bool(NUMBER.search(ast.unparse(self.node.returns)))

    @property
    def returns_nothing(self) -> bool:
        return self.node.returns is None or ast.unparse(self.node.returns) in ("None", "NoReturn")


def source_files() -> list[Path]:
    return sorted(path for path in SOURCE.rglob("*.py") if "__pycache__" not in path.parts)


def _is_command(node: ast.FunctionDef) -> bool:
    return any(re.search(r"\.(command|group)\b", ast.unparse(mark)) for mark in node.decorator_list)


def public_functions() -> list[Function]:
    """Top-level functions without an underscore, in modules without one."""
    found = []
    for path in source_files():
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                where = f"{path.relative_to(ROOT).as_posix()}:{node.lineno} {node.name}"
                found.append(Function(where, node.name, node, _is_command(node)))
    return found


def public_classes() -> list[tuple[str, ast.ClassDef]]:
    return [
        (f"{path.relative_to(ROOT).as_posix()}:{node.lineno} {node.name}", node)
        for path in source_files()
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    ]


def project_files() -> list[Path]:
    """Every text file that belongs to the project, whether or not it is a git clone."""
    kinds = {".py", ".md", ".toml", ".lock", ".json", ".html", ".css", ".js", ".csv", ".yml", ""}
    folders = [
        ROOT / name for name in ("src", "tests", "docs", "tools", "bench", "examples", ".ci")
    ]
    files = [path for folder in folders for path in folder.rglob("*") if path.is_file()]
    files += [path for path in ROOT.iterdir() if path.is_file()]
    unwanted = ("__pycache__", ".egg-info", ".coverage")
    return sorted(
        path
        for path in files
        if path.suffix in kinds and not any(word in path.as_posix() for word in unwanted)
    )

"""Every public function says what it takes, gives, rests on and how it is called."""

import ast

import pytest
from reading import MARK, Function, public_classes, public_functions


def listed(offenders: list[str]) -> None:
    """Fail with all offenders at once."""
    if offenders:
        pytest.fail(f"{len(offenders)} to mend:\n" + "\n".join(offenders), pytrace=False)


def faults_of(function: Function) -> list[str]:
    sections, described = function.sections, function.described
    faults = []
    if not sections[""].strip():
        return ["no docstring"]
    missing = [name for name in function.arguments if name not in described]
    faults += [f"argument {name} is not under Args" for name in missing]
    faults += [
        f"Args names {name}, which it does not take"
        for name in described
        if name not in function.arguments
    ]
    faults += [
        f"argument {name} has no [unit]"
        for name, words in described.items()
        if name in function.numbers and not MARK.search(words)
    ]
    if not function.returns_nothing and "Returns" not in sections:
        faults.append("no Returns section")
    elif function.returns_number and not MARK.search(sections.get("Returns", "")):
        faults.append("Returns has no [unit]")
    if not sections.get("Source", "").strip():
        faults.append("no Source section")
    if ">>>" not in sections.get("Example", ""):
        faults.append("no Example with a >>> line")
    return faults


def test_functions_are_documented():
    listed(
        [
            f"{function.where}: {fault}"
            for function in public_functions()
            for fault in (faults_of(function) if not function.is_command else [])
        ]
    )


def test_commands_have_help_texts():
    listed([f.where for f in public_functions() if f.is_command and not f.sections[""].strip()])


def test_classes_and_their_methods_have_docstrings():
    offenders = []
    for where, node in public_classes():
        if not ast.get_docstring(node):
            offenders.append(f"{where}: no docstring")
        offenders += [
            f"{where}.{item.name}: no docstring"
            for item in node.body
            if isinstance(item, ast.FunctionDef)
            and not item.name.startswith("_")
            and not ast.get_docstring(item)
        ]
    listed(offenders)


def test_functions_have_at_most_two_positional_arguments_more_by_name():
    """At most 8 arguments, and only few by place; look-alike numbers are named by the caller."""
    offenders = []
    for function in public_functions():
        by_place = [*function.node.args.posonlyargs, *function.node.args.args]
        if not function.is_command and (len(by_place) > 4 or len(function.arguments) > 8):
            offenders.append(
                f"{function.where}: {len(by_place)} by place, {len(function.arguments)} in all"
            )
    listed(offenders)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ('"""Words."""', "no Source section"),
        ('"""Words.\n\n    Args:\n        mass: All-up.\n    """', "argument mass has no [unit]"),
        (
            '"""Words.\n\n    Args:\n        span: Tip to tip. [m]\n    """',
            "argument mass is not under Args",
        ),
        ('"""Words.\n\n    Returns:\n        Speed.\n    """', "Returns has no [unit]"),
    ],
)
def test_the_test_sees_faults(text, fault):
    node = ast.parse(f"def speed(mass: float) -> float:\n    {text}\n").body[0]
    assert isinstance(node, ast.FunctionDef)
    assert fault in faults_of(Function("here", "speed", node, is_command=False))


GOOD = """
def speed(mass: float) -> float:
    \'\'\'Words.

    Args:
        mass: All-up, pack in,
            weighed. [kg]

    Returns:
        Speed. [m/s]

    Source:
        Definition.

    Example:
        >>> speed(1.0)
    \'\'\'
"""


def test_the_test_passes_a_good_one():
    node = ast.parse(GOOD).body[0]
    assert isinstance(node, ast.FunctionDef)
    good = Function("here", "speed", node, is_command=False)
    assert faults_of(good) == []
    assert good.described == {"mass": "All-up, pack in, weighed. [kg]"}

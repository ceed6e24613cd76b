"""Write the JSON schemas and the key tables of docs/use from the data models."""

import json
from pathlib import Path

from foamwright.design.schema import SCHEMA_FILE, json_schema, key_tables
from foamwright.idea.reading import SCHEMA_FILE as WISHES_SCHEMA
from foamwright.idea.reading import wishes_keys, wishes_schema

PAGE = Path(__file__).parents[1] / "docs" / "use" / "design-file.md"
WISHES_PAGE = PAGE.with_name("idea.md")
MARK = "<!-- The tables below are written by tools/describe_design.py. -->\n"


def schema_text() -> str:
    """The schema as it is shipped.

    Returns:
        JSON with a line end. [-]

    Source:
        Definition.

    Example:
        >>> schema_text()[:1]
        '{'
    """
    return json.dumps(json_schema(), indent=1, ensure_ascii=False) + "\n"


def page_text(page: str, tables: str | None = None) -> str:
    """The page with its tables as the data model has them now.

    Args:
        page: The page as it is. [-]
        tables: Markdown; None takes those of the design file. [-]

    Returns:
        The page up to the mark, and the tables. [-]

    Source:
        Definition.

    Example:
        >>> page_text("Words." + MARK).startswith("Words.")
        True
    """
    return f"{page.split(MARK)[0]}{MARK}\n{key_tables() if tables is None else tables}"


if __name__ == "__main__":
    SCHEMA_FILE.write_text(schema_text(), encoding="utf-8")
    PAGE.write_text(page_text(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
    wishes = json.dumps(wishes_schema(), indent=1, ensure_ascii=False) + "\n"
    WISHES_SCHEMA.write_text(wishes, encoding="utf-8")
    page = WISHES_PAGE.read_text(encoding="utf-8")
    WISHES_PAGE.write_text(page_text(page, wishes_keys()), encoding="utf-8")

"""Write the JSON schema and the key tables of docs/use/design-file.md from the data model."""

import json
from pathlib import Path

from foamwright.design.schema import SCHEMA_FILE, json_schema, key_tables

PAGE = Path(__file__).parents[1] / "docs" / "use" / "design-file.md"
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


def page_text(page: str) -> str:
    """The page with its tables as the data model has them now.

    Args:
        page: The page as it is. [-]

    Returns:
        The page up to the mark, and the tables. [-]

    Source:
        Definition.

    Example:
        >>> page_text("Words." + MARK).startswith("Words.")
        True
    """
    return f"{page.split(MARK)[0]}{MARK}\n{key_tables()}"


if __name__ == "__main__":
    SCHEMA_FILE.write_text(schema_text(), encoding="utf-8")
    PAGE.write_text(page_text(PAGE.read_text(encoding="utf-8")), encoding="utf-8")

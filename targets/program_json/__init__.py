"""The compiled program as JSON, for other tools, with the schema that it keeps to."""

from __future__ import annotations

import json
from pathlib import Path

from ...compiler.model import Program
from .view import program_json

SCHEMA = "program.schema.json"


def render(program: Program) -> dict[str, str]:
    """The program as JSON and its schema, by file name."""
    told = json.dumps(program_json(program), ensure_ascii=False, indent=2)
    return {f"{program.name}.program.json": told + "\n", SCHEMA: schema_text()}


def schema_text() -> str:
    """The JSON Schema of an exported program."""
    return (Path(__file__).parent / SCHEMA).read_text(encoding="utf-8")

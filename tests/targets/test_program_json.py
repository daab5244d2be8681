"""The exported program keeps to its schema, and no figure loses anything."""

import json
from fractions import Fraction
from pathlib import Path

import jsonschema
import pytest
from setwright.compiler.model import Program
from setwright.compiler.pipeline import compile_path
from setwright.targets import program_json
from setwright.targets.program_json.view import exact_text

DEMO = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"
SCHEMA = json.loads(program_json.schema_text())


def exported(program: Program) -> dict[str, object]:
    told: dict[str, object] = json.loads(program_json.render(program)[f"{program.name}.program.json"])
    return told


def test_the_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_the_small_program_keeps_to_the_schema(program: Program):
    jsonschema.Draft202012Validator(SCHEMA).validate(exported(program))


def test_the_demo_programs_keep_to_the_schema():
    for program in compile_path(DEMO).project.programs:
        jsonschema.Draft202012Validator(SCHEMA).validate(exported(program))


def test_a_field_too_many_is_refused(program: Program):
    told = exported(program) | {"more": 1}
    assert not jsonschema.Draft202012Validator(SCHEMA).is_valid(told)


def test_every_movement_that_is_named_is_there(program: Program):
    told = json.dumps(exported(program))
    names = {movement["name"] for movement in json.loads(told)["movements"]}
    used = {entry.movement.name for session in program.sessions for entry in session.entries}
    assert used <= names


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction("12.5"), "12.5"),
        (Fraction(60), "60"),
        (Fraction("0.0625"), "0.0625"),
        (Fraction("37.44"), "37.44"),
        (Fraction(1, 3), "1/3"),
        (Fraction("-2.05"), "-2.05"),
        (Fraction("0.45359237"), "0.45359237"),
    ],
)
def test_exact_text(value: Fraction, text: str):
    assert exact_text(value) == text
    assert Fraction(text) == value

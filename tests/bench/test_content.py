"""What the bench measures is worth measuring: a source without findings, and YAML that says the same."""

import pytest
import yaml
from setwright.compiler.pipeline import compile_texts

from tests.bench.coach import as_source
from tests.bench.models import Everything
from tests.bench.source import make_content


def test_the_source_has_no_findings_and_holds_everything():
    content = make_content(1_500)
    result = compile_texts({"bench.coach": as_source(content)})
    assert result.diagnostics == ()
    for kind in ("movements", "programs", "athletes", "logs"):
        assert len(getattr(result.project, kind)) == len(content[kind]) > 0
    assert all(len(log.sessions) == 12 for log in result.project.logs)


def test_the_same_seed_gives_the_same_source():
    assert as_source(make_content(500)) == as_source(make_content(500))
    assert as_source(make_content(500)) != as_source(make_content(500, seed=2))


def test_the_yaml_is_valid_and_a_wrong_figure_is_not():
    content = yaml.safe_load(yaml.safe_dump(make_content(500)))
    assert len(Everything.model_validate(content).programs) == len(content["programs"])
    content["programs"][0]["rest"] = "60"
    with pytest.raises(ValueError, match="rest"):
        Everything.model_validate(content)

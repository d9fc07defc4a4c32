"""What mkdocs.yml may set."""

from datetime import date

from scoutgen.site.options import ScoutgenConfig


def test_a_date_without_quotes_is_taken_as_it_was_written() -> None:
    config = ScoutgenConfig()
    config.load_dict({"as_of": date(2026, 4, 9)})
    assert config.validate() == ([], [])
    assert config.as_of == "2026-04-09"


def test_whether_a_build_is_remembered_is_no_option_of_the_project() -> None:
    config = ScoutgenConfig()
    config.load_dict({"memory": "none"})
    _, warnings = config.validate()
    assert [key for key, _ in warnings] == ["memory"]

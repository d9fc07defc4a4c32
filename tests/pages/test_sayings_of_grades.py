"""What an evaluation says, thing by thing, and which of it is news."""

from dataclasses import replace

import pytest

from scoutgen.pages.evaluation import EvaluationPage
from scoutgen.pages.evaluations import evaluation_pages
from scoutgen.pages.measured import find_measured
from scoutgen.pages.said import Saying, changes
from scoutgen.pages.sayings_of_grades import of_evaluation
from scoutgen.records.editions import for_edition
from scoutgen.records.season import Season


@pytest.fixture(scope="module")
def men(demo_season: Season) -> dict[str, EvaluationPage]:
    season = for_edition(demo_season, "recruiting")
    pages = evaluation_pages(season, find_measured(season), built="now")
    return {page.person.man.key: page for page in pages}


@pytest.fixture(scope="module")
def said(men: dict[str, EvaluationPage]) -> dict[str, Saying]:
    return dict(of_evaluation(men["iker-nunez"]))


def test_every_grade_is_said_once_with_who_gave_it(men: dict[str, EvaluationPage], said: dict[str, Saying]) -> None:
    page = men["iker-nunez"]
    assert page.grades is not None
    graded = [key.rpartition("|")[2] for key, one in said.items() if one.kind == "grade"]
    assert graded[0] == "overall"
    assert sorted(graded) == sorted(page.grades.tools)
    one = said["grade|harbor|iker-nunez|fastball"]
    assert (one.said, one.detail, one.address) == ("55, 60 later", "CV, video", page.address)


def test_a_grade_is_news_when_it_is_new_or_another_and_not_when_it_goes(said: dict[str, Saying]) -> None:
    key = "grade|harbor|iker-nunez|fastball"
    fewer = {name: one for name, one in said.items() if name != key}
    other = {**said, key: replace(said[key], said="50")}
    assert changes(said, said) == ()
    assert [change.how for change in changes(fewer, said)] == ["new"]
    assert [change.how for change in changes(other, said)] == ["other"]
    assert changes(said, fewer) == ()


def test_a_man_noted_and_not_graded_says_his_notes(men: dict[str, EvaluationPage]) -> None:
    assert {one.kind for _, one in of_evaluation(men["nils-abernathy-roy"])} == {"note"}

"""A problem is a value that prints as editors and people read it; many are shown once each, in order."""

from scoutgen.records.problems import Problem, ProblemsFoundError


def test_a_problem_prints_its_place_as_far_as_it_has_one() -> None:
    assert str(Problem("a.csv", 3, "pitch", "is odd")) == "a.csv:3: pitch: is odd"
    assert str(Problem("a.csv", 0, "", "is odd")) == "a.csv: is odd"
    assert str(Problem("a.csv", 3, "", "is odd", "warning")) == "a.csv:3: warning: is odd"
    assert str(Problem("a.csv", 1, "", "x\u200by\x1b")) == "a.csv:1: xU+200ByU+001B"


def test_many_are_shown_once_each_in_the_order_of_files_and_lines() -> None:
    late, early = Problem("b.csv", 2, "", "x"), Problem("a.csv", 10, "", "x")
    found = ProblemsFoundError([late, early, late, Problem("a.csv", 9, "", "y")])
    assert str(found) == "a.csv:9: y\na.csv:10: x\nb.csv:2: x"
    assert len(found.problems) == 3

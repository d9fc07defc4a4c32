"""The chain by hand where that is short, and against playing the half innings out."""

import numpy as np
import pytest

from scoutgen.measures.run_chain import (
    BASE_STATES,
    STATES,
    Advancement,
    EventShares,
    RunChain,
    run_chain,
    run_expectancy,
    runs_distribution,
    shares_for,
    state,
)

STILL = Advancement(moved_up={}, picked_out={})
NOTHING = dict.fromkeys(("walk", "single", "double", "triple", "home_run", "error"), 0.0)


def test_every_state_goes_somewhere() -> None:
    chain = run_chain(EventShares())
    np.testing.assert_allclose(chain.moves.sum(axis=(0, 2)) + chain.ends.sum(axis=0), 1)
    assert (chain.moves >= 0).all()


def test_homers_and_strikeouts_alone_are_a_negative_binomial() -> None:
    chain = run_chain(EventShares(**{**NOTHING, "home_run": 0.1, "strikeout": 0.9}), STILL)
    # Runs before the third out: three outs, each after a geometric number of home runs.
    runs = np.arange(6)
    by_hand = (runs + 2) * (runs + 1) / 2 * 0.1**runs * 0.9**3
    np.testing.assert_allclose(runs_distribution(chain)[state("", 0)][:6], by_hand, atol=1e-12)
    assert run_expectancy(chain)[0, 0] == pytest.approx(3 * 0.1 / 0.9)
    # With the bases full the first home run clears them.
    assert run_expectancy(chain)[2, 7] == pytest.approx(3 * 0.1 + 0.1 / 0.9)


def test_walks_force_only_whom_they_must() -> None:
    chain = run_chain(EventShares(**{**NOTHING, "walk": 0.4, "strikeout": 0.6}), STILL)
    reached = {word: chain.moves[:, state(word, 0)].sum(axis=0) for word in BASE_STATES}
    after = {"": "1", "1": "12", "2": "12", "3": "13", "12": "123", "13": "123", "23": "123", "123": "123"}
    for before, word in after.items():
        assert reached[before][state(word, 0)] == pytest.approx(0.4)
    assert chain.moves[1, state("123", 0), state("123", 0)] == pytest.approx(0.4)


def test_runs_expected_are_the_mean_of_their_distribution() -> None:
    chain = run_chain(EventShares())
    shares = runs_distribution(chain, most=60)
    np.testing.assert_allclose(shares.sum(axis=1), 1)
    np.testing.assert_allclose(shares @ np.arange(61), run_expectancy(chain).ravel(), atol=1e-6)


def played_out(chain: RunChain, start: int, times: int) -> np.ndarray:
    """Runs of half innings drawn play by play."""
    rng = np.random.default_rng(5)
    at, scored = np.full(times, start), np.zeros(times, dtype=int)
    ways = np.concatenate([chain.moves.transpose(1, 0, 2).reshape(STATES, -1), chain.ends.T], axis=1).cumsum(axis=1)
    alive = np.arange(times)
    while len(alive):
        # The last way's upper end is 1 but for rounding.
        way = np.minimum((rng.random((len(alive), 1)) > ways[at[alive]]).sum(axis=1), ways.shape[1] - 1)
        over = way >= chain.moves.shape[0] * STATES
        scored[alive] += np.where(over, way - chain.moves.shape[0] * STATES, way // STATES)
        at[alive] = way % STATES
        alive = alive[~over]
    return scored


@pytest.mark.parametrize(("bases", "outs"), [("", 0), ("13", 1), ("123", 0)])
def test_playing_it_out_gives_the_same(bases: str, outs: int) -> None:
    chain, times = run_chain(EventShares()), 40_000
    runs = played_out(chain, state(bases, outs), times)
    shares = runs_distribution(chain)[state(bases, outs)]
    spread = np.sqrt(shares @ np.arange(25) ** 2 - (shares @ np.arange(25)) ** 2)
    expected = run_expectancy(chain)[outs, BASE_STATES.index(bases)]
    assert abs(runs.mean() - expected) < 4 * spread / np.sqrt(times)
    assert abs((runs == 0).mean() - shares[0]) < 4 * np.sqrt(shares[0] * (1 - shares[0]) / times)


@pytest.mark.parametrize("runs", [2.0, 4.5, 6.0, 9.0, 15.0])
def test_a_league_scores_what_it_is_set_to(runs: float) -> None:
    found = run_expectancy(run_chain(shares_for(runs)))[0, 0] * 9
    assert found == pytest.approx(runs, abs=1e-6)


def test_more_runners_and_fewer_outs_are_worth_more() -> None:
    table = run_expectancy(run_chain(EventShares()))
    assert (np.diff(table, axis=0) < 0).all()
    lighter = {"": "1", "1": "12", "2": "23", "12": "123", "3": "13", "13": "123", "23": "123"}
    for less, more in lighter.items():
        assert (table[:, BASE_STATES.index(less)] < table[:, BASE_STATES.index(more)]).all()


def test_on_a_double_the_man_from_first_scores_as_often_as_said_by_outs() -> None:
    doubles = EventShares(**{**NOTHING, "double": 0.4, "strikeout": 0.6})
    how = Advancement(moved_up={}, picked_out={}, first_scores=(0.2, 0.7))
    chain = run_chain(doubles, how)
    for outs, share in enumerate((0.2, 0.2, 0.7)):
        assert chain.moves[1, state("1", outs), state("2", outs)] == pytest.approx(0.4 * share)
        assert chain.moves[0, state("1", outs), state("23", outs)] == pytest.approx(0.4 * (1 - share))


def test_between_plate_appearances_the_leading_man_is_out_and_everybody_moves_up() -> None:
    nobody = EventShares(**{**NOTHING, "strikeout": 1.0})
    chain = run_chain(nobody, Advancement(moved_up={"12": 0.3}, picked_out={"12": 0.1, "13": 0.2}))
    # The strikeout after it makes one more out.
    assert chain.moves[0, state("12", 0), state("23", 1)] == pytest.approx(0.3)
    assert chain.moves[0, state("12", 0), state("1", 2)] == pytest.approx(0.1)
    assert chain.moves[0, state("13", 0), state("3", 2)] == pytest.approx(0.2)

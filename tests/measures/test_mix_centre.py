"""Where an unknown pitcher's mix leans."""

import numpy as np
from scipy import special

from scoutgen.measures.counts import COUNTS
from scoutgen.measures.mix_centre import LEAGUE_COUNTS, LEAGUE_MIX, Scales, directions, kernel, league_log_shares


def test_the_mix_by_count_moves_as_published() -> None:
    # Walsh, Hardball Times, 20 December 2007: fastballs 84 % at 3-0, 63 at 0-0, 48 at 1-2 of all pitches.
    pitches = ["fastball", "slider", "curve", "change"]
    odds = league_log_shares(pitches)[12:]
    fastball = {count: LEAGUE_MIX[count][0] / sum(LEAGUE_MIX[count]) for count in COUNTS}
    others = np.log([1 - fastball[count] for count in COUNTS])
    ours = odds[:, 0] - special.logsumexp(odds[:, 1:], axis=1)
    published = np.log([fastball[count] for count in COUNTS]) - others
    # The level is the pitcher's own; the movement between counts is the league's.
    np.testing.assert_allclose(ours - ours.mean(), published - published.mean(), atol=0.12)


def test_counts_come_up_as_often_as_published() -> None:
    # Retrosheet, 2019: shares of 734,217 pitches by count.
    assert abs(LEAGUE_COUNTS.sum() - 1) < 0.005
    assert COUNTS[int(np.argmax(LEAGUE_COUNTS))] == "0-0"
    assert COUNTS[int(np.argmin(LEAGUE_COUNTS))] == "3-0"


def test_a_pitch_of_no_family_does_not_move_with_the_count() -> None:
    assert np.ptp(league_log_shares(["other"])) == 0


def test_the_kernel_is_the_sum_of_its_directions_and_a_covariance() -> None:
    total = kernel(Scales())
    np.testing.assert_allclose(total, total.T)
    assert np.linalg.eigvalsh(total).min() > 0
    only_side = Scales(**dict.fromkeys(directions(), 0.0) | {"side": 2.0})
    # Half the difference on either side: the two sides differ by the whole, with variance 4.
    found = kernel(only_side)
    assert found[0, 0] + found[12, 12] - 2 * found[0, 12] == 4.0


def test_counts_nearby_are_more_alike_than_counts_apart() -> None:
    correlation = kernel(Scales(level=0.0))
    at = {count: place for place, count in enumerate(COUNTS)}
    assert correlation[at["2-0"], at["3-0"]] > correlation[at["2-0"], at["0-2"]]

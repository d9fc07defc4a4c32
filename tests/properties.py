"""How many examples a property is tried on: few in the suite, many where somebody asks for a long run."""

from hypothesis import HealthCheck, settings

TIMES_MORE = 100


def few(count: int) -> settings:
    """So many examples, or a hundred times as many under `--hypothesis-profile=long`."""
    is_long = settings.get_current_profile_name() == "long"
    return settings(
        max_examples=count * (TIMES_MORE if is_long else 1),
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture, HealthCheck.data_too_large],
    )

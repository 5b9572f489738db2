"""Published tables about learning and waiting that the crew plan must agree with."""

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.crew.learning import exponent, total_share, unit_share
from core.crew.network import Activity, critical_path
from core.errors import CoursewrightError

RATES = (0.70, 0.75, 0.80, 0.85, 0.90)
UNIT_TABLE: dict[int, tuple[tuple[float, float], ...]] = {
    1: ((1.000, 1.000), (1.000, 1.000), (1.000, 1.000), (1.000, 1.000), (1.000, 1.000)),
    2: ((0.700, 1.700), (0.750, 1.750), (0.800, 1.800), (0.850, 1.850), (0.900, 1.900)),
    3: ((0.568, 2.268), (0.634, 2.384), (0.702, 2.502), (0.773, 2.623), (0.846, 2.746)),
    4: ((0.490, 2.758), (0.562, 2.946), (0.640, 3.142), (0.723, 3.345), (0.810, 3.556)),
    5: ((0.437, 3.195), (0.513, 3.459), (0.596, 3.738), (0.686, 4.031), (0.783, 4.339)),
    8: ((0.343, 4.303), (0.422, 4.802), (0.512, 5.346), (0.614, 5.936), (0.729, 6.574)),
    10: ((0.306, 4.932), (0.385, 5.589), (0.477, 6.315), (0.583, 7.116), (0.705, 7.994)),
    12: ((0.278, 5.501), (0.357, 6.315), (0.449, 7.227), (0.558, 8.244), (0.685, 9.374)),
    15: ((0.248, 6.274), (0.325, 7.319), (0.418, 8.511), (0.530, 9.861), (0.663, 11.384)),
    16: ((0.240, 6.514), (0.316, 7.635), (0.410, 8.920), (0.522, 10.383), (0.656, 12.040)),
}


@pytest.mark.parametrize("number", UNIT_TABLE)
def test_the_unit_model_gives_the_textbooks_rows(number: int) -> None:
    """Unit and total time at 70 to 90 %. Source: Heizer & Render, Operations Management, Table E.3, rows read at zookal.com.

    The book prints .5625 as .562 and .7225 as .723, hence the tolerance.
    """
    for rate, (unit, total) in zip(RATES, UNIT_TABLE[number], strict=True):
        assert unit_share("unit", rate, number) == pytest.approx(unit, abs=0.0006)
        assert total_share("unit", rate, number) == pytest.approx(total, abs=0.0006)


def test_exponents_of_the_usual_rates() -> None:
    """b = ln(rate) / ln 2: 80 % -0.3219, 85 % -0.2345, 90 % -0.1520. Source: Heizer & Render, as above; arithmetic."""
    assert [round(exponent(rate), 4) for rate in (0.80, 0.85, 0.90)] == [-0.3219, -0.2345, -0.1520]


def test_the_cumulative_average_model_gives_the_published_table_but_for_its_misprint() -> None:
    """100 h for the first at 80 %. Source: learning-curve table at online.flipbuilder.com (bmcx), page 330.

    It prints 254.76 for the increment from 8 to 16 units; its own totals, 655.36 and 409.6, make it 245.76.
    """
    printed = {1: (100.0, 100.0), 2: (80.0, 160.0), 4: (64.0, 256.0), 8: (51.2, 409.6), 16: (40.96, 655.36)}
    for units, (average, total) in printed.items():
        found = 100 * total_share("cumulative average", 0.8, units)
        assert found == pytest.approx(total, abs=0.005)
        assert found / units == pytest.approx(average, abs=0.005)
    last_eight = 100 * sum(unit_share("cumulative average", 0.8, number) for number in range(9, 17))
    assert last_eight == pytest.approx(245.76, abs=0.005)
    assert last_eight != pytest.approx(254.76, abs=0.005)


def test_the_second_unit_takes_30_hours_where_two_average_40() -> None:
    """50 h for the first at 80 %. Source: learning-curve question at accountingmcqs.com, paper 3."""
    assert 50 * unit_share("cumulative average", 0.8, 2) == pytest.approx(30.0)


def test_the_85_percent_row_is_not_the_80_percent_row() -> None:
    """A published solution labels .583 at n = 10 as 80 %; it is the 85 % value, 80 % is .477 (Stevenson, Table 7S.1)."""
    assert unit_share("unit", 0.80, 10) == pytest.approx(0.477, abs=0.0006)
    assert unit_share("unit", 0.85, 10) == pytest.approx(0.583, abs=0.0006)


def test_the_two_models_differ_at_eight_panels() -> None:
    """5.346 against 4.096 first units at 80 %. Arithmetic from the two tables above."""
    assert total_share("unit", 0.8, 8) == pytest.approx(5.346, abs=0.0006)
    assert total_share("cumulative average", 0.8, 8) == pytest.approx(4.096, abs=0.0006)


TAYLOR = (
    Activity("1-2", 7),
    Activity("1-3", 10),
    Activity("2-4", 6, ("1-2",)),
    Activity("3-4", 5, ("1-3",)),
    Activity("3-5", 4, ("1-3",)),
    Activity("4-5", 3, ("2-4", "3-4")),
    Activity("5-6", 2, ("3-5", "4-5")),
)


def test_the_published_network_takes_20_with_its_slacks() -> None:
    """Seven activities, 20 long along 1-3-4-5-6. Source: Taylor, Introduction to Management Science, chapter 8 solutions."""
    times = critical_path(TAYLOR)
    found = [(t.early_start, t.early_finish, t.late_start, t.late_finish, t.slack) for t in (times[one.name] for one in TAYLOR)]
    assert found == [
        (0, 7, 2, 9, 2),
        (0, 10, 0, 10, 0),
        (7, 13, 9, 15, 2),
        (10, 15, 10, 15, 0),
        (10, 14, 14, 18, 4),
        (15, 18, 15, 18, 0),
        (18, 20, 18, 20, 0),
    ]


@st.composite
def networks(draw: st.DrawFn) -> tuple[Activity, ...]:
    made: list[Activity] = []
    for number in range(draw(st.integers(1, 9))):
        after = tuple(one.name for one in made if draw(st.booleans()))
        made.append(Activity(f"{number}", float(draw(st.integers(0, 9))), after))
    return tuple(made)


@settings(max_examples=50)
@given(activities=networks())
def test_the_whole_takes_as_long_as_the_longest_path(activities: tuple[Activity, ...]) -> None:
    """Against the longest path of a general graph library (networkx), which shares no code with ours."""
    graph = networkx.DiGraph()
    for one in activities:
        graph.add_edge(f"{one.name} begins", f"{one.name} ends", weight=one.duration)
        graph.add_edges_from(((f"{before} ends", f"{one.name} begins") for before in one.after), weight=0)
    times = critical_path(activities)
    longest = max(time.early_finish for time in times.values())
    assert longest == networkx.dag_longest_path_length(graph)
    assert min(time.slack for time in times.values()) == 0


def test_activities_that_wait_in_a_circle_are_named() -> None:
    """Common practice, no published source."""
    with pytest.raises(CoursewrightError, match="circle: "):
        critical_path((Activity("a", 1, ("b",)), Activity("b", 1, ("a",))))

"""Timber, screws, openings and loads held against what handbooks, codes and manuals print."""

from math import floor

import pytest

from core.frame import plan_of
from core.frame.cutlist import spliced
from core.frame.drift import drift_of
from core.frame.figure import Figure
from core.frame.loads import lifting_limit_kg
from core.frame.openings import ESCAPE_AREA_AT_GRADE_MM2, ESCAPE_AREA_MM2, escape_of, gangs_of, plate_width_mm
from core.frame.receptacles import far_stretches
from core.frame.screws import DIAMETERS_IN, Duty, judge, shank_in, ultimate_withdrawal_lb_per_in, withdrawal_lb_per_in
from core.frame.stock import cut_from_stock
from core.frame.tolerance import root_sum_square, worst_case
from core.room import Opening, Room
from core.setout import solve
from core.setout.framing import sole_lift_mm
from core.setout.metric import mount_mm
from core.setout.result import SetOut
from core.setout.timber import opening_timber, plates, regular_centres
from core.timberwork import DEFAULT_SCREWS, DEFAULT_SIZES, FOOT_MM, FOOT_STOCK_MM, INCH_MM, Bore, CoverPlate, Timberwork

SQUARE = ((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0))
SIZES = {size.name: size for size in DEFAULT_SIZES}
SCREWS = {screw.name: screw for screw in DEFAULT_SCREWS}
LB_PER_FT = 0.45359237 / 0.3048


def inches(mm: float) -> float:
    return mm / INCH_MM


def test_studs_are_marked_at_15_and_a_quarter_inches_and_centred_on_16_32_48() -> None:
    """US Navy Builder manual NAVEDTRA 14044, fig. 1-40: first near edge 15 1/4 in from the end, the rest 16 in on centre."""
    centres = regular_centres(16 * INCH_MM, 16 * INCH_MM, 96 * INCH_MM, 1.5 * INCH_MM)
    assert [round(inches(c), 6) for c in centres[1:4]] == [16, 32, 48]
    assert [round(inches(c) - 0.75, 6) for c in centres[1:4]] == [15.25, 31.25, 47.25]


def test_header_is_three_inches_longer_than_the_rough_opening() -> None:
    """Trimmers' inside faces are the rough opening (buildrefs.pages.dev/methods/frame-door-opening); one of 1 1/2 in each side
    carries the header. Arithmetic on that.
    """
    door = Opening(id="d", kind="door", wall=0, left_mm=1000.0, sill_mm=0.0, width_mm=38 * INCH_MM, height_mm=82.5 * INCH_MM)
    room = Room(name="r", corners_mm=SQUARE, clad_height_mm=2440.0, openings=(door,))
    around = opening_timber(room, 0, 1.5 * INCH_MM)
    header = next(t for t in around if t.member == "header")
    trimmers = sorted(t.left_mm for t in around if t.member == "trimmer")
    assert inches(header.width_mm) == pytest.approx(41)
    assert inches(trimmers[1] - trimmers[0]) - 1.5 == pytest.approx(38)


def test_precut_studs_and_three_plates_make_97_and_an_eighth_inches() -> None:
    """Pre-cut studs of 92 5/8 in for an 8 ft wall (stock length page, findanyanswer.com), three 1 1/2 in plates: 97 1/8 in."""
    room = Room(name="r", corners_mm=SQUARE, clad_height_mm=(92.625 + 3.0) * INCH_MM)
    top = next(t for t in plates(room, 0, 1.5 * INCH_MM) if t.member == "top plate")
    sole = next(t for t in plates(room, 0, 1.5 * INCH_MM) if t.member == "sole plate")
    assert inches(top.bottom_mm - sole.height_mm) == pytest.approx(92.625)
    # The third plate doubles the top one.
    assert inches(top.bottom_mm + 2 * top.height_mm) == pytest.approx(97.125)


@pytest.mark.parametrize(
    ("name", "thick", "deep", "pounds"),
    [
        ("2x2", 1.5, 1.5, 0.55),
        ("2x3", 1.5, 2.5, 0.94),
        ("2x4", 1.5, 3.5, 1.28),
        ("2x6", 1.5, 5.5, 2.00),
        ("2x8", 1.5, 7.25, 2.64),
        ("2x10", 1.5, 9.25, 3.37),
        ("2x12", 1.5, 11.25, 4.10),
    ],
)
def test_timber_sizes_are_those_of_the_softwood_standard(name: str, thick: float, deep: float, pounds: float) -> None:
    """PS 20 sizes and weights at 35 lb/ft³, engineeringtoolbox.com softwood dimensions; its 2x3 is 0.03 over b h 35/144."""
    size = SIZES[name]
    assert (inches(size.thickness_mm), inches(size.depth_mm)) == (pytest.approx(thick), pytest.approx(deep))
    assert size.kg_per_m / LB_PER_FT == pytest.approx(pounds)
    assert size.kg_per_m / LB_PER_FT == pytest.approx(thick * deep / 144 * 35, abs=0.035)


def test_yards_sell_even_feet_from_6_to_24() -> None:
    """Stock lengths 6 to 24 ft, 1.83 to 7.32 m (findanyanswer.com, how long is a standard 2x6)."""
    assert [round(length / FOOT_MM) for length in FOOT_STOCK_MM] == list(range(6, 25, 2))
    assert (round(FOOT_STOCK_MM[0] / 1000, 2), round(FOOT_STOCK_MM[-1] / 1000, 2)) == (1.83, 7.32)


WIDTHS = (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200)
COUNTS = (22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20)
DEMAND = {float(width): count for width, count in zip(WIDTHS, COUNTS, strict=True)}


def test_the_published_cutting_stock_takes_73_rolls() -> None:
    """graphsearch.epfl.ch/en/concept/826868 (data, bound 72.7) and math.stackexchange.com/questions/374156 (73, 0.401 %)."""
    plan = cut_from_stock(DEMAND, [5600.0])
    assert plan.needed_mm == 407_160
    assert plan.boards == 73
    assert plan.at_least_mm == 73 * 5600
    assert plan.is_proven
    assert round(plan.waste_share * 100, 3) == 0.401


def test_a_kerf_is_the_same_as_longer_pieces_from_a_longer_stock() -> None:
    """The published instance with 3 mm added to every piece and to the stock is itself with a 3 mm kerf taken back out."""
    plan = cut_from_stock({width - 3: count for width, count in DEMAND.items()}, [5597.0], 3.0)
    assert (plan.boards, plan.is_proven) == (73, True)


@pytest.mark.parametrize(("number", "inch"), [(4, 0.112), (6, 0.138), (8, 0.164), (9, 0.177), (10, 0.190), (12, 0.216)])
def test_numbered_screws_have_their_published_shanks(number: int, inch: float) -> None:
    """Wood-screw diameters 0.112 to 0.216 in, the headings of the NDS withdrawal table."""
    assert shank_in(number) == pytest.approx(inch)


def test_the_published_example_of_withdrawal() -> None:
    """engineeringtoolbox.com, allowable withdrawal of wood screws: G 0.45, #10, prints 109 lb/in; 109.65 before it is cut off."""
    assert 109 <= withdrawal_lb_per_in(0.45, 0.190) < 110


@pytest.mark.parametrize(
    ("gravity", "row"),
    [
        (0.35, (39, 48, 57, 62, 66, 75)),
        (0.43, (59, 73, 86, 93, 100, 114)),
        (0.50, (80, 98, 117, 126, 135, 154)),
        (0.55, (97, 119, 141, 153, 164, 186)),
    ],
)
def test_withdrawal_rows(gravity: float, row: tuple[int, ...]) -> None:
    """W = 2850 G² D, rounded to whole pounds as NDS tables are; rows redone by hand.

    Eq. 6.37 of a handbook read at issuhub.com/view/index?id=4884&pageIndex=189, and engineeringtoolbox.com, wood screws.
    """
    found = tuple(floor(withdrawal_lb_per_in(gravity, shank_in(n)) + 0.5) for n in (4, 6, 8, 9, 10, 12))
    assert found == row


def test_failure_is_five_and_a_half_times_the_allowable_load() -> None:
    """kerfworks.org screw withdrawal calculator, quoting the USDA Wood Handbook: #8 in G 0.70 fails at 1262 lb an inch."""
    assert round(ultimate_withdrawal_lb_per_in(0.70, 0.164)) == 1262
    assert ultimate_withdrawal_lb_per_in(0.5, 0.2) / withdrawal_lb_per_in(0.5, 0.2) == pytest.approx(5.51, abs=0.005)


@pytest.mark.parametrize(("number", "six_mm"), [(4, 17.1), (6, 21.0), (8, 25.0), (10, 29.0)])
def test_screws_go_in_by_six_diameters(number: int, six_mm: float) -> None:
    """American Wood Council FAQ, does the penetration depth factor apply: 6 D, tip included (2001 NDS and later)."""
    assert DIAMETERS_IN * shank_in(number) * INCH_MM == pytest.approx(six_mm, abs=0.06)


@pytest.mark.parametrize(
    ("name", "most", "least"),
    [
        ("#2 flat-head wood screw", 4.37, 3.73),
        ("#4 flat-head wood screw", 5.71, 4.95),
        ("#5 flat-head wood screw", 6.40, 5.59),
        ("#6 flat-head wood screw", 7.09, 6.20),
        ("#8 flat-head wood screw", 8.43, 7.42),
        ("#10 flat-head wood screw", 9.78, 8.64),
        ("M3 countersunk machine screw", 5.5, 5.2),
        ("M3 pan-head machine screw", 6.0, 5.7),
        ("M3 cheese-head machine screw", 5.5, 5.32),
        ("M3.5 cheese-head machine screw", 6.0, 5.82),
    ],
)
def test_heads_are_as_wide_as_printed(name: str, most: float, least: float) -> None:
    """Flat heads: ASME B18.6.1-type table at altak.cn; ISO 7046-2 (fullerfasteners.com), DIN 7985 (fasenco.com), ISO 1207."""
    assert SCREWS[name].head_most_mm == pytest.approx(most, abs=0.01)
    assert SCREWS[name].head_least_mm == pytest.approx(least, abs=0.01)


def test_only_slim_heads_enter_the_counterbore() -> None:
    """From the printed heads: #2 and #4 enter 6.2 mm at their largest, #5 does not, #6 and up never."""
    entering = {name for name, screw in SCREWS.items() if name.startswith("#") and screw.head_most_mm <= Bore().counterbore_mm}
    assert entering == {"#2 flat-head wood screw", "#4 flat-head wood screw"}


def test_a_screw_may_enter_a_stud_by_an_inch_and_a_quarter() -> None:
    """NEC 300.4(A)(1), forums.mikeholt.com/threads/nail-protection-plates.2557649: cable holes 1 1/4 in from the edge."""
    assert Timberwork().cable_clear_mm == pytest.approx(31.75)


def test_a_box_in_a_lining_that_burns_comes_flush() -> None:
    """NEC 314.20: flush in wood or other combustible surfaces; ecmweb.com shows a 16 mm panel's worth needing an extender."""
    outlet = Opening(id="o", kind="outlet", wall=0, left_mm=600.0, sill_mm=300.0, width_mm=50.8, height_mm=76.2)
    plan = plan_of(solve(Room(name="r", corners_mm=SQUARE, clad_height_mm=1980.0, openings=(outlet,))))
    (box,) = plan.boxes
    assert box.forward_mm == pytest.approx(16.0 + 4.0)


def test_a_cover_plate_laps_the_smallest_hole_for_a_device_box() -> None:
    """archtoolbox.com faceplates: 2 3/4 by 4 1/2 in over a 2 by 3 in box; 56 by 76.8 mm cut out leaves 6.9 and 18.75 mm."""
    left = 4.0 + 75 * 8.0 + (56.0 - 50.8) / 2
    outlet = Opening(id="o", kind="outlet", wall=0, left_mm=left, sill_mm=10 * 9.6 + 0.3, width_mm=50.8, height_mm=76.2)
    (box,) = plan_of(solve(Room(name="r", corners_mm=SQUARE, clad_height_mm=1980.0, openings=(outlet,)))).boxes
    assert box.laps_mm == pytest.approx((6.925, 6.925, 18.75, 18.75), abs=0.01)


@pytest.mark.parametrize(("gangs", "width"), [(1, 2.75), (2, 4.5625), (3, 6.375), (4, 8.1875), (5, 10.0), (6, 11.8125)])
def test_cover_plates_by_gangs(gangs: int, width: float) -> None:
    """ANSI/NEMA WD 6 widths at archtoolbox.com; its 4 1/2 in for two gangs is a slip for 4 9/16 (questionitnow.com)."""
    assert inches(plate_width_mm(gangs, CoverPlate())) == pytest.approx(width)
    assert gangs_of(plate_width_mm(gangs, CoverPlate()) - 1.0, CoverPlate()) == gangs


def feet(at: float) -> float:
    return at * FOOT_MM


def test_one_outlet_in_the_middle_serves_twelve_feet() -> None:
    """NEC 210.52(A), forums.mikeholt.com/threads/receptacle-spacing.137016: 12 ft passes; an inch off the middle fails."""
    assert far_stretches((0.0, feet(12)), [feet(6)]) == []
    assert far_stretches((0.0, feet(12)), [feet(6) + INCH_MM]) != []
    assert far_stretches((0.0, feet(24)), [feet(6), feet(18)]) == []


def test_a_wall_under_two_feet_is_no_wall_space() -> None:
    """NEC 210.52(A)(2): a wall space is 2 ft or more."""
    assert far_stretches((0.0, feet(2) - 1), []) == []
    assert far_stretches((0.0, feet(2)), []) == [(0.0, feet(2))]


@pytest.mark.parametrize(("width", "height"), [(20.0, 41.05), (34.25, 24.0), (30.0, 30.0)])
def test_escape_openings_that_pass(width: float, height: float) -> None:
    """IRC R310.2.1: 5.7 ft², 24 in high, 20 in wide, sill 44 in; exact partners 20 by 41.04 in and 34.2 by 24 in."""
    assert escape_of("w", width * INCH_MM, height * INCH_MM, 44 * INCH_MM).shortfalls == ()


def test_the_published_34_by_24_inches_fails() -> None:
    """98905.com/home-safety/escape-routes says 34 by 24 in passes: it is 5.667 ft², under 5.7. At grade (5.0 ft²) it passes."""
    assert len(escape_of("w", 34 * INCH_MM, 24 * INCH_MM, 0.0).shortfalls) == 1
    assert escape_of("w", 34 * INCH_MM, 24 * INCH_MM, 0.0, at_grade=True).shortfalls == ()


def test_all_escape_minima_bind_together() -> None:
    """The same page: 20 by 24 in meets both lengths and is only 3.33 ft². IRC R310.2.2: 44 in of sill, not more."""
    assert len(escape_of("w", 20 * INCH_MM, 24 * INCH_MM, 0.0).shortfalls) == 1
    assert len(escape_of("w", 40 * INCH_MM, 40 * INCH_MM, 44.1 * INCH_MM).shortfalls) == 1


def test_5_7_square_feet_are_0_530_square_metres() -> None:
    """IRC R310.2.1 prints both; a copy of it prints 5 ft² as .0465 m², which is 0.465."""
    assert round(ESCAPE_AREA_MM2 / 1e6, 3) == 0.530
    assert round(ESCAPE_AREA_AT_GRADE_MM2 / 1e6, 3) == 0.465


def test_lifting_example_by_the_multiplier_formulas() -> None:
    """CCOHS, NIOSH horizontal multiplier: 15 kg, H 50, V 75, D 40 cm, fair grip. It prints 10.9 kg with DM .95 for 0.9325."""
    limit = lifting_limit_kg(reach_cm=50, from_cm=75, travel_cm=40, grip="fair")
    assert limit == pytest.approx(10.72, abs=0.005)
    assert limit * 0.95 / 0.9325 == pytest.approx(10.9, abs=0.05)
    assert limit < 15


def test_the_lifting_constant_is_23_kg_and_nothing_is_lifted_out_of_reach() -> None:
    """NIOSH 94-110: RWL is 23 kg in the ideal place, and none beyond 63 cm."""
    assert lifting_limit_kg(reach_cm=25, from_cm=75, travel_cm=25) == pytest.approx(23.0)
    assert lifting_limit_kg(reach_cm=64, from_cm=75, travel_cm=25) == 0


def test_tolerance_stacks() -> None:
    """F. Scholz, Tolerance Stack Analysis Methods, 1995 (ten ± 0.1: 1.0, 0.316); metricmech.com worked example (0.23, 0.126)."""
    assert (worst_case([0.1] * 10), round(root_sum_square([0.1] * 10), 3)) == (pytest.approx(1.0), 0.316)
    gap = [0.10, 0.05, 0.03, 0.05]
    assert (worst_case(gap), round(root_sum_square(gap), 3)) == (pytest.approx(0.23), 0.126)


def test_panels_gain_a_foot_s_difference_on_every_stud() -> None:
    """304.8 mm to the foot (exact), so 12 panels with a 0.8 mm joint are 12 ft: 3657.6 mm. Arithmetic."""
    drift = drift_of(304.0, FOOT_MM, 38.0, 8.0, 8.0)
    assert drift.per_panel.value == pytest.approx(0.8)
    assert 12 * (304.0 + drift.per_panel.value) == pytest.approx(3657.6)
    # By hand: the right screw of panel n stands 8 + 0.8 n mm from its stud's middle, and 11 mm are allowed.
    assert drift.fails_at == 4


def full_panels() -> SetOut:
    return solve(Room(name="r", corners_mm=SQUARE, clad_height_mm=1980.0))


def test_a_full_panel_weighs_699_g_at_the_assumed_share() -> None:
    """304 × 304 × 16 mm are 1478.7 cm³; times 1.05 g (ABS, data.grantadesign.com) and 0.45 (from memory) 699 g. Arithmetic."""
    assert plan_of(full_panels()).loads.by_design["full"] == pytest.approx(0.699, abs=0.0005)


def test_five_pounds_a_square_foot_are_22_newtons_on_a_panel() -> None:
    """awci.org: interior walls take 5 psf sideways; on 304 mm square that is 22.1 N, shared by the full panel's four screws."""
    screws = plan_of(full_panels()).walls[0].screws
    assert screws is not None
    assert screws.duty.pull.value * 4 == pytest.approx(22.1, abs=0.1)


def test_the_ring_under_a_head_is_as_weak_as_reckoned() -> None:
    """π/4 (6.0² - 4.9²) = 9.42 mm² of plastic; at 29.6 MPa (extrusion ABS, data.grantadesign.com) 279 N. Arithmetic."""
    pan = SCREWS["M3 pan-head machine screw"].model_copy(update={"head_least_mm": 6.0})
    nothing = Figure("", 1.0, "N", "", "")
    bore = Bore(hole_mm=4.9, safety=1.0)
    verdict = judge(pan, Duty(nothing, nothing, 4.0, 4.0, 16.0), Timberwork(bore=bore))
    ring = next(figure for figure in verdict.figures if figure.name == "plastic ring under the head")
    assert round(ring.value) == 279


def test_the_lowest_screws_meet_a_lifted_sole_plate() -> None:
    """Holes 3.5 courses up: 33.6 mm, 4.4 mm under the top of a 38 mm plate; 2.5 D of a 3.2 mm screw are 8. From memory (NDS)."""
    setout = full_panels()
    lift_mm = sole_lift_mm(setout.room, 38.0)
    assert lift_mm == 4.0
    lowest = min(mount_mm(setout, mount)[1] for panel in setout.panels for face in panel.faces for mount in face.mounts)
    assert lowest == pytest.approx(33.6)
    assert lowest + 8.0 <= 38.0 + lift_mm


def test_a_plate_longer_than_its_stock_is_butted_over_a_stud() -> None:
    """Plates break over the middle of a stud. Common practice, no published source."""
    assert spliced(7000.0, 4800.0, [1000.0, 3000.0, 4500.0, 6000.0]) == (4500.0, 2500.0)

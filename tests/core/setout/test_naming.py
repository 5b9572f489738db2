"""Names of designs: one name for each, and the same name whatever else changes in the room."""

from core.kit import Rates
from core.room import Room
from core.setout import sketch, solve
from core.setout.bodies import BuiltTo, Candidate, bodies_of
from core.setout.layers import Block, layers_of
from core.setout.naming import CLEAR_SIGNS, names_of
from core.setout.result import SetOut
from core.setout.tariff import tariff_of
from tests.core.setout.rooms import KIT, around_corner, demo, flat


def name(design: BuiltTo) -> str:
    return names_of([design], KIT).by_design[design]


def of_flat(width: int, *blocks: Block, courses: int = 31) -> str:
    (body,) = flat(width, *blocks, courses=courses)
    return name(body.built_to)


def many_shapes() -> set[BuiltTo]:
    """One notch, at every height: 800 shapes, so that their shortest names are bound to meet."""
    found = set()
    for width in (30, 34, 38):
        for left in range(4, width - 8, 2):
            found |= {body.built_to for high in range(1, 31) for body in flat(width, Block(left, left + 3, 0, high))}
    return found


def test_kit_panels_go_by_their_kind() -> None:
    names = [of_flat(38), of_flat(38, courses=15), of_flat(19), of_flat(19, courses=15)]
    assert names == ["full", "half-height", "half-width", "quarter"]


def test_a_closer_is_named_by_its_pitches_and_courses() -> None:
    assert of_flat(20) == "closer 20 x 31"


def test_a_panel_of_one_kit_is_not_named_after_another_s() -> None:
    """So wide and so high it is half a panel's width of the usual kit, and a closer of one without such a width."""
    without_half = KIT.model_copy(update={"widths_pitches": (38,)})
    names = []
    for kit in (KIT, without_half, KIT):
        (body,) = bodies_of(Candidate(layers_of(3, 31), 19, (), None), tariff_of(kit, Rates()))
        names.append(names_of([body.built_to], kit).by_design[body.built_to])
    assert names == ["half-width", "closer 19 x 31", "half-width"]


def test_narrower_widths_of_a_kit_of_three_have_names_of_their_own() -> None:
    kit = KIT.model_copy(update={"widths_pitches": (19, 24, 38)})
    tariff = tariff_of(kit, Rates())
    designs = [bodies_of(Candidate(layers_of(3, 31), width, (), None), tariff)[0].built_to for width in (19, 24, 38)]
    assert len(set(names_of(designs, kit).by_design.values())) == 3


def test_a_panel_under_a_sill_is_told_from_a_whole_one_of_as_many_courses() -> None:
    assert of_flat(20, Block(0, 20, 15, 33)) != of_flat(20, courses=15)


def test_a_corner_is_named_by_its_legs_from_left_to_right() -> None:
    (body,) = around_corner(11, 18)
    assert name(body.built_to) == "corner 11+18 x 31"


def test_eight_hundred_shapes_have_eight_hundred_names() -> None:
    shapes = many_shapes()
    assert len(shapes) >= 800
    assert len(set(names_of(shapes, KIT).by_design.values())) == len(shapes)


def test_shape_names_have_no_sign_that_is_mistaken_for_another() -> None:
    assert not set("01IO") & set(CLEAR_SIGNS)
    assert set(of_flat(38, Block(10, 20, 0, 10)).removeprefix("shaped ")) <= set(CLEAR_SIGNS)


def test_the_order_in_which_designs_are_met_does_not_matter() -> None:
    shapes = sorted(many_shapes(), key=name)
    assert names_of(shapes, KIT) == names_of(reversed(shapes), KIT)


def test_a_shape_keeps_its_name_when_others_join_it() -> None:
    (shape,), (other,), (third,) = flat(38, Block(10, 20, 0, 10)), flat(38, Block(10, 20, 0, 9)), flat(38, Block(5, 20, 0, 10))
    assert names_of([other.built_to, shape.built_to, third.built_to], KIT).by_design[shape.built_to] == name(shape.built_to)


def moved_window(room: Room, by_mm: float) -> Room:
    return room.model_copy(
        update={
            "openings": tuple(
                o.model_copy(update={"left_mm": o.left_mm + by_mm}) if o.id == "window" else o for o in room.openings
            )
        }
    )


def shaped_around_the_outlet(setout: SetOut) -> list[str]:
    return [panel.design for panel in setout.panels if panel.kind == "shaped" and panel.faces[0].wall == 0]


def test_the_shapes_around_the_outlet_keep_their_names_while_the_window_moves() -> None:
    names = [shaped_around_the_outlet(sketch(moved_window(demo(), by_mm))) for by_mm in (0.0, 104.0, 250.0)]
    assert len(names[0]) == 2
    assert names[0] == names[1] == names[2]


def test_all_designs_of_a_room_have_different_names() -> None:
    names = [design.name for design in solve(moved_window(demo(), 77.0)).designs]
    assert len(set(names)) == len(names)

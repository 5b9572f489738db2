"""What rows come to if one more design were set up: the costs of many such designs worked out side by side.

Only a few legs are regarded, those of designs that are set up or under trial, so that all variants of a row take little more
time than one exact division.
"""

from collections.abc import Collection, Iterable, Sequence
from itertools import product

import numpy as np

from core.setout.costs import PlainUse
from core.setout.fillings import within_run
from core.setout.paths import FREE_END
from core.setout.rowview import RowView
from core.setout.shell import Chain
from core.setout.tables import RowOnWall
from core.setout.tariff import UNREACHABLE, Ints, MakeUp, PriceList, Prices
from core.setout.trials import Cheaper, TrialPaths
from core.setout.workshop import RUN_STEP, Workshop

MOST_PAIRS = 1_200
"""Pairs of legs tried at a corner; with more, only pairs of equal legs and those with a leg of the kit."""


def whole(courses: int) -> MakeUp:
    """The make-up of a whole row's panels."""
    return courses, True, True


def with_one_width_more(view: RowView, prices: Prices, made: MakeUp, widths: Sequence[int], legs: Ints) -> Ints:
    """Units of a row with no width more, and with each of ``widths`` of a make-up set up besides: shape (1 + widths,)."""
    at = legs - view.workshop.kit.least_width_pitches
    total = np.zeros(1 + len(widths), dtype=np.int64)
    for chain in view.problem.chains:
        fillings = [_fillings(view.workshop, view.on_wall(wall), prices, (made, *widths), legs) for wall in chain.walls]
        corners = [_corners_by_width(view, wall, prices, made, widths)[:, at[:, None], at] for wall in _cornered(chain)]
        total += _closed(chain, fillings, corners)
    return total


def with_one_corner_more(view: RowView, prices: Prices, pairs: Ints, kinds: Collection[str], legs: Ints) -> Ints:
    """Units of a row with no corner panel more, and with each pair of legs around corners of some kinds set up besides.

    ``pairs`` has shape (n, 2), left and right leg; returns shape (1 + n,).
    """
    least = view.workshop.kit.least_width_pitches
    fixed = np.tile(legs - least, (1 + len(pairs), 1))
    added = np.vstack([fixed[:1, :1].repeat(2, axis=1), pairs - least])
    at = np.hstack([fixed, added])
    total = np.zeros(len(at), dtype=np.int64)
    for chain in view.problem.chains:
        fillings = [_at_legs(view, wall, prices, at) for wall in chain.walls]
        corners = [_corners(view, wall, prices, at, kinds) for wall in _cornered(chain)]
        total += _closed(chain, fillings, corners)
    return total


def partial_makes(view: RowView) -> set[MakeUp]:
    """The make-ups that flat panels above and below the openings of a row can have."""
    makes: set[MakeUp] = set()
    for wall, blocks in enumerate(view.blocks):
        if blocks:
            layers, pitches, _, _, backing, _ = view.on_wall(wall)
            makes |= {use.made for use in view.workshop.tables.wall(layers, pitches, blocks, backing).plain_uses}
    return makes - {whole(view.row.courses)}


def leg_pairs(workshop: Workshop, made: MakeUp) -> Ints:
    """The pairs of legs a corner panel of a make-up could have and the kit has not, shape (n, 2)."""
    legs, kit = [int(leg) for leg in workshop.legs], set(workshop.kit.legs_pitches)
    pairs = [(left, right) for left, right in product(legs, legs)]
    if len(pairs) > MOST_PAIRS:
        pairs = [(left, right) for left, right in pairs if left == right or left in kit or right in kit]
    if workshop.tariff.has_all_layers(made):
        pairs = [pair for pair in pairs if not kit.issuperset(pair)]
    return np.array(pairs, dtype=np.int64).reshape(-1, 2)


def _cornered(chain: Chain) -> Sequence[int]:
    """The walls with a corner to another wall of the chain at their left end."""
    return chain.walls if chain.closed else chain.walls[1:]


def _closed(chain: Chain, fillings: Sequence[Ints], corners: Sequence[Ints]) -> Ints:
    """The cheapest way along a chain by variant; fillings and corners have shape (variants or 1, legs, legs)."""
    joins = list(corners[1:] if chain.closed else corners)
    along = fillings[0]
    for corner, filling in zip(joins, fillings[1:], strict=True):
        along = _product(_product(along, corner), filling)
    if chain.closed:
        along = along + np.swapaxes(corners[0], 1, 2)
    return np.asarray(along.reshape(len(along), -1).min(axis=1))


def _product(left: Ints, right: Ints) -> Ints:
    """Min-plus product of matrices, variant by variant: quick where there are many variants and few legs."""
    best = left[:, :, 0, None] + right[:, 0, None, :]
    for middle in range(1, left.shape[2]):
        np.minimum(best, left[:, :, middle, None] + right[:, middle, None, :], out=best)
    clipped: Ints = np.minimum(best, UNREACHABLE)
    return clipped


def _at_legs(view: RowView, wall: int, prices: Prices, at: Ints) -> Ints:
    """A wall's exact fillings between the legs of every variant."""
    ends = view.filling(wall, prices).leaf.costs
    shell = view.problem.shell.walls[wall]
    none = np.zeros((len(at), 1), dtype=np.int64)
    left, right = (none if end == "free" else at for end in (shell.left, shell.right))
    return np.asarray(ends[left[:, :, None], right[:, None, :]])


def _corners(view: RowView, wall: int, prices: Prices, at: Ints, kinds: Collection[str]) -> Ints:
    """Corner costs between the legs of every variant, its own pair set up."""
    costs = view.corner(wall, prices).costs[at[:, :, None], at[:, None, :]]
    place = view.at_corner(wall)
    if place.kind not in kinds:
        return costs
    made = whole(view.row.courses)
    table = view.workshop.tables.corner(place)
    uses = sum((applies for other, applies in table.corner_uses if other == made), np.zeros(table.cost.shape, dtype=np.int64))
    left, right = at[1:, -2], at[1:, -1]
    costs[np.arange(1, len(at)), -2, -1] -= view.workshop.tables.price_list(prices).corner_each * uses[left, right]
    return costs


def _corners_by_width(view: RowView, wall: int, prices: Prices, made: MakeUp, widths: Sequence[int]) -> Ints:
    """Corner costs by variant and legs: an opening beside a corner can leave a flat panel of a width that is set up."""
    costs = view.corner(wall, prices).costs[None]
    if not view.corner_blocks(wall):
        return costs
    price = view.workshop.tables.price_list(prices)
    by_width = costs.repeat(1 + len(widths), axis=0)
    for use in view.workshop.tables.corner(view.at_corner(wall)).plain_uses:
        if use.made == made:
            charged = use.charge(price)
            for n, width in enumerate(widths):
                by_width[n + 1] -= charged * (use.widths == width)
    return by_width


Trial = tuple[MakeUp, *tuple[int, ...]]
"""A make-up and the widths of it that are tried."""


def _fillings(shop: Workshop, on_wall: RowOnWall, prices: Prices, trial: Trial, legs: Ints) -> Ints:
    """A wall's fillings by variant and legs, shape (1 + widths, left legs, right legs); one variant stands for all where no
    piece could have the make-up.
    """
    left, right = (FREE_END if free else legs for free in on_wall.free_ends)
    if not on_wall.blocks and on_wall.backing.look_up is None and not on_wall.held.anything:
        lengths = on_wall.pitches - left[:, None] - right
        runs = _runs(shop, on_wall, prices, trial if trial[0] == whole(on_wall.layers.courses) else None)
        return np.where(lengths >= 0, runs[:, np.maximum(lengths, 0)], UNREACHABLE)
    table = shop.tables.wall(on_wall.layers, on_wall.pitches, on_wall.blocks, on_wall.backing)
    tried = trial if any(use.made == trial[0] for use in table.plain_uses) else None
    key = "widths", *on_wall[:4], on_wall.backing.key, on_wall.held, prices, tried, legs.tobytes()
    return shop.walls.get(key, lambda: _measured(shop, on_wall, prices, tried, (left, right)))


def _runs(shop: Workshop, on_wall: RowOnWall, prices: Prices, trial: Trial | None) -> Ints:
    """The cheapest open runs by variant and length."""
    longest = -(-on_wall.pitches // RUN_STEP) * RUN_STEP
    least = shop.kit.least_width_pitches

    def make() -> Ints:
        table = within_run(shop.tables.open_run(on_wall.layers, prices), least, longest)
        # In an open run every candidate is one whole panel.
        sizes = np.where(table < UNREACHABLE, np.arange(least, shop.kit.full_width + 1), 0)
        uses = [PlainUse(whole(on_wall.layers.courses), slice(0, longest), sizes, sizes > 0)]
        paths = TrialPaths(table, least, FREE_END, _cheaper(uses, shop.tables.price_list(prices), trial, least))
        return np.asarray(paths.ends(np.arange(longest, -1, -1, dtype=np.int64))[:, 0])

    return shop.walls.get(("width runs", on_wall.layers.courses, longest, prices, trial), make)


def _measured(shop: Workshop, on_wall: RowOnWall, prices: Prices, trial: Trial | None, legs: tuple[Ints, Ints]) -> Ints:
    """The same for a wall with openings, timber or anything held, solved pitch by pitch."""
    least = shop.kit.least_width_pitches
    uses = shop.tables.wall(on_wall.layers, on_wall.pitches, on_wall.blocks, on_wall.backing).plain_uses
    cheaper = _cheaper(uses, shop.tables.price_list(prices), trial, least)
    ends = TrialPaths(shop.tables.whole_wall(on_wall, prices), least, legs[0], cheaper).ends(legs[1])
    held = on_wall.held
    barred = held.bars_left(legs[0])[:, None] | held.bars_right(legs[1], on_wall.pitches)
    return np.where(barred, UNREACHABLE, ends)


def _cheaper(uses: Iterable[PlainUse], price: PriceList, trial: Trial | None, least: int) -> Cheaper:
    """What candidates save by the pieces of the make-up they leave, where a piece has a width on trial."""
    found = [np.zeros((4, 0), dtype=np.int64)]
    if trial is None:
        return Cheaper(0, *found[0])
    made, *widths = trial
    charged = price.plain(made)
    variants = np.zeros(len(charged), dtype=np.int64)
    variants[widths] = np.arange(1, 1 + len(widths))
    for use in uses:
        if use.made == made:
            sizes = use.applies * use.widths
            rows, columns = np.nonzero((charged * (variants > 0))[sizes])
            size = sizes[rows, columns]
            found.append(np.stack([use.rows.start + rows, least + columns, variants[size], charged[size]]))
    return Cheaper(len(widths), *np.concatenate(found, axis=1))

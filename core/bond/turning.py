"""Flat panels turned about their vertical axis: left becomes right, and the room's side the frame's."""

from dataclasses import replace

from core.bond.result import Bond, Fault, Laid, Layer


def turned(bond: Bond) -> Bond:
    """A flat panel's bond seen from its other side."""
    (width,) = bond.legs

    def turn(laid: Laid) -> Laid:
        side = None if laid.side is None else bond.depth - 1 - laid.side
        return replace(laid, at=width - laid.at - laid.length, side=side)

    def turn_layer(layer: Layer) -> Layer:
        parts = sorted((turn(laid) for laid in layer.laid), key=lambda laid: (laid.at, laid.side or 0))
        return replace(layer, laid=tuple(parts))

    def turn_fault(fault: Fault, layer: Layer) -> Fault:
        part = next((laid for laid in layer.laid if laid.at == fault.at and laid.part == fault.part), None)
        return replace(fault, at=width - fault.at - (part.length if part is not None else 0))

    layers = tuple(turn_layer(layer) for layer in bond.layers)
    faults = tuple(
        sorted((turn_fault(f, bond.layers[f.layer]) for f in bond.faults), key=lambda f: (f.layer, f.leg, f.at, f.kind))
    )
    return replace(bond, layers=layers, faults=faults)

"""What pydantic says of a value it refuses, in the reader's language: it speaks English only."""

from pydantic_core import ErrorDetails

from core.language import ENGLISH, marked, spoken, tr, trn

_WISHES = {
    "greater_than": marked("should be greater than {gt:.10g}"),
    "greater_than_equal": marked("should be greater than or equal to {ge:.10g}"),
    "less_than": marked("should be less than {lt:.10g}"),
    "less_than_equal": marked("should be less than or equal to {le:.10g}"),
    "finite_number": marked("should be a finite number"),
    "float_type": marked("should be a valid number"),
    "int_type": marked("should be a whole number"),
    "int_from_float": marked("should be a whole number"),
    "string_type": marked("should be a text"),
    "bool_type": marked("should be true or false"),
    "string_pattern_mismatch": marked("should match the pattern {pattern}"),
    "missing": marked("missing; it must be given"),
}


def fault_words(fault: ErrorDetails) -> str:
    """What is wrong with a value, without the field; as pydantic says it in English, and wherever it has no other words.

    What our own validators say is in the reader's language already.
    """
    kind, given = fault["type"], fault.get("ctx", {})
    if kind == "value_error":
        return fault["msg"].removeprefix("Value error, ")
    if spoken() == ENGLISH:
        return fault["msg"]
    match kind:
        case "string_too_short":
            return trn("should have at least {n} character", "should have at least {n} characters", given["min_length"])
        case "string_too_long":
            return trn("should have at most {n} character", "should have at most {n} characters", given["max_length"])
        case "too_short":
            return trn("should have at least {n} item", "should have at least {n} items", given["min_length"])
        case "too_long":
            return trn("should have at most {n} item", "should have at most {n} items", given["max_length"])
        case "literal_error":
            return tr("should be one of {choices}", choices=given["expected"].replace(" or ", ", "))
        case _:
            return tr(_WISHES[kind], **given) if kind in _WISHES else fault["msg"]

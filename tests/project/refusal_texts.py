"""What is said of typed text that is refused, by the kind of fault: the one place where the tests word it."""

from __future__ import annotations

TEXTS = {
    "empty": "Nothing was typed: type {0}.",
    "below zero": "“{typed}” is below zero: {0} cannot be negative.",
    "zero": "“{typed}” is zero: it must be more than 0 here.",
    "exponent": "“{typed}” is written with an exponent: type the number in full.",
    "over zero": "“{typed}” divides by zero: the lower number of a fraction must be 1 or more.",
    "two slashes": "“{typed}” has too many slashes: a fraction has one.",
    "two fractions": "“{typed}” has two fractions: type one.",
    "other kind": "“{0}” is a unit of {1}, not of length: use in, ft, yd, mm, cm, dm or m.",
    "not a figure": "“{typed}” is not a number that can be measured.",
    "several numbers": "“{typed}” has several numbers: type one at a time.",
    "thousands": "“{typed}” has a thousands separator: do you mean {0}?",
    "no number": "“{typed}” has no number in it.",
    "sum": "“{typed}” contains a sum: work it out and type the result.",
    "sum or fraction": (
        "“{typed}” contains a hyphen: do you mean a sum, or a fraction? Work it out, or type a space instead."
    ),
    "loose hyphen": "“{typed}” has a hyphen in the wrong place: it goes between a whole number and its fraction.",
    "two ways": "“{typed}” can be read in two ways: do you mean {0} or {1}?",
    "decimal signs": "“{typed}” has too many decimal signs.",
    "no decimals": "“{typed}” has a decimal sign with nothing after it.",
    "comma": "“{typed}” has a comma that is not a decimal sign: leave it out.",
    "mixed": "“{typed}” mixes a decimal with a fraction: type one or the other.",
    "raised": "“{typed}” has a raised {0}, as in areas and volumes: type a length.",
    "area": "“{typed}” looks like an area or a volume: type a length.",
    "order": "“{typed}” has its units out of order: type the larger one first, and each only once.",
    "apart": "“{typed}” mixes units that do not go together: use yd, ft and in, or m, dm, cm and mm.",
    "not taken": "“{0}” is not accepted here: use in, ft, yd, mm, cm, dm or m.",
    "early fraction": "“{typed}” has a fraction before its last unit: only the last number may have one.",
    "slip": "“{typed}” looks wrong, because {0} is a whole {1} or more: do you mean {2}?",
    "last number": "“{typed}” does not give the unit of its last number: do you mean {0}?",
    "last number, two": "“{typed}” does not give the unit of its last number: do you mean {0} or {1}?",
    "not exact": "“{typed}” is not exact ({0}): type the number alone.",
    "money": "“{typed}” contains a currency sign ({0}): leave it out.",
    "sign": '“{typed}” contains an unexpected "{0}".',
    "other figure": "“{typed}” contains a digit other than 0 to 9 ({0}): type plain digits.",
    "word first": "“{typed}” starts with a word or a unit: type the number first.",
    "half a fraction": "“{typed}” has an unfinished fraction: type a number on each side of the slash.",
    "not less than one": "“{typed}” has a fraction that is 1 or more: do you mean {0}?",
    "nearly a unit": "“{typed}” has an unknown unit ({0}): do you mean {1}?",
    "not known": "“{0}” is not a known unit: use in, ft, yd, mm, cm, dm or m.",
    "capital M": "“{typed}” has a capital M, which is not a unit of length: do you mean {0}?",
    "megametres": "“{typed}” has a capital M, which makes it millions of metres: do you mean {0}?",
    "line break": "“{typed}” contains a line break: do you mean {0}?",
    "figures": "“{typed}” has a number with {0} digits, and 15 is the most.",
    "figures, meant": "“{typed}” has a number with {0} digits, and 15 is the most: do you mean {1}?",
    "unseen": "It contains an invisible character ({0}): type it again.",
    "too long": "That is {0} characters: type at most 40.",
    "under one": "“{typed}” is under 1: the skirt would be narrower than its rail.",
    "too full": "“{typed}” is too much for a fullness. It can be 1 to 20.",
    "one way": "“{typed}” can be read in two ways: do you mean {0}?",
    "word inside": "“{typed}” contains a word or a unit ({0}): type only {1}.",
    "all there is": "“{typed}” is 100 % or more: type less than 100 %.",
    "not whole": "“{typed}” is not a whole number.",
    "no unit": "“{typed}” has no unit: type it after the number.",
    "fraction of money": "“{typed}” contains a fraction: type money with decimals.",
    "decimals of money": "“{typed}” has {0} decimals: type at most 4.",
    "too much money": "“{typed}” is too large: type at most 12 digits before the decimal sign.",
    "yes or no": "“{typed}” is neither yes nor no.",
    "file exists": "A file “{0}” already exists and was left alone: give the project another name.",
    "file changed": (
        "“{0}” was changed by another program after you opened it here, and was left alone. "
        "Open it again to go on from there."
    ),
    "long name": "That is {0} characters: 200 at most.",
}
"""Kind of fault -> the sentence. `typed` is the text as it is shown; what else is named is numbered."""


def refusal_text(kind: str, typed: str = "", *named: str | int) -> str:
    """The whole sentence."""
    return TEXTS[kind].format(*named, typed=typed)

"""What is said of typed text that is refused, by the kind of fault: the one place where the tests word it."""

from __future__ import annotations

USE = "use in, ft, yd, mm, cm, dm or m."

TEXTS = {
    "empty": "Nothing was typed: {0} is wanted.",
    "below zero": "“{typed}” is below zero: {0} cannot be negative.",
    "zero": "“{typed}” is zero: here it must be more than nothing.",
    "exponent": "“{typed}” is written with an exponent: write the figure out in full.",
    "over zero": "“{typed}” divides by zero: the lower figure of a fraction is 1 or more.",
    "two slashes": "“{typed}” has a slash too many: a fraction has one.",
    "two fractions": "“{typed}” has two fractions: give one.",
    "other kind": "“{0}” is a unit of {1}, not of length: use in, ft, yd, mm, cm, dm or m.",
    "not a figure": "“{typed}” is no figure that can be measured.",
    "several numbers": "“{typed}” has several numbers: give one at a time.",
    "thousands": "“{typed}” has its thousands marked off: is {0} meant?",
    "no number": "“{typed}” has no number in it.",
    "sum": "“{typed}” has a sum in it: work it out and type the answer.",
    "sum or fraction": (
        "“{typed}” has a hyphen in it: is a sum meant, or a fraction? Work it out, or leave a space instead."
    ),
    "loose hyphen": "“{typed}” has a hyphen that joins nothing: it goes between a whole number and its fraction.",
    "two ways": "“{typed}” can be read in two ways: is it {0} or {1}?",
    "decimal signs": "“{typed}” has a decimal sign too many.",
    "no decimals": "“{typed}” has a decimal sign with nothing behind it.",
    "comma": "“{typed}” has a comma that is no decimal sign: leave it out.",
    "mixed": "“{typed}” mixes a decimal with a fraction: give one or the other.",
    "raised": "“{typed}” has a raised {0}, as areas and volumes have: not a length.",
    "area": "“{typed}” reads like an area or a volume: not a length.",
    "order": "“{typed}” has its units out of order: the larger comes first, and each only once.",
    "apart": "“{typed}” joins units that do not go together: yd, ft and in do, and m, dm, cm and mm.",
    "not taken": "“{0}” is a unit that is not taken here: use in, ft, yd, mm, cm, dm or m.",
    "early fraction": "“{typed}” has a fraction before its last unit: only the last number may have one.",
    "slip": "“{typed}” looks like a slip, for {0} is a whole {1} or more: is {2} meant?",
    "last number": "“{typed}” does not say what its last number counts: is {0} meant?",
    "last number, two": "“{typed}” does not say what its last number counts: is it {0} or {1}?",
    "not exact": "“{typed}” is not exact ({0}): type the figure alone.",
    "money": "“{typed}” has a sign of money in it ({0}): leave the sign out.",
    "sign": "“{typed}” has a sign in it that does not belong there ({0}).",
    "other figure": "“{typed}” has a figure other than 0 to 9 in it ({0}): type plain figures.",
    "word first": "“{typed}” has a word or a unit in front: the number comes first.",
    "half a fraction": "“{typed}” has a fraction that is not finished: it takes a figure on either side of the slash.",
    "not less than one": "“{typed}” has a fraction that is not less than one: is {0} meant?",
    "nearly a unit": "“{typed}” has a unit that is not known ({0}): is {1} meant?",
    "not known": "“{0}” is not a unit known here: use in, ft, yd, mm, cm, dm or m.",
    "capital M": "“{typed}” has a capital M, which is no unit of length: is {0} meant?",
    "megametres": "“{typed}” has a capital M, which makes it millions of metres: is {0} meant?",
    "line break": "“{typed}” has a line break in it: is {0} meant?",
    "figures": "“{typed}” has a number of {0} figures, and 15 are the most.",
    "figures, meant": "“{typed}” has a number of {0} figures, and 15 are the most: is {1} meant?",
    "unseen": "There is a character in it that cannot be seen ({0}): type it again.",
    "too long": "That is {0} characters: {1} takes 40 at most.",
    "under one": "“{typed}” is under 1: the skirt would be narrower than its rail.",
    "too full": "“{typed}” is too much for a fullness. It can be 1 to 20.",
    "one way": "“{typed}” can be read in two ways: is {0} meant?",
    "word inside": "“{typed}” has a word or a unit in it ({0}): {1} is wanted.",
    "all there is": "“{typed}” is all there is, or more: less than 100 % is wanted.",
    "not whole": "“{typed}” is not a whole number.",
    "no unit": "“{typed}” has no unit: write it behind the number.",
    "fraction of money": "“{typed}” has a fraction in it: money takes decimals.",
    "decimals of money": "“{typed}” has {0} decimals: money takes 4 at most.",
    "too much money": "“{typed}” is more than can be reckoned with: 12 figures at most.",
    "yes or no": "“{typed}” is neither yes nor no.",
    "length in the file": "Write a length as text with its unit.",
    "number in the file": "Write a number as text between quotes.",
    "percentage in the file": "Write a percentage as text between quotes.",
    "money in the file": "Write money as text between quotes.",
    "long name": "That is {0} characters: 200 at most.",
}
"""Kind of fault -> the sentence. `typed` is the text as it is shown; what else is named is numbered."""


def refusal_text(kind: str, typed: str = "", *named: str | int) -> str:
    """The whole sentence."""
    return TEXTS[kind].format(*named, typed=typed)

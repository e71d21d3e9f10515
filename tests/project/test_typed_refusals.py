"""What is refused where a length is wanted: each with its own sentence, and an example that would be taken."""

import unicodedata
from fractions import Fraction

import pytest

from wizard.project.parse import Misread, read_length

USE = "use in, ft, yd, mm, cm, dm or m."

REFUSED = [
    ("", "Nothing was typed: a length is wanted."),
    ("   ", "Nothing was typed: a length is wanted."),
    ("-5", "“-5” is below zero: a length cannot be negative."),
    ("−5 in", "“−5 in” is below zero: a length cannot be negative."),
    ("– 5", "“- 5” is below zero: a length cannot be negative."),
    ("-1/2", "“-1/2” is below zero: a length cannot be negative."),
    ("-80 1/2 in", "“-80 1/2 in” is below zero: a length cannot be negative."),
    ("- 6' 8\"", "“- 6' 8\"” is below zero: a length cannot be negative."),
    ("0", "“0” is zero: here it must be more than nothing."),
    ("0 in", "“0 in” is zero: here it must be more than nothing."),
    ("0/3", "“0/3” is zero: here it must be more than nothing."),
    ("0.0 cm", "“0.0 cm” is zero: here it must be more than nothing."),
    ("0' 0\"", "“0' 0\"” is zero: here it must be more than nothing."),
    ("1e3", "“1e3” is written with an exponent: write the figure out in full."),
    ("1E3 mm", "“1E3 mm” is written with an exponent: write the figure out in full."),
    ("1e-3", "“1e-3” is written with an exponent: write the figure out in full."),
    ("2.5e2 in", "“2.5e2 in” is written with an exponent: write the figure out in full."),
    ("1e+3", "“1e+3” is written with an exponent: write the figure out in full."),
    ("1/0", "“1/0” divides by zero: the lower figure of a fraction is 1 or more."),
    ("80 1/0", "“80 1/0” divides by zero: the lower figure of a fraction is 1 or more."),
    ("5/00 in", "“5/00 in” divides by zero: the lower figure of a fraction is 1 or more."),
    ("1/2/3", "“1/2/3” has a slash too many: a fraction has one."),
    ("3/4 1/2", "“3/4 1/2” has two fractions: give one."),
    ("½ ½", "“½ ½” has two fractions: give one."),
    ("½¼", "“½¼” has two fractions: give one."),
    ("½/3", "“½/3” has a slash too many: a fraction has one."),
    ("1/½", "“1/½” has a slash too many: a fraction has one."),
    ("8½/2", "“8½/2” has a slash too many: a fraction has one."),
    ("1 1/2 1/2", "“1 1/2 1/2” has two fractions: give one."),
    ("5 kg", f"“kg” is a unit of mass, not of length: {USE}"),
    ("5 lb", f"“lb” is a unit of mass, not of length: {USE}"),
    ("5 min", f"“min” is a unit of time, not of length: {USE}"),
    ("3 s", f"“s” is a unit of time, not of length: {USE}"),
    ("2 acres", f"“acres” is a unit of area, not of length: {USE}"),
    ("5 sq in", f"“sq in” is a unit of area, not of length: {USE}"),
    ("5 square feet", f"“square feet” is a unit of area, not of length: {USE}"),
    ("5 gallons", f"“gallons” is a unit of volume, not of length: {USE}"),
    ("5 degC", f"“degC” is a unit of temperature, not of length: {USE}"),
    ("5 K", f"“K” is a unit of temperature, not of length: {USE}"),
    ("5 radians", f"“radians” is a unit of angle or number, not of length: {USE}"),
    ("5 mph", f"“mph” is a unit of speed, not of length: {USE}"),
    ("5 newtons", f"“newtons” is a unit of force, not of length: {USE}"),
    ("5 joules", f"“joules” is a unit of energy, not of length: {USE}"),
    ("5 watts", f"“watts” is a unit of power, not of length: {USE}"),
    ("5 psi", f"“psi” is a unit of pressure, not of length: {USE}"),
    ("2 amperes", f"“amperes” is a unit of electric current, not of length: {USE}"),
    ("3 moles", f"“moles” is a unit of amount of substance, not of length: {USE}"),
    ("2 candela", f"“candela” is a unit of luminous intensity, not of length: {USE}"),
    ("5 lambda", f"“lambda” is a unit of volume, not of length: {USE}"),
    ("5 pixel", f"“pixel” is a unit of another kind, not of length: {USE}"),
    ("5 volts", f"“volts” is a unit of another kind, not of length: {USE}"),
    ("inf", "“inf” is no figure that can be measured."),
    ("nan", "“nan” is no figure that can be measured."),
    ("infinity in", "“infinity in” is no figure that can be measured."),
    ("-inf", "“-inf” is no figure that can be measured."),
    ("∞", "“∞” is no figure that can be measured."),
    ("NaN cm", "“NaN cm” is no figure that can be measured."),
    ("80 81", "“80 81” has several numbers: give one at a time."),
    ("80 81 82 in", "“80 81 82 in” has several numbers: give one at a time."),
    ("½3", "“½3” has several numbers: give one at a time."),
    ("0/2 80", "“0/2 80” has several numbers: give one at a time."),
    ("1 20 in", "“1 20 in” has several numbers: give one at a time."),
    ("1 200 mm", "“1 200 mm” has its thousands marked off: is 1200 mm meant?"),
    ("12 500 in", "“12 500 in” has its thousands marked off: is 12500 in meant?"),
    ("in", "“in” has no number in it."),
    ('"', '“"” has no number in it.'),
    ("cm", "“cm” has no number in it."),
    ("feet", "“feet” has no number in it."),
    ("'", "“'” has no number in it."),
    ("furlong", "“furlong” has no number in it."),
    ("80+1/2", "“80+1/2” has a sum in it: work it out and type the answer."),
    ("2*3", "“2*3” has a sum in it: work it out and type the answer."),
    ("2x4", "“2x4” has a sum in it: work it out and type the answer."),
    ("2 X 4 in", "“2 X 4 in” has a sum in it: work it out and type the answer."),
    ("80 × 2", "“80 × 2” has a sum in it: work it out and type the answer."),
    ("(80)", "“(80)” has a sum in it: work it out and type the answer."),
    ("=80", "“=80” has a sum in it: work it out and type the answer."),
    ("2^3 in", "“2^3 in” has a sum in it: work it out and type the answer."),
    ("80 ÷ 2", "“80 ÷ 2” has a sum in it: work it out and type the answer."),
    ("80·5", "“80·5” has a sum in it: work it out and type the answer."),
    ("+5", "“+5” has a sum in it: work it out and type the answer."),
    ("80 − 1/2", "“80 − 1/2” has a sum in it: work it out and type the answer."),
    ("80 — 81", "“80 — 81” has a sum in it: work it out and type the answer."),
    (
        "80 - 1/2",
        "“80 - 1/2” has a hyphen in it: is a sum meant, or a fraction? Work it out, or leave a space instead.",
    ),
    ("80-81", "“80-81” has a hyphen in it: is a sum meant, or a fraction? Work it out, or leave a space instead."),
    ("80 -1/2", "“80 -1/2” has a hyphen in it: is a sum meant, or a fraction? Work it out, or leave a space instead."),
    ("80- 1/2", "“80- 1/2” has a hyphen in it: is a sum meant, or a fraction? Work it out, or leave a space instead."),
    ("80-", "“80-” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("80--1/2", "“80--1/2” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("80-1/2-3", "“80-1/2-3” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("6' -8\"", "“6' -8\"” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("6'-", "“6'-” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("80 in-", "“80 in-” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("5-in", "“5-in” has a hyphen that joins nothing: it goes between a whole number and its fraction."),
    ("1,200 mm", "“1,200 mm” can be read in two ways: is it 1200 mm or 1.2 mm?"),
    ("1,200", "“1,200” can be read in two ways: is it 1200 in or 1.2 in?"),
    ("12,500 in", "“12,500 in” can be read in two ways: is it 12500 in or 12.5 in?"),
    ("999,999 m", "“999,999 m” can be read in two ways: is it 999999 m or 999.999 m?"),
    ("6 ft 1,200 in", "“6 ft 1,200 in” can be read in two ways: is it 6 ft 1200 in or 6 ft 1.2 in?"),
    ("1,200.5 mm", "“1,200.5 mm” has its thousands marked off: is 1200.5 mm meant?"),
    ("1.200,5 mm", "“1.200,5 mm” has its thousands marked off: is 1200.5 mm meant?"),
    ("1,200,000 mm", "“1,200,000 mm” has its thousands marked off: is 1200000 mm meant?"),
    ("1.2.3", "“1.2.3” has a decimal sign too many."),
    ("5.", "“5.” has a decimal sign with nothing behind it."),
    ("5, in", "“5, in” has a decimal sign with nothing behind it."),
    (".,5", "“.,5” has a decimal sign too many."),
    ("5..5", "“5..5” has a decimal sign too many."),
    ("5,,5", "“5,,5” has a decimal sign too many."),
    ("1,2,3", "“1,2,3” has a decimal sign too many."),
    ("0,5,5", "“0,5,5” has a decimal sign too many."),
    ("1'200,5.5", "“1'200,5.5” has a decimal sign too many."),
    ("6 ft, 8 in", "“6 ft, 8 in” has a comma that is no decimal sign: leave it out."),
    ("80 , 5", "“80 , 5” has a comma that is no decimal sign: leave it out."),
    (".", "“.” has no number in it."),
    ("...", "“...” has no number in it."),
    ("8.5 1/2", "“8.5 1/2” mixes a decimal with a fraction: give one or the other."),
    ("1.5/2", "“1.5/2” mixes a decimal with a fraction: give one or the other."),
    ("1/2.5", "“1/2.5” mixes a decimal with a fraction: give one or the other."),
    ("8,5½", "“8,5½” mixes a decimal with a fraction: give one or the other."),
    ("80.5-1/2", "“80.5-1/2” mixes a decimal with a fraction: give one or the other."),
    ("5 m²", "“5 m²” has a raised ², as areas and volumes have: not a length."),
    ("5 in³", "“5 in³” has a raised ³, as areas and volumes have: not a length."),
    ("5 m2", "“5 m2” reads like an area or a volume: not a length."),
    ("3 cm3", "“3 cm3” reads like an area or a volume: not a length."),
    ("8 in 6 ft", "“8 in 6 ft” has its units out of order: the larger comes first, and each only once."),
    ("6 ft 6 ft", "“6 ft 6 ft” has its units out of order: the larger comes first, and each only once."),
    ("6'8'", "“6'8'” has its units out of order: the larger comes first, and each only once."),
    ("5' 6' 7\"", "“5' 6' 7\"” has its units out of order: the larger comes first, and each only once."),
    ("5 mm 2 cm", "“5 mm 2 cm” has its units out of order: the larger comes first, and each only once."),
    ("6 ft 20 cm", "“6 ft 20 cm” joins units that do not go together: yd, ft and in do, and m, dm, cm and mm."),
    ("1 m 6 in", "“1 m 6 in” joins units that do not go together: yd, ft and in do, and m, dm, cm and mm."),
    ("1 furlong 2 in", f"“furlong” is a unit that is not taken here: {USE}"),
    ("2 in 1 furlong", f"“furlong” is a unit that is not taken here: {USE}"),
    ("6.5 ft 3 in", "“6.5 ft 3 in” has a fraction before its last unit: only the last number may have one."),
    ("6 1/2 ft 3 in", "“6 1/2 ft 3 in” has a fraction before its last unit: only the last number may have one."),
    ("½ yd 2 in", "“½ yd 2 in” has a fraction before its last unit: only the last number may have one."),
    ("6' 14\"", "“6' 14\"” looks like a slip, for 14 in is a whole ft or more: is 86 in meant?"),
    ("2 m 145 cm", "“2 m 145 cm” looks like a slip, for 145 cm is a whole m or more: is 345 cm meant?"),
    ("1 yd 40 in", "“1 yd 40 in” looks like a slip, for 40 in is a whole yd or more: is 76 in meant?"),
    ("6 ft 12", "“6 ft 12” looks like a slip, for 12 in is a whole ft or more: is 84 in meant?"),
    ("2 yd 6", "“2 yd 6” does not say what its last number counts: is 2 yd 6 in meant?"),
    ("2 m 4", "“2 m 4” does not say what its last number counts: is it 2 m 4 cm or 2 m 4 mm?"),
    ("1m50", "“1m50” does not say what its last number counts: is it 1m50 cm or 1m50 mm?"),
    ("2 yd 40", "“2 yd 40” has several numbers: give one at a time."),
    ("2 mm 4", "“2 mm 4” has several numbers: give one at a time."),
    ("2 in 4", "“2 in 4” has several numbers: give one at a time."),
    ("≈ 80 in", "“≈ 80 in” is not exact (≈): type the figure alone."),
    ("~80", "“~80” is not exact (~): type the figure alone."),
    ("<80", "“<80” is not exact (<): type the figure alone."),
    ("±5 in", "“±5 in” is not exact (±): type the figure alone."),
    ("> 3 ft", "“> 3 ft” is not exact (>): type the figure alone."),
    ("$5", "“$5” has a sign of money in it ($): leave the sign out."),
    ("80 €", "“80 €” has a sign of money in it (€): leave the sign out."),
    ("£3 in", "“£3 in” has a sign of money in it (£): leave the sign out."),
    ("5%", "“5%” has a sign in it that does not belong there (%)."),
    ("80#", "“80#” has a sign in it that does not belong there (#)."),
    ("80!", "“80!” has a sign in it that does not belong there (!)."),
    ("80:5", "“80:5” has a sign in it that does not belong there (:)."),
    ("1;2", "“1;2” has a sign in it that does not belong there (;)."),
    ("5 °C", "“5 °C” has a sign in it that does not belong there (°)."),
    ("[bold]80[/bold]", "“[bold]80[/bold]” has a sign in it that does not belong there ([)."),
    ("{80}", "“{80}” has a sign in it that does not belong there ({)."),
    ("80 in?", "“80 in?” has a sign in it that does not belong there (?)."),
    ("80\\2", "“80\\2” has a sign in it that does not belong there (\\)."),
    ("５", "“５” has a figure other than 0 to 9 in it (５): type plain figures."),
    ("８０ in", "“８０ in” has a figure other than 0 to 9 in it (８): type plain figures."),
    ("٣", "“٣” has a figure other than 0 to 9 in it (٣): type plain figures."),
    ("Ⅷ", "“Ⅷ” has a figure other than 0 to 9 in it (Ⅷ): type plain figures."),
    ("⁸⁄₁₀", "“⁸/₁₀” has a figure other than 0 to 9 in it (⁸): type plain figures."),
    ("①", "“①” has a figure other than 0 to 9 in it (①): type plain figures."),
    ("in 5", "“in 5” has a word or a unit in front: the number comes first."),
    ("cm 12", "“cm 12” has a word or a unit in front: the number comes first."),
    ('"80 1/2"', '“"80 1/2"” has a word or a unit in front: the number comes first.'),
    ("about 80", "“about 80” has a word or a unit in front: the number comes first."),
    ("L 80", "“L 80” has a word or a unit in front: the number comes first."),
    ("1/", "“1/” has a fraction that is not finished: it takes a figure on either side of the slash."),
    ("/2", "“/2” has a fraction that is not finished: it takes a figure on either side of the slash."),
    ("80 1/", "“80 1/” has a fraction that is not finished: it takes a figure on either side of the slash."),
    ("3/4/", "“3/4/” has a fraction that is not finished: it takes a figure on either side of the slash."),
    ("7 /", "“7 /” has a fraction that is not finished: it takes a figure on either side of the slash."),
    ("5 in/2", "“5 in/2” has a fraction that is not finished: it takes a figure on either side of the slash."),
    ("/", "“/” has no number in it."),
    ("80 5/4", "“80 5/4” has a fraction that is not less than one: is 81 1/4 in meant?"),
    ("80 4/4", "“80 4/4” has a fraction that is not less than one: is 81 in meant?"),
    ("3 3/2 ft", "“3 3/2 ft” has a fraction that is not less than one: is 4 1/2 ft meant?"),
    ("80-9/8", "“80-9/8” has a fraction that is not less than one: is 81 1/8 in meant?"),
    ("5 foo", "“5 foo” has a unit that is not known (foo): is 5 foot meant?"),
    ("5 foo bar", f"“foo bar” is not a unit known here: {USE}"),
    ("5 inch mattress", f"“inch mattress” is not a unit known here: {USE}"),
    ("5 pins", f"“pins” is not a unit known here: {USE}"),
    ("5 kin", f"“kin” is not a unit known here: {USE}"),
    ("5 ells", f"“ells” is not a unit known here: {USE}"),
    ("5 ft_", f"“ft_” is not a unit known here: {USE}"),
    ("5 in in", f"“in in” is not a unit known here: {USE}"),
    ("5 _", f"“_” is not a unit known here: {USE}"),
    ("1_000", f"“_” is not a unit known here: {USE}"),
    ("5 True", f"“True” is not a unit known here: {USE}"),
    ("0x1F", "“0x1F” has a sum in it: work it out and type the answer."),
    ("5 bed", f"“bed” is not a unit known here: {USE}"),
    ("5 дюйм", f"“дюйм” is not a unit known here: {USE}"),
    ("5 ' \"", f"“' \"” is not a unit known here: {USE}"),
    ("5 cm/s", f"“s” is a unit of time, not of length: {USE}"),
    ("5 survey feet", f"“survey feet” is not a unit known here: {USE}"),
    ("2 survey_foot", f"“survey_foot” is a unit that is not taken here: {USE}"),
    ("5 US survey feet", f"“US survey feet” is not a unit known here: {USE}"),
    ("5 M", "“5 M” has a capital M, which is no unit of length: is 5 m meant?"),
    ("5 Mm", "“5 Mm” has a capital M, which makes it millions of metres: is 5 mm meant?"),
    ("2 m 5 Mm", "“2 m 5 Mm” has a capital M, which makes it millions of metres: is 2 m 5 mm meant?"),
    ("5 mM", "“5 mM” has a capital M, which is no unit of length: is 5 mm meant?"),
    ("5 inchs", "“5 inchs” has a unit that is not known (inchs): is 5 inches meant?"),
    ("5 centimetrs", "“5 centimetrs” has a unit that is not known (centimetrs): is 5 centimetres meant?"),
    ("5 am", f"“am” is a unit that is not taken here: {USE}"),
    ("5 fm", f"“fm” is a unit that is not taken here: {USE}"),
    ("5 nm", f"“nm” is a unit that is not taken here: {USE}"),
    ("5 µm", f"“µm” is a unit that is not taken here: {USE}"),
    ("5 parsec", f"“parsec” is a unit that is not taken here: {USE}"),
    ("5 ly", f"“ly” is a unit that is not taken here: {USE}"),
    ("5 bohr", f"“bohr” is a unit that is not taken here: {USE}"),
    ("3 picas", f"“picas” is a unit that is not taken here: {USE}"),
    ("4 hands", f"“hands” is a unit that is not taken here: {USE}"),
    ("1 nautical mile", f"“nautical mile” is a unit that is not taken here: {USE}"),
    ("1 MILE", f"“MILE” is a unit that is not taken here: {USE}"),
    ("5 mi", f"“mi” is a unit that is not taken here: {USE}"),
    ("00,500 in", "“00,500 in” can be read in two ways: is it 500 in or 0.5 in?"),
    ("12,3456 in", "“12,3456 in” can be read in two ways: is it 123456 in or 12.3456 in?"),
    ("6 ft 8/5", "“6 ft 8/5” has a fraction that is not less than one: is 6 ft 1 3/5 meant?"),
    ("6 ft\n8 in", "“6 ft 8 in” has a line break in it: is 6 ft 8 in meant?"),
    ("1" * 18 + " in", f"“{'1' * 18} in” has a number of 18 figures, and 15 are the most."),
    (f"0.{'3' * 16} cm", f"“0.{'3' * 16} cm” has a number of 16 figures, and 15 are the most: is 0.3333 cm meant?"),
    (f"1/{'9' * 18} in", f"“1/{'9' * 18} in” has a number of 18 figures, and 15 are the most."),
    ("eighty", "“eighty” has no number in it."),
    ("five feet", "“five feet” has no number in it."),
    ("None", "“None” has no number in it."),
    ("__import__('os')", "“__import__('os')” has no number in it."),
    ("os.system", "“os.system” has no number in it."),
    ("lambda", "“lambda” has no number in it."),
    ("\x1b[31m80", "There is a character in it that cannot be seen (U+001B): type it again."),
    ("80\x00", "There is a character in it that cannot be seen (U+0000): type it again."),
    ("80\u200b in", "There is a character in it that cannot be seen (U+200B): type it again."),
    ("\ufeff80", "There is a character in it that cannot be seen (U+FEFF): type it again."),
    ("80\ud800", "There is a character in it that cannot be seen (U+D800): type it again."),
    ("80\u202e in", "There is a character in it that cannot be seen (U+202E): type it again."),
    ("5\u0301x\x7f", "There is a character in it that cannot be seen (U+007F): type it again."),
    ("9" * 41, "That is 41 characters: a length takes 40 at most."),
    ("8" * 60 + " in", "That is 60 characters: a length takes 40 at most."),
    ("80 " + "x" * 60, "That is 61 characters: a length takes 40 at most."),
    ("1" * 5000, "That is 5000 characters: a length takes 40 at most."),
]


def refusal(text: str, unit: str | None = "in") -> Misread:
    with pytest.raises(Misread) as caught:
        read_length(text, unit)
    return caught.value


def settles(text: str) -> bool:
    """True when `text` is taken, or every offer made for it is."""
    try:
        return bool(read_length(text, None))
    except Misread as misread:
        return bool(misread.readings) and all(settles(each) for each in misread.readings)


def name(text: str) -> str:
    return ascii(text[:20])


@pytest.mark.parametrize(("typed", "sentence"), REFUSED, ids=[name(typed) for typed, _ in REFUSED])
def test_a_bad_length_is_refused_with_its_sentence_and_an_example(typed: str, sentence: str) -> None:
    misread = refusal(typed)

    assert misread.sentence == sentence
    assert settles(misread.example)


MAGNITUDES = ["3", "80 1/2", "80½", "12.75", "12,75", "7/8"]
UNITS_OF_OTHER_KINDS = {
    "mass": ["g", "kilograms", "ounces", "pounds", "tonnes", "stone"],
    "time": ["h", "hours", "days", "weeks", "ms"],
    "area": ["hectares", "acre"],
    "volume": ["litres", "ml", "pints", "quarts"],
}
OF_OTHER_KINDS = [
    (f"{MAGNITUDES[place % 6]} {unit}", f"“{unit}” is a unit of {kind}, not of length: {USE}")
    for kind, units in UNITS_OF_OTHER_KINDS.items()
    for place, unit in enumerate(units)
]
BELOW_ZERO = [
    (f"{sign}{number} cm", f"“{kept}{number} cm” is below zero: a length cannot be negative.")
    for sign, kept in (("-", "-"), ("−", "−"), ("—", "—"), ("‐", "-"))
    for number in MAGNITUDES
]
EXPONENTS = [
    (f"{front}{letter}{power}{unit}", f"“{front}{letter}{power}{unit}” {sentence}")
    for front in ("1", "2.5", "2,5")
    for letter in "eE"
    for power in ("3", "-3", "+03")
    for unit in ("", " mm")
    for sentence in ["is written with an exponent: write the figure out in full."]
]
OVER_ZERO = [
    (
        f"{front}{upper}/{lower}",
        f"“{front}{upper}/{lower}” divides by zero: the lower figure of a fraction is 1 or more.",
    )
    for front in ("", "80 ", "6' 8 ")
    for upper in ("1", "0")
    for lower in ("0", "000")
]
OTHER_FIGURES = [
    (f"8{figure} in", f"“8{figure} in” has a figure other than 0 to 9 in it ({figure}): type plain figures.")
    for figure in "०৪៣๕༥੩₂⁵𝟗〇" + unicodedata.lookup("FULLWIDTH DIGIT SEVEN") + "Ⅻ"
    if unicodedata.category(figure) != "Lo"
]
UNSEEN = [
    (f"8{chr(code)}0 in", f"There is a character in it that cannot be seen (U+{code:04X}): type it again.")
    for code in [*range(0x00, 0x09), *range(0x0E, 0x1C), 0x7F, 0xAD, 0x200D, 0x2060, 0x2066, 0xE000, 0xDFFF]
]
TOO_LONG = [
    (character * count, f"That is {count} characters: a length takes 40 at most.")
    for character in "5-½"
    for count in (41, 99, 100_000)
]
TWO_WAYS = [
    (f"{front},{back} mm", f"“{front},{back} mm” can be read in two ways: is it {front}{back} mm or {small} mm?")
    for front in ("1", "12", "204")
    for back, small in (("005", f"{front}.005"), ("250", f"{front}.25"), ("000", front))
]
MONEY = [(f"{sign}80", f"“{sign}80” has a sign of money in it ({sign}): leave the sign out.") for sign in "¥₹₤¢₩"]
GENERATED = [
    *OF_OTHER_KINDS,
    *BELOW_ZERO,
    *EXPONENTS,
    *OVER_ZERO,
    *OTHER_FIGURES,
    *UNSEEN,
    *TOO_LONG,
    *TWO_WAYS,
    *MONEY,
]


@pytest.mark.parametrize(("typed", "sentence"), GENERATED, ids=[name(typed) for typed, _ in GENERATED])
def test_each_kind_of_bad_length_is_refused_however_it_is_made_up(typed: str, sentence: str) -> None:
    assert refusal(typed).sentence == sentence


def test_well_over_two_hundred_bad_lengths_are_tried() -> None:
    assert len({typed for typed, _ in REFUSED}) > 200
    assert len({typed for typed, _ in GENERATED}) > 100


@pytest.mark.parametrize("unit", ["in", "ft", "yd", "mm", "cm", "dm", "m", None])
def test_the_example_is_in_the_unit_of_the_job_and_would_be_taken(unit: str) -> None:
    example = refusal("nonsense", unit).example

    assert read_length(example, None) > read_length("1 in", None)
    assert unit is None or example.endswith(unit) or unit == "ft"


def test_both_readings_of_a_comma_are_offered_and_each_is_taken() -> None:
    misread = refusal("1,200 mm")

    assert misread.readings == ("1200 mm", "1.2 mm")
    assert [read_length(each, "in").mm for each in misread.readings] == [1200, Fraction(6, 5)]


def test_the_readings_of_a_bare_number_name_the_unit_of_the_job() -> None:
    assert refusal("1,200", "cm").readings == ("1200 cm", "1.2 cm")


@pytest.mark.parametrize(("typed", "_"), [row for row in REFUSED + GENERATED if refusal(row[0]).readings])
def test_whatever_is_offered_instead_is_taken_or_asked_about_in_its_turn(typed: str, _: str) -> None:
    assert all(settles(each) for each in refusal(typed).readings)


def test_a_length_that_must_carry_its_unit_is_refused_without_one() -> None:
    assert refusal("80 1/2", None).sentence == "“80 1/2” has no unit: write it behind the number."


def test_the_sentence_and_its_example_make_one_text() -> None:
    misread = refusal("5 kg")

    assert str(misread) == f"“kg” is a unit of mass, not of length: {USE} For example: 12 1/2 in"


def test_a_question_with_its_readings_needs_no_further_example() -> None:
    assert str(refusal("1,200 mm")) == refusal("1,200 mm").sentence

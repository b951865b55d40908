"""Numbers in words, as a brewer says them before a unit: a half, a couple of, one and a half, ninety."""

_SPOKEN: dict[str, float] = {
    "half": 0.5,
    "half a": 0.5,
    "a half": 0.5,
    "half an": 0.5,
    "a quarter of a": 0.25,
    "a": 1,
    "an": 1,
    "another": 1,
    "a full": 1,
    "the full": 1,
    "a whole": 1,
    "a couple of": 2,
    "a couple": 2,
    "couple of": 2,
    "a few": 3,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "fourteen": 14,
    "fifteen": 15,
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "forty-five": 45,
    "sixty": 60,
    "seventy-five": 75,
    "ninety": 90,
}
SPOKEN = _SPOKEN | {f"{word} and a half": number + 0.5 for word, number in _SPOKEN.items() if 1 <= number <= 10}
"""Numbers in words, which count before a unit only, or before the name of what is counted."""
IN_WORDS = rf"(?:{'|'.join(sorted(SPOKEN, key=len, reverse=True)).replace(' ', chr(92) + 's+')})(?=\s)"
"""A pattern for every number in words."""

"""What is the same name: case, accents, punctuation, plurals, spelling and the trade's synonyms, taken out of it."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from unicodedata import combining, normalize

Words = tuple[str, ...]

SPELLINGS = {
    "barleywine": "barley wine",
    "blond": "blonde",
    "color": "colour",
    "flavor": "flavour",
    "gelatin": "gelatine",
    "harmony": "harmonie",
    "huell": "hull",
    "koelsch": "kolsch",
    "licorice": "liquorice",
    "maerzen": "marzen",
    "mittelfrueh": "mittelfruh",
    "mount": "mt",
    "pilsener": "pilsner",
    "torrified": "torrefied",
}
"""Two spellings of one word; after accents and before plurals are taken off."""

_LETTERS = str.maketrans({"ø": "o", "ł": "l", "đ": "d", "æ": "ae", "œ": "oe", "'": "", "’": "", "`": ""})
_LOVIBOND = re.compile(r"\b(\d+)[\s°-]*(?:l|lovibond)\b")
_EBC = re.compile(r"\b(\d+)[\s°-]*ebc\b")


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """What words mean on one shelf.

    ``synonyms`` gives what a word stands for; ``omitted`` are words that a name has and a brewer leaves out,
    ``added`` words that a brewer adds to any name, and ``aside`` those that set nothing apart where no name has them.
    """

    synonyms: Mapping[str, str] = field(default_factory=dict)
    omitted: frozenset[str] = frozenset()
    added: frozenset[str] = frozenset()
    aside: frozenset[str] = frozenset()

    def words(self, name: str) -> Words:
        """The words of a name in their order, each in its plain form.

        >>> Vocabulary({"crystal": "caramel"}).words("Crystal Malts, 60°L")
        ('caramel', 'malt', '60')
        """
        text = name.casefold()
        if not text.isascii():
            text = "".join(letter for letter in normalize("NFKD", text) if not combining(letter))
        text = _EBC.sub(r"\1ebc", _LOVIBOND.sub(r"\1", text.translate(_LETTERS)))
        found: list[str] = []
        for word in re.findall(r"[^\W_]+", text):
            one = _singular(word)
            plain = SPELLINGS.get(one, one)
            found += self.synonyms.get(plain, plain).split()
        return tuple(_singular(word) for word in found)

    def core(self, words: Words) -> frozenset[str]:
        """The words that tell one thing of this shelf from another."""
        return frozenset(words) - self.omitted - self.added


def _singular(word: str) -> str:
    """A word without its plural; the same mistake is made on both sides, so `molasses` may lose its s.

    >>> _singular("hops"), _singular("berries"), _singular("moss"), _singular("oats")
    ('hop', 'berry', 'moss', 'oat')
    """
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _all(words: str) -> frozenset[str]:
    return frozenset(map(_singular, words.split()))


PRAISE = _all(
    "any bio best decent finest fresh local good heirloom heritage homegrown my organic our own plain premium pure"
    " quality some the whatever your"
)
"""An author's adjectives that make another thing of nothing."""

LANDS = _all(
    "american australian austrian bavarian belgian bohemian british canadian czech danish dutch english finnish french"
    " german irish moravian norwegian polish scottish slovenian uk us usa swedish"
)
"""Where a thing was made, which sets apart only what a name says it of."""

BARLEYS = _all(
    "maris otter golden promise halcyon optic pearl propino flagon concerto tipple laureate planet chevallier plumage"
    " barke steffi hana harrington metcalfe copeland"
)
"""Varieties of malting barley, each word of them."""

VOCABULARIES: dict[str, Vocabulary] = {
    "malts": Vocabulary(
        synonyms={
            "2": "two",
            "6": "six",
            "corn": "maize",
            "crystal": "caramel",
            "flake": "flaked",
            "roast": "roasted",
            "viennese": "vienna",
        },
        omitted=frozenset({"malt"}),
        added=frozenset({"grain"}),
        aside=PRAISE
        | LANDS
        | BARLEYS
        | _all("floor malted crushed uncrushed milled unmilled whole toasted traditional two row"),
    ),
    "sugars": Vocabulary(
        omitted=frozenset({"sugar"}),
        added=frozenset({"sugar"}),
        aside=PRAISE | LANDS | _all("raw runny set unrefined"),
    ),
    "fruits": Vocabulary(
        synonyms={"tart": "sour", "mangoe": "mango", "peache": "peach", "kiwi": "kiwi fruit"},
        omitted=frozenset({"fruit", "flesh"}),
        added=frozenset(
            {
                "fruit",
                "puree",
                "pulp",
                "pureed",
                "frozen",
                "fresh",
                "ripe",
                "organic",
                "pitted",
                "stoned",
                "unsweetened",
            }
            | {"whole", "crushed", "chopped", "sliced", "peeled", "mashed", "cloudy", "pressed", "pasteurised", "of"}
            | {"canned", "tinned", "tin", "can", "cooked", "roasted", "aseptic", "freshly", "home", "made"}
        ),
    ),
    "extracts": Vocabulary(
        synonyms={
            "dme": "dried malt extract",
            "lme": "liquid malt extract",
            "dry": "dried",
            "spray": "dried extract",
            "spraymalt": "dried malt extract",
            "powdered": "dried",
        },
        omitted=frozenset({"malt"}),
        aside=PRAISE | LANDS | frozenset({"hopped", "unhopped"}),
    ),
    "hops": Vocabulary(
        synonyms={"hallertauer": "hallertau"},
        added=frozenset({"hop", "pellet", "cone", "leaf", "whole"}),
        aside=(PRAISE - {"fresh"}) | LANDS | _all("dried noble t 90 t90 aged"),
    ),
    "yeasts": Vocabulary(
        synonyms={"lacto": "lactobacillus", "brett": "brettanomyces"},
        omitted=frozenset({"yeast", "style", "type"}),
        added=frozenset({"yeast", "strain", "style", "type"}),
        aside=PRAISE
        | LANDS
        | _all("active beer culture gluten free dry dried liquid harvested repitched washed cropped rehydrated flake"),
    ),
    "styles": Vocabulary(omitted=frozenset({"beer"}), added=frozenset({"beer", "style"})),
    "finings": Vocabulary(
        omitted=frozenset({"seed", "pod", "stick", "peel"}),
        added=frozenset(
            {"dried", "fresh", "ground", "grated", "whole", "crushed", "chopped", "cracked", "toasted", "toast", "of"}
            | {"tablet"}
            | {"light", "medium", "heavy", "coarsely", "finely", "freshly", "lightly", "roasted", "french", "american"}
            | {"powdered", "hungarian", "organic", "unwaxed", *"123456"}
        ),
        aside=_all("small large big"),
    ),
    "waters": Vocabulary(
        synonyms={"ro": "reverse osmosis", "deionized": "deionised", "demineralized": "demineralised"},
        omitted=frozenset({"water", "tap"}),
        added=frozenset({"water"}),
    ),
    "salts": Vocabulary(
        synonyms={"sulphate": "sulfate", "metabisulphite": "metabisulfite"},
        omitted=frozenset({"salt"}),
        added=frozenset({"food", "grade"}),
    ),
    "allergens": Vocabulary(),
    "acids": Vocabulary(omitted=frozenset({"acid"}), added=frozenset({"acid", "food", "grade"})),
}
"""The words of each shelf. `malt` is never added: flaked barley malt is not flaked barley."""

"""The cautions, in the order of the brew. They give way to makers' instructions, local law and licensed practice."""

from __future__ import annotations

from gristbook.targets.advice.caution import Caution

AID = {"scald": "a scald", "splash": "a splash in the eye", "gas": "breathing gas", "cut": "broken glass"}
"""What may happen to somebody, by its place on the page of cautions, which says what to do then."""

HOPS_AND_DOGS = "Hops can kill a dog: sweep up what you spill, and keep the spent ones where no dog can reach them."

CARE_HERE = "{care}"
"""Stands in a row's words for what the pantry says that may hurt in a brew's fruit."""

CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "A starter makes gas and is never sealed: foil laid loosely over it, or an airlock. Boil its wort in a pot "
        "and let it cool there: hot wort breaks a jar, and boiling wort in a flask jumps out of its neck.",
        ("starter",),
        aid="scald",
        rank="grave",
    ),
    Caution(
        "Grain dust harms the lungs and can go up in a flash: crush outdoors or in a mask, away from flames.",
        ("crush",),
        rank="grave",
    ),
    Caution(
        "Keep fingers, hair and sleeves out of the rollers, and pull the plug before you free a stuck mill.",
        ("crush",),
    ),
    Caution(
        "Caustic cleaners and strong acids burn skin and eyes: gloves and goggles on, and pour them into water, never "
        "water into them.",
        ("clean",),
        aid="splash",
        rank="grave",
    ),
    Caution(
        "Never let bleach meet acid, ammonia or a peracetic sanitiser: the gas is poisonous. One product at a time, "
        "rinsed away before the next, as its maker directs.",
        ("clean",),
        aid="gas",
        rank="grave",
    ),
    Caution(
        "Nothing of lead, and nothing galvanised: wort is acid and takes up what poisons. A brass fitting is all "
        "right once its new surface, which holds lead, has been pickled; never leave acid standing on it.",
        ("clean",),
    ),
    Caution(
        "Metabisulfite and acids give off sharp fumes: air the room, keep your face away, and leave this to somebody "
        "else if you have asthma or react to sulfites.",
        ("water",),
        rank="grave",
    ),
    Caution(
        "Weigh salts and metabisulfite in grams, on a scale that shows tenths or better: an ounce for a gram is "
        "twenty-eight times too much, and can make people ill.",
        ("water",),
    ),
    Caution(
        "A free-standing gas or charcoal burner belongs outdoors, level and steady: it makes carbon monoxide, which "
        "nobody can smell. A kitchen's own gas hob wants its extractor on or a window open, and a licensed fitter.",
        ("heat", "steep", "boil"),
        short="A burner outdoors; a gas hob with a window open.",
        aid="gas",
        rank="day",
    ),
    Caution(
        "Mains electricity and water: a socket with a residual-current device, dry hands, and no element ever run dry. "
        "Wiring is work for a licensed electrician.",
        ("heat", "steep", "boil"),
        rank="day",
    ),
    Caution(
        "Hot water, mash and wort all scald: long sleeves, gloves and closed shoes, and no children or animals near.",
        ("heat", "steep", "mash", "sparge", "drain", "boil"),
        aid="scald",
        rank="day",
    ),
    Caution(
        "A bag that lies on a heated base melts or scorches, and lets go of its load: off the element and away from "
        "the flame, on a rack or with the heat off.",
        ("mash", "warm"),
        when="a bag",
        rank="grave",
    ),
    Caution(
        "It boils and it spits: gloves and sleeves, a little at a time, and your face well back.",
        ("infuse", "decoct"),
        every=True,
        aid="scald",
        rank="grave",
    ),
    Caution(
        "Never suck or blow on a hose of hot wort, and never poke the grain with the tap open.",
        ("sparge",),
        rank="grave",
    ),
    Caution(
        "A wet bag weighs about twice what its dry grain did, and every drop of it scalds: gloves, a hook or a second "
        "pair of hands, and nothing breakable underneath.",
        ("drain",),
        every=True,
        short="The bag is hot and twice as heavy: gloves, a hook.",
        rank="grave",
    ),
    Caution(
        "The wet bag weighs about twice what its dry grain did, and it drips hot: use gloves or tongs, and keep it "
        "off the base while that is heated.",
        ("steep",),
        every=True,
        rank="grave",
    ),
    Caution(
        "Heat off until the last of it has dissolved: it scorches on a hot base, and thrown into a full boil it sends "
        "the pot over.",
        ("dissolve",),
        every=True,
        rank="grave",
    ),
    Caution(
        "Wort climbs out of the pot as it comes to the boil, and again when hops go in: stay beside it, turn the heat "
        "down in time, and keep cold water to hand.",
        ("boil", "hops"),
        rank="grave",
    ),
    Caution("Wort at this heat still scalds.", ("stand",), rank="grave"),
    Caution(
        "A sprayed spirit catches fire: no flame anywhere near, and let it dry.",
        ("sanitise",),
        rank="grave",
    ),
    Caution(
        "Never hot wort into glass: it breaks, and it scalds. A plastic vessel must be made for the heat too.",
        ("cool",),
        every=True,
        short="Hot wort scalds: do not carry it; never into glass.",
        aid="cut",
        rank="grave",
    ),
    Caution(
        "Cool it where it stands. If hot wort has to be moved: lid on, gloves, two people and a clear floor.",
        ("cool",),
        rank="grave",
    ),
    Caution(
        "The first water out of a cooling coil is scalding: see where its hose ends before you open the tap.",
        ("cool",),
        rank="grave",
    ),
    Caution(
        "Ice is as clean as its water and its box: boil the water or buy it, freeze it covered in a sanitised box, and "
        "touch it with nothing else. Slide it in, and let the wort run gently: it spits.",
        ("cool",),
        when="ice for the top-up",
    ),
    Caution(
        "A full glass vessel is heavy, and slips when it is wet: dry it, and carry it with both arms under it, or "
        "leave it where it is.",
        ("pitch", "prime"),
        aid="cut",
    ),
    Caution(
        "Pitch on the same day. Wort kept without yeast, or put up in jars without pressure canning, can grow the "
        "bacteria of botulism, and neither looks nor smells of it.",
        ("pitch",),
        source="from memory",
        rank="grave",
    ),
    Caution(
        "Under pressure only a vessel that its maker rates for it, with a valve that lets go below that rating: a "
        "sealed bucket, carboy or kettle bursts. Let the gas out, slowly, before you open it.",
        ("ferment",),
        when="pressure",
        short="Pressure only in a rated vessel with a working valve.",
        rank="grave",
    ),
    Caution(
        "A blocked airlock makes the vessel burst: leave room for the foam, and give a lively beer a wide tube into a "
        "jar of water.",
        ("ferment",),
    ),
    Caution(
        "Fermentation fills a closed room or a cellar with carbon dioxide, which smothers: let air in, and do not "
        "sleep beside it.",
        ("ferment",),
        aid="gas",
        rank="grave",
    ),
    Caution(
        "Fermenting beer foams up when anything goes into it: leave room, add it slowly, and set a tray underneath.",
        ("feed",),
    ),
    Caution(
        "Fruit brings yeasts and bacteria of its own: freeze it first, or hold it steaming hot, short of a boil, for "
        "ten minutes, and use sound fruit only. A preservative (sorbate, benzoate) stops your yeast: read the label.",
        ("feed",),
        when="fruit in the beer",
    ),
    Caution(
        "Pulp floats up in the foam and plugs an airlock, and the vessel bursts: leave a fifth of it free, and lead a "
        "wide tube into a jar of water.",
        ("feed",),
        when="fruit in the beer",
        short="Pulp plugs an airlock: a wide tube.",
        rank="grave",
    ),
    Caution(f"{CARE_HERE} Use sound fruit only, without mould.", ("weigh",), when="fruit that may hurt", rank="grave"),
    Caution(HOPS_AND_DOGS, ("sparge",), when="first-wort hops", rank="day"),
    Caution(HOPS_AND_DOGS, ("first-wort", "hops", "stand", "dry-hop"), rank="day"),
    Caution(
        "Package nothing until the gravity has stood still, after the dry hops and after the last sugar: beer that "
        "ferments on in a bottle bursts it.",
        ("finished", "bottle"),
        short="Package once two readings agree; sound beer bottles.",
        rank="grave",
    ),
    Caution(
        "What ferments this beer may go on for weeks, ever more slowly: wait for readings a week apart, and use heavy "
        "bottles made for pressure.",
        ("finished", "bottle"),
        when="a diastatic yeast",
        short="Readings a week apart, and heavy bottles.",
        rank="grave",
    ),
    Caution(
        "Its yeast may give up before the plan does, and begin again in the bottle: wait for readings a week apart, "
        "warm, and use heavy bottles made for pressure.",
        ("finished", "bottle"),
        when="a beer stronger than its yeast bears",
        short="Readings a week apart, and heavy bottles.",
        rank="grave",
    ),
    Caution(
        "Only sound bottles made for beer under pressure; none that is chipped, thin or made for still drinks, and no "
        "more sugar than the plan says.",
        ("bottle",),
        rank="grave",
    ),
    Caution(
        "Keep full bottles in a closed box, away from warmth and from children.",
        ("keep",),
    ),
    Caution(
        "If one gushes, bulges or bursts, trust none of its batch. In goggles, thick gloves and long sleeves, chill "
        "them all for a day, then let the gas out of each in turn, under a towel, outdoors.",
        ("keep",),
        aid="cut",
    ),
    Caution(
        "Never go above the pressure stamped on the keg, keep its relief valve working, and let the gas out before you "
        "open it.",
        ("keg",),
        short="Never above the keg’s stamped pressure.",
        rank="grave",
    ),
    Caution(
        "Stand a gas cylinder upright and tied, with a regulator on it, and have it filled and tested as the law asks.",
        ("keg",),
        rank="grave",
    ),
    Caution(
        "Carbon dioxide that leaks into a closed room or a cold store kills without a warning: air it first, and get "
        "out at a headache or short breath.",
        ("keg",),
        short="Leaked carbon dioxide kills: air the room.",
        aid="gas",
        rank="grave",
    ),
    Caution(
        "Allergens: {allergens}. Write it on the label, and say it when you pour.",
        ("serve",),
        when="allergens",
        rank="grave",
    ),
    Caution(
        "It holds gluten; an enzyme that reduces gluten does not make a beer gluten-free.",
        ("serve",),
        when="gluten",
    ),
    Caution(
        "This is a strong beer: pour it small.",
        ("serve",),
        when="a strong beer",
    ),
    Caution(
        "Beer is alcohol: not for anyone under age or pregnant, and not before driving or machines. The law where you "
        "live says who may brew, and how much.",
        ("serve",),
    ),
    Caution(
        "Never distil it: the vapour burns, the spirit can harm, and almost everywhere it takes a licence.",
        ("serve",),
    ),
)

"""The bibliography: every published work that an equation rests on, and how far it was read.

A work stands as ``READ`` when the equation, or the value held against it, was read in print or on a page that quotes
it; as ``MEMORY`` when it was written down from memory and only checked by arithmetic or against a general-purpose
library; as ``PRACTICE`` when brewers do it so and nobody is known to have published it.
"""

from __future__ import annotations

from gristbook.equations.registry import Source

READ = "read"
MEMORY = "from memory"
PRACTICE = "common practice, no source"

# A bibliography reads best in few lines: key, authors, year; title, where, how far it was read; a note.
# fmt: off

# What needs no measurement: balances and definitions.
LAVOISIER_1789 = Source(
    "lavoisier-1789", "A. L. Lavoisier", "1789",
    "Traité élémentaire de chimie", "Cuchet, Paris, vol. 1, ch. XIII (the fermentation of wine)", MEMORY,
    "Nothing is made and nothing is lost: extract, water and alpha acids are carried from step to step as masses.")
DEFINITION = Source(
    "definition", "This book", "",
    "What the figure means, worked out from the meaning of its words",
    "Nothing is measured, so nothing is cited", PRACTICE)
GUM_2008 = Source(
    "gum-2008", "Joint Committee for Guides in Metrology", "2008",
    "JCGM 100, Evaluation of measurement data: guide to the expression of uncertainty in measurement", "BIPM, Sèvres",
    MEMORY)
COMMON_PRACTICE = Source(
    "common-practice", "Home brewers", "",
    "Common practice", "No source", PRACTICE)

# Extract, Plato and gravity.
ASBC_EXTRACT = Source(
    "asbc-table-1", "American Society of Brewing Chemists", "",
    "Methods of Analysis, Table 1: extract in wort and beer", "ASBC, St Paul", READ,
    "The cubic fitted to the table was read as quoted in an encyclopaedia; the table itself was not at hand.")
NOONAN_1996 = Source(
    "noonan-1996", "G. J. Noonan", "1996",
    "New Brewing Lager Beer", "Brewers Publications, Boulder, p. 13", READ,
    "Its worked example was read as quoted in full; the year is from memory.")
ASBC_MALT_4 = Source(
    "asbc-malt-4", "American Society of Brewing Chemists", "",
    "Methods of Analysis, Malt-4: extract", "ASBC, St Paul", MEMORY)
PALMER_2001 = Source(
    "palmer-2001", "J. Palmer", "2001",
    "How to Brew", "Defenestrative Publishing, Monrovia", READ,
    "Its publisher calls the first printing, of 2001, the second edition.")
EBC_CONGRESS = Source(
    "ebc-congress-mash", "European Brewery Convention", "",
    "Analytica-EBC: extract of malt, congress mash", "EBC, Nuremberg", MEMORY,
    "100 g of malt in 800 g of water: E = P (M + 800) / (100 − P).")
IOB_EXTRACT = Source(
    "iob-hot-water-extract", "Institute of Brewing", "",
    "Recommended methods of analysis: hot water extract", "Institute of Brewing, London", MEMORY,
    "Litres at one degree of gravity from a kilogram, of a wort with about 10 L to the kilogram.")

# Water, volumes and heat.
KELL_1975 = Source(
    "kell-1975", "G. S. Kell", "1975",
    "Density, thermal expansivity, and compressibility of liquid water from 0 to 150 °C",
    "Journal of Chemical and Engineering Data 20(1):97-105", MEMORY,
    "Held to IAPWS-95 by a test.")
ISO_2533 = Source(
    "iso-2533", "International Organization for Standardization", "1975",
    "ISO 2533, Standard Atmosphere", "ISO, Geneva; the same as the ICAO's of 1964", READ,
    "The formula was read on an engineers' page, and heights by pressure in a table of the ICAO's atmosphere.")
IAPWS_IF97 = Source(
    "iapws-if97", "International Association for the Properties of Water and Steam", "2007",
    "Revised release on the IAPWS Industrial Formulation 1997", "IAPWS R7-97(2012)", MEMORY,
    "Held to IAPWS-95 by a test.")
HANGHOFER = Source(
    "hanghofer", "Hanghofer", "",
    "Heat balance of infusion and decoction", "As quoted in an article; the first printing was not traced", READ,
    "The title describes the equation.")
ICE = Source(
    "feistel-wagner-2006", "R. Feistel and W. Wagner", "2006",
    "A new equation of state for H2O ice Ih", "Journal of Physical and Chemical Reference Data 35(2):1021-1047", MEMORY,
    "Ice takes up 333.4 kJ/kg when it melts; handbooks print 334. Held to IAPWS by a test.")
NEWTON_1701 = Source(
    "newton-1701", "I. Newton", "1701",
    "Scala graduum caloris", "Philosophical Transactions of the Royal Society 22:824-829", MEMORY,
    "What is left to cool loses, in equal times, equal shares of its distance to the air around it.")
BLACK = Source(
    "black-1803", "J. Black", "1803",
    "Lectures on the Elements of Chemistry", "Edinburgh; on heat that bodies share when they are mixed", MEMORY,
    "Nothing is lost to the pot or to the air.")
ENZYME_ARTICLE = Source(
    "enzyme-article", "An article on mashing", "",
    "Temperatures of the best activity of the mash's enzymes", "The first printing was not traced", READ,
    "The title describes the table.")
ENZYME_ENCYCLOPAEDIA = Source(
    "enzyme-encyclopaedia", "An encyclopaedia", "",
    "Mashing: temperatures of the best activity of the mash's enzymes", "A page of an encyclopaedia", READ,
    "The title describes the table.")
KUNZE = Source(
    "kunze", "W. Kunze", "",
    "Technology Brewing and Malting: alpha-amylase", "VLB, Berlin; as quoted in a magazine", READ)
CHANDRASEKHAR = Source(
    "chandrasekhar", "J. Chandrasekhar", "",
    "Attenuation of worts mashed at 65, 70, 75 and 80 °C",
    "Heriot-Watt University, Edinburgh; as reported in an article of 2014", READ,
    "A described title. Nine parts lager malt, one of dextrin malt, 3 L/kg. No equation is standard: a guide.")
WINDISCH_KOLBACH = Source(
    "oxford-companion", "G. Oliver (editor)", "2011",
    "The Oxford Companion to Beer: Lintner and Windisch-Kolbach degrees", "Oxford University Press, New York", READ,
    "The conversion was read in two places; editor and year are from memory.")

# Attenuation and alcohol.
BALLING = Source(
    "balling-1865", "C. J. N. Balling", "1865",
    "Die Bierbrauerei", "Prague; as Nielsen and others quote it in Brauwelt International, 2007", READ,
    "2.0665 g of extract give 1 g of ethanol, 0.9565 g of carbon dioxide and 0.11 g of yeast. Read as quoted; his"
    " factors of alcohol are in works of 1846 and 1854 already, and tables made of them give up to 1.6 % less of it.")
HALL_1995 = Source(
    "hall-1995", "M. L. Hall", "1995",
    "Brew by the numbers: add up what's in your beer", "Zymurgy 18(2), Summer 1995", MEMORY,
    "Its title and its 0.794 were read as quoted.")
ASBC_BEER_6B = Source(
    "asbc-beer-6b", "American Society of Brewing Chemists", "",
    "Methods of Analysis, Beer-6B: real degree of fermentation", "ASBC, St Paul", MEMORY)
ASBC_BEER_33 = Source(
    "asbc-beer-33", "American Society of Brewing Chemists", "",
    "Methods of Analysis, Beer-33: caloric content", "ASBC, St Paul", READ,
    "Read as quoted in The Oxford Companion to Beer, under calories.")
CUTAIA_2009 = Source(
    "cutaia-2009", "A. J. Cutaia, A.-J. Reid and R. A. Speers", "2009",
    "Examination of the relationships between original, real and apparent extracts, and alcohol in pilot plant and"
    " commercially produced beers",
    "Journal of the Institute of Brewing 115(4):318-327", READ,
    "532 beers; the coefficients of Table VI and the means of Table III were read.")
OIML_R22 = Source(
    "oiml-r22", "International Organization of Legal Metrology", "1973",
    "R 22, International alcoholometric tables", "OIML, Paris; the same formula in Council Directive 76/766/EEC", READ,
    "A1 to A4 of its twelve coefficients were read, the others are from memory; pure ethanol gives 789.24 kg/m³.")
GAY_LUSSAC_1815 = Source(
    "gay-lussac-1815", "J. L. Gay-Lussac", "1815",
    "Sur l'analyse de l'alcool et de l'éther sulfurique", "Annales de chimie 95:311-318", MEMORY,
    "One glucose gives two ethanol and two carbon dioxide.")
ATOMIC_MASSES = Source(
    "iupac-2013", "J. Meija and others", "2016",
    "Atomic weights of the elements 2013", "Pure and Applied Chemistry 88(3):265-291", MEMORY,
    "Held to the molmass library by a test.")

# Bitterness.
TINSETH_1997 = Source(
    "tinseth-1997", "G. Tinseth", "1997",
    "Hop utilization numbers", "The author's own page", READ,
    "The definitions were read; of the printed table four cells were read as quoted, the others are from memory.")
RAGER_1990 = Source(
    "rager-1990", "J. Rager", "1990",
    "Calculating hop bitterness in beer", "Zymurgy Special Issue 13(4):53-54", READ,
    "The table was read as reprinted, but for its last two rows. A letter of 6 May 1992 has its print say .050 for a"
    " gravity of 1.050, and .24 for .23 in its example at 1.096.")
GARETZ_1994 = Source(
    "garetz-1994", "M. Garetz", "1994",
    "Using Hops: The Complete Guide to Hops for the Craft Brewer", "Danville, California", MEMORY,
    "The form of its hopping-rate factor was read in a letter of 1995.")
DANIELS_1996 = Source(
    "daniels-1996", "R. Daniels", "1996",
    "Designing Great Beers", "Brewers Publications, Boulder", MEMORY)
MALOWICKI_2005 = Source(
    "malowicki-2005", "M. G. Malowicki and T. H. Shellhammer", "2005",
    "Isomerization and degradation kinetics of hop (Humulus lupulus) acids in a model wort-boiling system",
    "Journal of Agricultural and Food Chemistry 53(11):4434-4439", READ,
    "The abstract with both rate equations was read; measured from 90 to 130 °C at pH 5.2.")
GARETZ_STORAGE_1994 = Source(
    "garetz-storage-1994", "M. Garetz", "1994",
    "Hop storage: how to get — and keep — your hops' optimum value", "BrewingTechniques 2(1)", READ,
    "After Likens, Nickerson and Zimmermann, 1970; of the storage factors only 1 was read, the others are from memory.")

# Colour.
EBC_COLOUR = Source(
    "ebc-colour", "European Brewery Convention", "",
    "Analytica-EBC: colour of beer, spectrophotometric method", "EBC, Nuremberg", READ,
    "Read as quoted in an encyclopaedia.")
MOREY_1995 = Source(
    "morey-1995", "D. Morey", "1995",
    "Beer's law", "BrewingTechniques, its page on Beer's law", READ)
DANIELS_1995 = Source(
    "daniels-1995", "R. Daniels", "1995",
    "Beer color demystified, part III", "BrewingTechniques", MEMORY,
    "Its span of 10.5 to 37 was read, the coefficients were not.")
MOSHER_1995 = Source(
    "mosher-1995", "R. Mosher", "1995",
    "The Brewer's Companion", "Alephenalia Publications, Seattle", MEMORY)
MALT_COLOUR = Source(
    "malt-colour", "Maltsters' analyses", "",
    "Regressions between the scales of malt colour", "Noonan, New Brewing Lager Beer, as quoted in a forum", READ,
    "The title describes them; the data were not traced. A brewing school has °L = 0.375 EBC + 0.56 for it.")
DELANGE_SPECTRUM = Source(
    "delange-spectrum", "A. J. deLange", "2008",
    "The standard reference method (SRM) of beer color specification as the basis for a new method of beer color"
    " reporting", "Journal of the American Society of Brewing Chemists", MEMORY,
    "Title and method, of 99 beers, were read in the abstract; the year and the four constants are from memory.")

# Yeast.
FIX_1997 = Source(
    "fix-1997", "G. J. Fix and L. A. Fix", "1997",
    "An Analysis of Brewing Techniques", "Brewers Publications, Boulder", READ,
    "The two rates were read as quoted on another page.")
VAN_DEN_BERG_2003 = Source(
    "van-den-berg-2003", "S. van den Berg and A. van Landschoot", "2003",
    "Practical use of dried yeasts in the brewing industry", "Cerevisia 28(3):25-30, table 1", READ,
    "Read as two pages copy it: six strains, 8, 9, 10, 14, 16 and 18 thousand million cells a gram.")
WHITE_ZAINASHEFF_2010 = Source(
    "white-zainasheff-2010", "C. White and J. Zainasheff", "2010",
    "Yeast: The Practical Guide to Beer Fermentation", "Brewers Publications, Boulder", READ,
    "Starters that stand still, from 9 to 2 °P (figure 5.5): the rows of 0.5, 1, 2 and 4 L were read as quoted, the"
    " others and the rates for strong wort are from memory.")
TROESTER_2012 = Source(
    "troester-2012", "K. Troester", "2012",
    "Estimating yeast growth", "The author's own article, 3 November 2012", MEMORY,
    "Its opening was read; its numbers are from memory.")
YEAST_MAKERS = Source(
    "yeast-makers", "Makers of liquid yeast", "",
    "How much of a pack still lives after a month in a refrigerator", "Statements to customers, not verified", READ,
    "The title describes them; 75 to 85 % was read as a supplier quotes it. A brewer who counted seven slurries for a"
    " month found 94 %. No published equation of age was found: a guide.")

# Carbonation.
HIBBERD = Source(
    "hibberd", "M. Hibberd", "",
    "A primer on priming", "An article of the 1990s", READ,
    "Its whole table was read: that of the gas in water under one atmosphere of it. A measurement of 1971 lies 0.3 to"
    " 1.7 % below.")
HENRY_1803 = Source(
    "henry-1803", "W. Henry", "1803",
    "Experiments on the quantity of gases absorbed by water, at different temperatures, and under different pressures",
    "Philosophical Transactions of the Royal Society 93:29-42 and 274-276", MEMORY,
    "Water takes up as many times more of a gas as there are atmospheres of it.")
DELANGE_2011 = Source(
    "delange-2011", "A. J. deLange", "2011",
    "CO2 volumes in beer", "A fit to the table of ASBC Beer-13", MEMORY,
    "The paper was seen, its constants are from memory; fitted from 32 to 70 °F. They give 148 cells of the table, from"
    " 30 to 46 °F, to 0.02 volumes. First told in letters of 2 August 2009.")
SPAN_WAGNER_1996 = Source(
    "span-wagner-1996", "R. Span and W. Wagner", "1996",
    "A new equation of state for carbon dioxide covering the fluid region to 1100 K",
    "Journal of Physical and Chemical Reference Data 25(6):1509-1596", MEMORY,
    "1.9768 g/L at 0 °C and one atmosphere, computed with a general-purpose library.")

# Water.
KOLBACH_1953 = Source(
    "kolbach-1953", "P. Kolbach", "1953",
    "Der Einfluss des Brauwassers auf das pH von Würze und Bier", "Monatsschrift für Brauerei, Berlin", READ,
    "The equation and the shift of pH were read as quoted; the title is from memory. The shift is that of wort; some"
    " tell it of the mash.")
TROESTER_2009 = Source(
    "troester-2009", "K. Troester", "2009",
    "The effect of brewing water and grist composition on the pH of the mash", "The author's own paper", MEMORY,
    "The abstract and the way of reckoning were read; the numbers are from memory.")
RIFFE_2013 = Source(
    "riffe-2013", "D. M. Riffe", "2013",
    "A homebrewing perspective on mash pH I: the grain bill", "The author's own article, 8 September 2013", MEMORY,
    "Its title was read. A line through the titrations of Troester 2009, from memory.")
HENDERSON_HASSELBALCH = Source(
    "hasselbalch-1917", "K. A. Hasselbalch", "1917",
    "Die Berechnung der Wasserstoffzahl des Blutes", "Biochemische Zeitschrift 78:112-144", MEMORY,
    "Constants of lactic acid (3.86) and phosphoric acid (2.15, 7.20) as handbooks give them.")
DELANGE_SULFITE = Source(
    "delange-sulfite", "A. J. deLange", "",
    "Sulfite against chlorine and chloramine in brewing water", "A letter to a digest of home brewers", READ,
    "The two reactions were read; the amounts follow from the atoms. His paper, as quoted, has a tablet of 0.695 g for"
    " 20 US gallons, 9.2 mg/L, cover 3 mg/L of chlorine that is all chloramine.")

# Instruments.
ISO_649 = Source(
    "iso-649", "International Organization for Standardization", "1981",
    "ISO 649, Laboratory glassware: density hydrometers for general purposes", "ISO, Geneva", MEMORY,
    "Soda glass swells by 25 millionths of its room for each °C.")
LYONS_1992 = Source(
    "lyons-1992", "Lyons", "1992",
    "Correcting a hydrometer for temperature", "A letter to a digest of home brewers, number 963", READ,
    "The title describes it. Its table comes from a handbook's densities of water, the polynomial from the table.")
TERRILL_2011 = Source(
    "terrill-2011", "S. Terrill", "2011",
    "Gravity of beer by refractometer", "The author's own articles of 2010 and 2011", READ,
    "The title describes them. Fitted to beers that had fermented by more than 61 % as a hydrometer shows it.")
NOVOTNY_2017 = Source(
    "novotny-2017", "P. Novotný", "2017",
    "Gravity of beer by refractometer", "The author's own article", MEMORY,
    "The title describes it.")
BONHAM = Source(
    "bonham", "L. Bonham", "",
    "Gravity of beer by refractometer", "As S. Terrill prints it in 2010; the first printing was not traced", READ,
    "The title describes it.")

# What brews teach.
GELMAN_2013 = Source(
    "gelman-2013", "A. Gelman, J. B. Carlin, H. S. Stern, D. B. Dunson, A. Vehtari and D. B. Rubin", "2013",
    "Bayesian Data Analysis", "3rd edition, CRC Press, Boca Raton, section 2.5", MEMORY,
    "A normal mean with known spreads: precisions add, and the mean is weighted by them.")
HUBER_1964 = Source(
    "huber-1964", "P. J. Huber", "1964",
    "Robust estimation of a location parameter", "Annals of Mathematical Statistics 35:73-101", MEMORY,
    "Its bend at 1.345 spreads, for 95 % of a mean's efficiency where nothing is odd, was read on a page of help.")

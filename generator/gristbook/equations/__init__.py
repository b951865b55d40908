"""The published equations: pure functions of floats, each filed with its source, its formula and its range.

To import the room is to file them all.
"""

from gristbook.equations import alcohol as alcohol
from gristbook.equations import attenuation as attenuation
from gristbook.equations import bitterness as bitterness
from gristbook.equations import boiling as boiling
from gristbook.equations import carbonation as carbonation
from gristbook.equations import colour as colour
from gristbook.equations import density as density
from gristbook.equations import extract as extract
from gristbook.equations import gravity as gravity
from gristbook.equations import hopping as hopping
from gristbook.equations import isomerisation as isomerisation
from gristbook.equations import kettle as kettle
from gristbook.equations import mash as mash
from gristbook.equations import pressure as pressure
from gristbook.equations import spectrum as spectrum
from gristbook.equations import volumes as volumes
from gristbook.equations import yeast as yeast

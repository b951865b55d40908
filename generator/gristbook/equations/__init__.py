"""The published equations: pure functions of floats, each filed with its source, its formula and its range.

To import the room is to file them all.
"""

from gristbook.equations import acids as acids
from gristbook.equations import alcohol as alcohol
from gristbook.equations import attenuation as attenuation
from gristbook.equations import bitterness as bitterness
from gristbook.equations import boiling as boiling
from gristbook.equations import brew_day as brew_day
from gristbook.equations import carbonation as carbonation
from gristbook.equations import chlorine as chlorine
from gristbook.equations import colour as colour
from gristbook.equations import cooling as cooling
from gristbook.equations import costs as costs
from gristbook.equations import density as density
from gristbook.equations import energy as energy
from gristbook.equations import extract as extract
from gristbook.equations import gravity as gravity
from gristbook.equations import hop_storage as hop_storage
from gristbook.equations import hopping as hopping
from gristbook.equations import instruments as instruments
from gristbook.equations import isomerisation as isomerisation
from gristbook.equations import kettle as kettle
from gristbook.equations import learning as learning
from gristbook.equations import mash as mash
from gristbook.equations import mash_enzymes as mash_enzymes
from gristbook.equations import mash_ph as mash_ph
from gristbook.equations import mending as mending
from gristbook.equations import models_apart as models_apart
from gristbook.equations import pressure as pressure
from gristbook.equations import readings as readings
from gristbook.equations import runnings as runnings
from gristbook.equations import salts as salts
from gristbook.equations import spectrum as spectrum
from gristbook.equations import starter as starter
from gristbook.equations import treatment as treatment
from gristbook.equations import volumes as volumes
from gristbook.equations import water as water
from gristbook.equations import yeast as yeast
from gristbook.equations import yield_units as yield_units

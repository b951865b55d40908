"""Pictures of plain numbers, as SVG that follows the page's colours. No chart knows what a recipe is."""

from gristbook.charts.balance import Ranged as Ranged
from gristbook.charts.balance import StyleBox as StyleBox
from gristbook.charts.balance import balance_chart as balance_chart
from gristbook.charts.caches import FolderCache as FolderCache
from gristbook.charts.caches import FrameCache as FrameCache
from gristbook.charts.caches import MemoryCache as MemoryCache
from gristbook.charts.caches import users_cache as users_cache
from gristbook.charts.days import MOST_RUNS as MOST_RUNS
from gristbook.charts.days import Planned as Planned
from gristbook.charts.days import Run as Run
from gristbook.charts.days import days_chart as days_chart
from gristbook.charts.grist import Share as Share
from gristbook.charts.grist import grist_chart as grist_chart
from gristbook.charts.hops import Addition as Addition
from gristbook.charts.hops import hops_chart as hops_chart
from gristbook.charts.narrowing import Stage as Stage
from gristbook.charts.narrowing import narrowing_chart as narrowing_chart
from gristbook.charts.style_balance import Mark as Mark
from gristbook.charts.style_balance import style_chart as style_chart
from gristbook.charts.swatch import Rgb as Rgb
from gristbook.charts.swatch import colour_swatch as colour_swatch

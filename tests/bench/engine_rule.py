"""Slots, causes, and what makes a rule of a function: nothing in plain Python, or numba's compiler."""
import math
import sys

FOLDER, KIND = sys.argv[1:3]
sys.path.insert(0, FOLDER)
from slots import *  # noqa: E402,F403

if KIND == "numba":
    import numba

    rule = numba.njit(error_model="numpy", cache=True)
else:

    def rule(function):
        return function


INF = math.inf
CAUSE_CHARGE, CAUSE_PEAK = 2, 3
POWER, ENERGY, TRIP, TANK_DRY, LAST = 0, 1, 2, 4, 5

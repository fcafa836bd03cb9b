"""The rules that engine.c has, in Python: plain lists and a loop, or the same text compiled by numba.

Names of slots come from slots.py, which other-languages.ts writes from src/sim/slots.ts; the folder that has it is the
first argument. Usage: engine.py FOLDER plain|numba INPUT OUTPUT RUNS; prints CPU nanoseconds of every run.
"""
import array
import sys
import time

from engine_rule import *  # noqa: F403
from engine_climate import *  # noqa: F403
from engine_generator import *  # noqa: F403
from engine_flows import *  # noqa: F403
from engine_book import *  # noqa: F403

INPUT, OUTPUT, RUNS = sys.argv[3:]
if KIND == "numba":
    import numpy


@rule
def fuel_rate(p, kw):
    line = P_FUEL_LINES + (0 if kw <= p[P_FUEL_BREAK_1] else 2 if kw <= p[P_FUEL_BREAK_2] else 4)
    return max(0.0, p[line] + p[line + 1] * kw)


@rule
def flow(p, s, f, dt):
    if s[S_GEN] == GEN_ON_LOAD:
        flow_from_generator(p, s, f, dt)
    elif s[S_SITE] == SITE_ON:
        flow_from_inverters(p, s, f, dt)
    else:
        flow_cut_off(p, s, f, dt)


@rule
def segment_length(s, left):
    dt = left
    if s[S_GEN] != GEN_STOPPED and s[S_GEN] != GEN_ON_LOAD:
        dt = min(dt, s[S_GEN_TIMER])
    for k in range(3):
        if EPS < s[S_TRIP + k] < dt:
            dt = s[S_TRIP + k]
    if s[S_CALLED] == 1 and EPS < s[S_VISIT] < dt:
        dt = s[S_VISIT]
    return dt


@rule
def run_timers(s, dt):
    if s[S_GEN] == GEN_ON_LOAD:
        s[S_ON_LOAD_H] += dt
    elif s[S_GEN] != GEN_STOPPED:
        s[S_GEN_TIMER] -= dt
    s[S_REST] = max(0.0, s[S_REST] - dt)
    for k in range(3):
        s[S_TRIP + k] = max(0.0, s[S_TRIP + k] - dt)
    s[S_VISIT] = max(0.0, s[S_VISIT] - dt)


@rule
def lose_site(p, s, f, by_inverters):
    if by_inverters and f[F_SHORT] == SHORT_ENERGY:
        s[S_SITE] = SITE_CUT_OFF
    if s[S_SITE] != SITE_CUT_OFF or s[S_VISITED] == 1 or s[S_E] > p[P_E_DEAD] + EPS:
        return
    s[S_SITE] = SITE_DEAD
    if s[S_CALLED] == 0:
        s[S_CALLED], s[S_VISIT] = 1.0, p[P_VISIT]


@rule
def segment(p, s, f, t, runs, outages, left):
    settle_timers(p, s, f, t, runs)
    on_load, alive = s[S_GEN] == GEN_ON_LOAD, s[S_SITE] == SITE_ON
    by_inverters = alive and not on_load
    if on_load:
        find_generator_needs(p, s, f)
        if p[P_TRIP_RULE] == 1 and trip_phases(p, s, f, t, True):
            find_generator_needs(p, s, f)
    elif alive:
        find_inverter_needs(p, s, f)
        if p[P_TRIP_RULE] == 1:
            settle_overload(p, s, f, t)
    dt = segment_length(s, left)
    flow(p, s, f, dt)
    running, dry, rate = s[S_GEN] >= GEN_WARMING, False, 0.0
    if running:
        usable, rate = s[S_TANK] - p[P_TANK_RESERVE], fuel_rate(p, f[F_GEN_KW])
        dry = p[P_TANK] == 1 and rate * dt > usable + EPS
        tries = 0
        while dry and tries < 60 and abs(rate * dt - usable) > 1e-12:
            dt = usable / rate
            if on_load:
                find_generator_needs(p, s, f)
            flow(p, s, f, dt)
            rate = fuel_rate(p, f[F_GEN_KW])
            tries += 1
    f[F_DT] = dt
    book_loads(p, s, f, t, outages, not (on_load or alive))
    book_flows(p, s, f, t)
    if running:
        book_engine(p, s, f, t, rate)
    if by_inverters:
        book_derating(p, s, f, t)
    if s[S_SITE] == SITE_CUT_OFF:
        t[T_CUTOFF_H] += dt
    elif s[S_SITE] == SITE_DEAD:
        t[T_DEAD_H] += dt
    run_timers(s, dt)
    if dry:
        stand_still(p, s, runs, f[F_TIME] + dt, 1.0)
    lose_site(p, s, f, by_inverters)


@rule
def run(p, s, f, t, x, runs, outages, count, load0, load1, load2, dc, air_c, sun, restricted, night):
    h = p[P_STEP_H]
    for k in range(3):
        f[F_CAP + k] = min(p[P_GEN_PHASE_KW + k], p[P_AC_INPUT])
    for i in range(count):
        f[F_TIME] = i * h
        if p[P_TANK] == 1:
            take_deliveries(p, s, t)
        if s[S_SITE] == SITE_CUT_OFF and s[S_E] >= p[P_E_RECONNECT] - EPS:
            s[S_SITE], s[S_VISITED] = SITE_ON, 0.0
        f[F_RESTRICTED], f[F_NIGHT] = restricted[i], night[i]
        f[F_SHOWN_E] = min(p[P_CAPACITY], max(0.0, s[S_E]))
        find_limits(p, s, f)
        if p[P_CABINET] == 1:
            set_thermostats(p, s, f, air_c[i], sun[i])
        own = f[F_CLIMATE] / 3
        f[F_LOAD], f[F_LOAD + 1], f[F_LOAD + 2] = load0[i], load1[i], load2[i]
        for k in range(3):
            f[F_WANT + k] = f[F_LOAD + k] + own
            t[T_LOAD] += f[F_LOAD + k] * h
        f[F_ARRAY_DC] = dc[i]
        t[T_DC_POTENTIAL] += dc[i] * h
        f[F_HEAT_AIR_KWH] = f[F_HEAT_BATTERY_KWH] = f[F_HEATER_KWH] = f[F_COOLER_KWH] = 0.0
        read_conditions(p, s, f)
        decide_generator(p, s, f)
        left = h
        while left > EPS:
            segment(p, s, f, t, runs, outages, left)
            left -= f[F_DT]
            f[F_TIME] += f[F_DT]
        hold_conditions(p, s, f)
        if s[S_ORDERED] == 1:
            s[S_LEAD] -= h
        if p[P_CABINET] == 1:
            step_temperatures(p, s, f, air_c[i], sun[i])
        x[X_MIN_SOC] = min(x[X_MIN_SOC], s[S_E] / p[P_CAPACITY])
        if s[S_E] <= p[P_E_CUTOFF] + EPS:
            t[T_FLOOR_H] += h
        x[X_COLDEST_CELL] = min(x[X_COLDEST_CELL], s[S_BATTERY_C])
        x[X_HOTTEST_CELL] = max(x[X_HOTTEST_CELL], s[S_BATTERY_C])
        x[X_HOTTEST_AIR] = max(x[X_HOTTEST_AIR], s[S_AIR_C])
        x[X_LOWEST_TANK] = min(x[X_LOWEST_TANK], s[S_TANK])
    if s[S_GEN] >= GEN_WARMING:
        close_run(p, s, runs, count * h, 0.0)
    if s[S_OUTAGE_OPEN] == 1:
        close_outage(s, outages, count * h)


def main():
    with open(INPUT, "rb") as file:
        data = file.read()
    count = int(array.array("d", data[:8])[0])
    numbers = 1 + P_SIZE + S_SIZE + 6 * count
    doubles = array.array("d", data[: 8 * numbers])
    # what the language takes for rows of numbers: numpy's arrays for numba, lists for plain Python
    made = (lambda values: numpy.array(values, dtype=float)) if KIND == "numba" else list
    p = made(doubles[1 : 1 + P_SIZE])
    first = 1 + P_SIZE + S_SIZE
    series = [made(doubles[first + j * count : first + (j + 1) * count]) for j in range(6)]
    flags = [made([float(value) for value in data[8 * numbers + j * count :][:count]]) for j in range(2)]

    def once():
        s = made(doubles[1 + P_SIZE : first])
        x = made([INF, INF, -INF, -INF, s[S_TANK], 0.0])
        f, t = made([0.0] * F_SIZE), made([0.0] * T_SIZE)
        runs, outages = made([0.0] * (9 * 10_000)), made([0.0] * (4 * 100_000))
        start = time.process_time_ns()
        run(p, s, f, t, x, runs, outages, count, *series, *flags)
        return time.process_time_ns() - start, s, t, x, runs, outages

    if KIND == "numba":
        once()  # compiles
    for _ in range(int(RUNS)):
        taken, s, t, x, runs, outages = once()
        print(taken)
    rows = list(runs[: 9 * int(s[S_RUN_COUNT])]) + list(outages[: 4 * int(s[S_OUTAGE_COUNT])])
    ends = [s[S_E], s[S_TANK], s[S_RUN_COUNT], s[S_OUTAGE_COUNT]]
    with open(OUTPUT, "wb") as file:
        array.array("d", [*t, *x, *ends, *rows]).tofile(file)


main()

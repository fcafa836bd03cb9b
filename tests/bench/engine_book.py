"""What is booked in a segment: the same as engine-book.h."""
from engine_rule import *  # noqa: F403
from engine_generator import *  # noqa: F403


@rule
def missed(t, k, cause, kw, dt):
    t[T_UNSERVED + k] += kw * dt
    t[T_UNSERVED_BY + cause] += kw * dt


@rule
def close_outage(s, outages, at_h):
    row = int(s[S_OUTAGE_COUNT]) * 4
    outages[row], outages[row + 1] = s[S_OUTAGE_START], at_h
    outages[row + 2], outages[row + 3] = s[S_OUTAGE_KWH], s[S_OUTAGE_CAUSE]
    s[S_OUTAGE_COUNT] += 1
    s[S_OUTAGE_OPEN] = 0.0


@rule
def go_on_outage(s, t, at_h, kwh, cause):
    if s[S_OUTAGE_OPEN] == 0:
        s[S_OUTAGE_OPEN], s[S_OUTAGE_START], s[S_OUTAGE_KWH], s[S_OUTAGE_CAUSE] = 1.0, at_h, 0.0, cause
        t[T_OUTAGES] += 1
    s[S_OUTAGE_KWH] += kwh
    if cause < s[S_OUTAGE_CAUSE]:
        s[S_OUTAGE_CAUSE] = cause


@rule
def book_climate(f, t, served, dt):
    if f[F_CLIMATE] <= 0:
        return
    hours = (served / f[F_CLIMATE]) * dt
    t[T_CLIMATE] += served * dt
    t[T_HEATER] += f[F_HEATER] * hours
    t[T_COOLER] += f[F_COOLER] * hours
    f[F_HEATER_KWH] += f[F_HEATER] * hours
    f[F_COOLER_KWH] += f[F_COOLER] * hours


@rule
def book_loads(p, s, f, t, outages, off):
    dt, per_phase, shrunk = f[F_DT], f[F_CLIMATE] / 3, 1 - f[F_SHARE]
    unserved = climate = 0.0
    energy = ENERGY if has_fuel(p, s) else TANK_DRY
    shrink = POWER if f[F_SHORT] == SHORT_POWER else energy
    cause, whole = LAST, False
    for k in range(3):
        want, load = f[F_WANT + k], f[F_LOAD + k]
        if want <= 0:
            continue
        if off or s[S_TRIP + k] > EPS:
            why = energy if off else TRIP
            missed(t, k, why, load, dt)
            unserved += load
            cause, whole = min(cause, why), True
            continue
        beyond = f[F_DEFICIT + k] - f[F_CARRIED + k]
        if beyond <= 0 and shrunk <= 0:
            climate += per_phase
            continue
        over, lacking = beyond / want, (shrunk * f[F_CARRIED + k]) / want
        climate += per_phase * (1 - over - lacking)
        if over > 0:
            missed(t, k, POWER, load * over, dt)
            unserved += load * over
            whole = True
            if load * over * dt > EPS:
                cause = POWER
        if lacking > 0:
            missed(t, k, shrink, load * lacking, dt)
            unserved += load * lacking
            whole = whole or shrink == POWER
            if load * lacking * dt > EPS:
                cause = min(cause, shrink)
    book_climate(f, t, climate, dt)
    served_h = 0.0 if whole else f[F_SHARE] * dt
    if unserved * dt > EPS:
        t[T_UNSERVED_H] += dt - served_h
        go_on_outage(s, t, f[F_TIME] + served_h, unserved * dt, cause)
    elif s[S_OUTAGE_OPEN] == 1:
        close_outage(s, outages, f[F_TIME])


@rule
def book_flows(p, s, f, t):
    dt, charge, discharge = f[F_DT], f[F_CHARGE], f[F_DISCHARGE]
    battery_loss = charge * (1 - p[P_CHARGE_EFF]) + discharge * (1 / p[P_DISCHARGE_EFF] - 1)
    t[T_DC_USED] += f[F_DC_USED] * dt
    t[T_AC_USED] += f[F_AC_USED] * dt
    t[T_CHARGE] += charge * dt
    t[T_DISCHARGE] += discharge * dt
    t[T_STANDBY] += f[F_STANDBY] * dt
    t[T_IDLE] += f[F_IDLE] * dt
    t[T_INV_LOSS] += f[F_INV_LOSS] * dt
    t[T_CHARGER_AC] += f[F_CHARGER_AC] * dt
    t[T_FROST] += f[F_FROST] * dt
    f[F_HEAT_AIR_KWH] += (f[F_INV_LOSS] + f[F_IDLE] + f[F_CHARGER_AC] * (1 - p[P_CHARGER_EFF])) * dt
    f[F_HEAT_BATTERY_KWH] += (battery_loss + f[F_STANDBY]) * dt
    s[S_E] = f[F_E_NEXT]


@rule
def book_engine(p, s, f, t, rate):
    dt, kw, rated = f[F_DT], f[F_GEN_KW], p[P_GEN_RATED]
    t[T_FUEL] += rate * dt
    t[T_GEN] += kw * dt
    t[T_RUN_H] += dt
    t[T_NIGHT_H] += f[F_NIGHT] * dt
    if kw < 0.3 * rated - EPS:
        t[T_LOW_LOAD_H] += dt
    s[S_RUN_KWH] += kw * dt
    s[S_RUN_LITRES] += rate * dt
    if p[P_TANK] == 1:
        s[S_TANK] -= rate * dt
    if s[S_GEN] != GEN_ON_LOAD:
        return
    t[T_ON_LOAD_H] += dt
    t[T_LOADING_H + min(9, int((10 * kw) / rated + EPS))] += dt
    s[S_TAIL] = s[S_TAIL] + dt if f[F_TAILS] == 1 else 0.0
    s[S_ABSORB] += f[F_ABSORBS] * dt


@rule
def book_derating(p, s, f, t):
    if f[F_DERATING] >= 1:
        return
    for k in range(3):
        need = f[F_WANT + k] if s[S_TRIP + k] > EPS else f[F_DEFICIT + k]
        t[T_DERATED] += max(0.0, min(need, p[P_INV_RATED]) - f[F_INV_LIMIT]) * f[F_DT]

"""Start and end of a step: deliveries, limits, thermostats, the two nodes: the same as engine-climate.h."""
from engine_rule import *  # noqa: F403


@rule
def fill_up(p, s, t):
    t[T_DELIVERED] += p[P_TANK_CAPACITY] - s[S_TANK]
    t[T_DELIVERIES] += 1
    s[S_TANK] = p[P_TANK_CAPACITY]


@rule
def take_deliveries(p, s, t):
    if s[S_ORDERED] == 1 and s[S_LEAD] <= EPS:
        fill_up(p, s, t)
        s[S_ORDERED] = 0.0
    if s[S_ORDERED] == 0 and p[P_ORDER_AT] >= 0 and s[S_TANK] <= p[P_ORDER_AT] + EPS:
        if p[P_LEAD] <= EPS:
            fill_up(p, s, t)
        else:
            s[S_ORDERED] = 1.0
            s[S_LEAD] = p[P_LEAD]


@rule
def charge_factor(p, c):
    if c <= p[P_COLD_NONE] or c >= p[P_HOT_NONE]:
        return 0.0
    if c < p[P_COLD_FULL]:
        return (c - p[P_COLD_NONE]) / (p[P_COLD_FULL] - p[P_COLD_NONE])
    if c > p[P_HOT_FULL]:
        return (p[P_HOT_NONE] - c) / (p[P_HOT_NONE] - p[P_HOT_FULL])
    return 1.0


@rule
def find_limits(p, s, f):
    cells, air = s[S_BATTERY_C], s[S_AIR_C]
    f[F_CHARGE_FACTOR] = charge_factor(p, cells)
    f[F_CHARGE_LIMIT] = f[F_CHARGE_FACTOR] * p[P_CHARGE_KW]
    if cells <= p[P_COLD_NONE]:
        s[S_FROZEN] = 1.0
    elif cells >= p[P_THAW]:
        s[S_FROZEN] = 0.0
    derating = 1.0 if air <= p[P_KNEE] else max(0.0, 1 - p[P_DERATE_SLOPE] * (air - p[P_KNEE]))
    f[F_DERATING] = derating
    f[F_INV_LIMIT] = p[P_INV_RATED] * derating
    f[F_CHARGER_LIMIT] = p[P_CHARGER] * derating


@rule
def node_at_end(p, s, node, out, air, battery):
    a, g = P_PHI + 2 * node, P_GAMMA + 3 * node
    return p[a] * s[S_AIR_C] + p[a + 1] * s[S_BATTERY_C] + p[g] * out + p[g + 1] * air + p[g + 2] * battery


@rule
def duty_towards(wanted, reach, on):
    if on and reach <= wanted:
        return 1.0
    return min(1.0, max(0.0, wanted / reach))


@rule
def set_thermostats(p, s, f, out, sun):
    air, battery = s[S_HEAT_AIR] + p[P_SUN_APERTURE] * sun, s[S_HEAT_BATTERY]
    heater = cooler = 0.0
    if p[P_HEATER] > 0 and (f[F_SHOWN_E] >= p[P_HEATER_MIN_E] - EPS or s[S_GEN] == GEN_ON_LOAD):
        idle, rise, on = node_at_end(p, s, 1, out, air, battery), p[P_GAMMA + 5] * p[P_HEATER], s[S_HEATER_ON] == 1
        goal = p[P_HEATER_OFF] if on else p[P_HEATER_ON]
        heater = p[P_HEATER] * duty_towards(goal - idle, rise, on)
        s[S_HEATER_ON] = 1.0 if (idle + rise <= goal if on else idle < goal) else 0.0
    else:
        s[S_HEATER_ON] = 0.0
    if p[P_COOLER] > 0:
        idle, on = node_at_end(p, s, 0, out, air, battery), s[S_COOLER_ON] == 1
        fall = p[P_GAMMA + 1] * p[P_COOLER_COP] * p[P_COOLER]
        goal = p[P_COOLER_OFF] if on else p[P_COOLER_ON]
        cooler = p[P_COOLER] * duty_towards(idle - goal, fall, on)
        s[S_COOLER_ON] = 1.0 if (idle - fall >= goal if on else idle > goal) else 0.0
    f[F_HEATER], f[F_COOLER], f[F_CLIMATE] = heater, cooler, heater + cooler


@rule
def step_temperatures(p, s, f, out, sun):
    per_step = 1 / p[P_STEP_H]
    loss_air, loss_battery = f[F_HEAT_AIR_KWH] * per_step, f[F_HEAT_BATTERY_KWH] * per_step
    air = loss_air + p[P_SUN_APERTURE] * sun - f[F_COOLER_KWH] * per_step * p[P_COOLER_COP]
    battery = loss_battery + f[F_HEATER_KWH] * per_step
    following = node_at_end(p, s, 0, out, air, battery)
    s[S_BATTERY_C] = node_at_end(p, s, 1, out, air, battery)
    s[S_AIR_C], s[S_HEAT_AIR], s[S_HEAT_BATTERY] = following, loss_air, loss_battery

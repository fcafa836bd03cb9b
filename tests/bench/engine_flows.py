"""Flows of a segment in the four modes, and trips: the same as engine-flows.h."""
from engine_rule import *  # noqa: F403
from engine_generator import *  # noqa: F403


@rule
def decayed_share(x):
    if x <= 0:
        return 0.0
    if x > 700:
        return 1.0
    halvings, y = 0, x
    while y > 0.125:
        y *= 0.5
        halvings += 1
    term = share = y
    for n in range(2, 12):
        term *= -y / n
        share += term
    for _ in range(halvings):
        share = share * (2 - share)
    return share


@rule
def stored_after_charge(p, e, offered, limit, dt):
    full, taper, slope, eff = p[P_CAPACITY], p[P_E_TAPER], p[P_TAPER_SLOPE], p[P_CHARGE_EFF]
    power = min(offered, limit)
    if power <= 0 or e >= full:
        return e
    straight = e + eff * power * dt
    if straight <= taper:
        return straight
    if slope <= 0:
        return min(straight, full)
    meet, at, left = taper + (1 - power / limit) / slope, e, dt
    if e < meet:
        needs = (meet - e) / (eff * power)
        if needs >= dt:
            return min(straight, full)
        at, left = meet, dt - needs
    accepted = limit * (1 - slope * (at - taper))
    if accepted <= 0:
        return min(at, full)
    decay = eff * limit * slope
    return min(at + (eff * accepted * decayed_share(decay * left)) / decay, full)


@rule
def share_within(there, total, squares, linear, quadratic):
    b, a = (1 + linear) * total, quadratic * squares
    if there >= b + a:
        return 1.0
    if there <= 0:
        return 0.0
    return (2 * there) / (b + math.sqrt(b * b + 4 * a * there))


@rule
def charge_from(p, s, f, dt, offered):
    e, per_kwh = s[S_E], 1 / (p[P_CHARGE_EFF] * dt)
    f[F_OFFERED] = offered
    f[F_DISCHARGE] = f[F_FROST] = 0.0
    following = stored_after_charge(p, e, offered, f[F_CHARGE_LIMIT], dt)
    f[F_E_NEXT] = following
    f[F_CHARGE] = 0.0 if following == e else min(offered, (following - e) * per_kwh)
    if f[F_CHARGE_FACTOR] < 1 and offered > 0:
        warm = stored_after_charge(p, e, offered, p[P_CHARGE_KW], dt)
        f[F_FROST] = (warm - e) * per_kwh - f[F_CHARGE]


@rule
def shrink_loads(p, f, there):
    total = squares = 0.0
    linear, quadratic = p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC]
    for k in range(3):
        total += f[F_CARRIED + k]
        squares += f[F_CARRIED + k] * f[F_CARRIED + k]
    share = share_within(there, total, squares, linear, quadratic) if total > 0 else (1.0 if there >= 0 else 0.0)
    f[F_SHARE] = share
    f[F_INV_LOSS] = linear * total * share + quadratic * squares * share * share


@rule
def discharge_for(p, s, f, dt, supply, needed):
    e, eff, gap = s[S_E], p[P_DISCHARGE_EFF], needed - supply
    from_energy = (max(0.0, e - p[P_E_CUTOFF]) * eff) / dt
    cap = min(p[P_DISCHARGE_KW], from_energy)
    f[F_OFFERED] = f[F_CHARGE] = f[F_FROST] = 0.0
    if gap <= cap + 1e-12:
        f[F_DISCHARGE], f[F_E_NEXT] = gap, e - (gap * dt) / eff
        return
    f[F_SHORT] = SHORT_ENERGY if from_energy < p[P_DISCHARGE_KW] else SHORT_POWER
    there, left, forced = supply + cap, e - (cap * dt) / eff, 0.0
    shrink_loads(p, f, there - f[F_STANDBY] - f[F_IDLE])
    if there < f[F_STANDBY] + f[F_IDLE]:
        standby = f[F_STANDBY]
        forced = min(max(0.0, standby - there), (max(0.0, left - p[P_E_EMPTY]) * eff) / dt)
        f[F_STANDBY], f[F_IDLE] = min(standby, there + forced), max(0.0, there - standby)
    f[F_DISCHARGE] = cap + forced
    f[F_E_NEXT] = left - (forced * dt) / eff if forced > 0 else left


@rule
def find_inverter_needs(p, s, f):
    draw = 0.0
    for k in range(3):
        deficit = 0.0 if s[S_TRIP + k] > EPS else max(0.0, f[F_WANT + k])
        carried = min(deficit, f[F_INV_LIMIT])
        f[F_DEFICIT + k], f[F_CARRIED + k] = deficit, carried
        draw += dc_draw(carried, p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC])
    f[F_DRAW] = draw


@rule
def settle_flows(p, f):
    f[F_GEN_KW], f[F_SHARE], f[F_SHORT] = 0.0, 1.0, SHORT_NONE
    f[F_STANDBY], f[F_IDLE] = p[P_STANDBY], p[P_IDLE]
    f[F_CHARGER_AC] = f[F_AC_USED] = 0.0


@rule
def flow_from_inverters(p, s, f, dt):
    needed, there = p[P_IDLE] + p[P_STANDBY] + f[F_DRAW], f[F_ARRAY_DC]
    settle_flows(p, f)
    f[F_INV_LOSS] = f[F_DRAW] - (f[F_CARRIED] + f[F_CARRIED + 1] + f[F_CARRIED + 2])
    if there >= needed:
        charge_from(p, s, f, dt, there - needed)
        used = min(there, needed + f[F_CHARGE])
        f[F_DC_USED] = used
        f[F_CHARGER_AC] = f[F_AC_USED] = (needed + f[F_CHARGE] - used) / p[P_CHARGER_EFF]
    else:
        f[F_DC_USED] = there
        discharge_for(p, s, f, dt, there, needed)


@rule
def is_charging(p, s):
    return s[S_DUTY] != CAUSE_PEAK or p[P_PEAK_CHARGES] == 1


@rule
def assist_limit(p, f, k):
    return f[F_INV_LIMIT] if p[P_ASSIST] == 1 or p[P_GEN_PHASE_KW + k] == 0 else 0.0


@rule
def charger_room(p, s, f, k, load):
    if s[S_TRIP + k] > EPS:
        return 0.0
    top = min(f[F_CAP + k], p[P_CHARGE_TARGET]) if is_charging(p, s) else f[F_CAP + k]
    return max(0.0, min(f[F_CHARGER_LIMIT], top - load))


@rule
def find_generator_needs(p, s, f):
    draw = room = 0.0
    for k in range(3):
        want, cap = 0.0 if s[S_TRIP + k] > EPS else f[F_WANT + k], f[F_CAP + k]
        over = max(0.0, want - cap)
        carried, load = min(over, assist_limit(p, f, k)), min(want, cap)
        f[F_DEFICIT + k], f[F_CARRIED + k], f[F_GEN_LOAD + k] = over, carried, load
        draw += dc_draw(carried, p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC])
        room += charger_room(p, s, f, k, load)
    f[F_DRAW], f[F_SURPLUS] = draw, room


@rule
def pass_dc_surplus(p, f):
    left = f[F_ARRAY_DC] - f[F_DC_USED]
    if left <= EPS:
        return
    total, squares, top = 0.0, 0.0, INF
    for k in range(3):
        out = 0.0 if f[F_CARRIED + k] > EPS else f[F_GEN_LOAD + k]
        total += out
        squares += out * out
        if out > 0:
            top = min(top, f[F_INV_LIMIT] / out)
    headroom, linear, quadratic = max(0.0, f[F_GEN_KW] - p[P_MIN_LOAD_KW]), p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC]
    if total <= 0 or headroom <= 0:
        return
    share = min(min(share_within(left, total, squares, linear, quadratic), headroom / total), top)
    loss = linear * total * share + quadratic * squares * share * share
    f[F_GEN_KW] -= total * share
    f[F_DC_USED] += total * share + loss
    f[F_INV_LOSS] += loss


@rule
def flow_from_generator(p, s, f, dt):
    standing, room, there = p[P_IDLE] + p[P_STANDBY], p[P_CHARGER_EFF] * f[F_SURPLUS], f[F_ARRAY_DC]
    charging, needed = is_charging(p, s), standing + f[F_DRAW]
    from_charger = room if charging else min(room, standing)
    supply = there + from_charger
    settle_flows(p, f)
    f[F_INV_LOSS] = f[F_DRAW] - f[F_CARRIED] - f[F_CARRIED + 1] - f[F_CARRIED + 2]
    if supply >= needed:
        charge_from(p, s, f, dt, supply - needed)
        f[F_DC_USED] = min(there, needed + f[F_CHARGE])
        from_charger = needed + f[F_CHARGE] - f[F_DC_USED]
    else:
        f[F_DC_USED] = there
        discharge_for(p, s, f, dt, supply, needed)
    f[F_CHARGER_AC] = from_charger / p[P_CHARGER_EFF]
    share = from_charger / room if room > 0 else 0.0
    kw = 0.0
    for k in range(3):
        out = f[F_GEN_LOAD + k] + charger_room(p, s, f, k, f[F_GEN_LOAD + k]) * share
        f[F_GEN_LOAD + k] = out
        kw += out
    f[F_GEN_KW] = kw
    if p[P_DC_TO_AC] == 1:
        pass_dc_surplus(p, f)
    f[F_FROST] = min(f[F_FROST], there - f[F_DC_USED])
    tails = f[F_OFFERED] > 0 and f[F_CHARGE] < f[F_OFFERED] - EPS and f[F_CHARGE] < p[P_TAIL_KW]
    f[F_TAILS] = 1.0 if charging and tails else 0.0
    f[F_ABSORBS] = 1.0 if charging and s[S_E] >= p[P_E_TAPER] - EPS else 0.0


@rule
def flow_cut_off(p, s, f, dt):
    standby, there, eff = p[P_STANDBY], f[F_ARRAY_DC], p[P_DISCHARGE_EFF]
    settle_flows(p, f)
    f[F_E_NEXT] = s[S_E]
    f[F_SHARE] = f[F_OFFERED] = f[F_CHARGE] = f[F_DISCHARGE] = f[F_DC_USED] = f[F_INV_LOSS] = 0.0
    f[F_STANDBY] = f[F_IDLE] = f[F_FROST] = 0.0
    if s[S_SITE] == SITE_DEAD:
        return
    if there >= standby:
        charge_from(p, s, f, dt, there - standby)
        f[F_STANDBY], f[F_DC_USED] = standby, standby + f[F_CHARGE]
        return
    forced = min(standby - there, (max(0.0, s[S_E] - p[P_E_EMPTY]) * eff) / dt)
    f[F_DISCHARGE], f[F_DC_USED], f[F_STANDBY] = forced, there, there + forced
    f[F_E_NEXT] = s[S_E] - (forced * dt) / eff


@rule
def trip_all(p, s, t):
    s[S_TRIP] = s[S_TRIP + 1] = s[S_TRIP + 2] = p[P_RESTART]
    t[T_TRIPS] += 1


@rule
def trip_phases(p, s, f, t, on_load):
    tripped = False
    for k in range(3):
        limit = assist_limit(p, f, k) if on_load else f[F_INV_LIMIT]
        if s[S_TRIP + k] > EPS or f[F_DEFICIT + k] <= limit + EPS:
            continue
        tripped = True
        if p[P_TRIP_ALL] == 1:
            trip_all(p, s, t)
            break
        s[S_TRIP + k] = p[P_RESTART]
        t[T_TRIPS] += 1
    return tripped


@rule
def settle_overload(p, s, f, t):
    if trip_phases(p, s, f, t, False):
        find_inverter_needs(p, s, f)
    if p[P_IDLE] + p[P_STANDBY] + f[F_DRAW] - f[F_ARRAY_DC] <= p[P_DISCHARGE_KW] + EPS:
        return
    if s[S_TRIP] > EPS and s[S_TRIP + 1] > EPS and s[S_TRIP + 2] > EPS:
        return
    trip_all(p, s, t)
    find_inverter_needs(p, s, f)

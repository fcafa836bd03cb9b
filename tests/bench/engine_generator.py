"""The generator's decision and its timers: the same as engine-generator.h."""
from engine_rule import *  # noqa: F403


@rule
def has_fuel(p, s):
    return p[P_TANK] == 0 or s[S_TANK] > p[P_TANK_RESERVE] + EPS


@rule
def close_run(p, s, runs, at_h, dry):
    row = int(s[S_RUN_COUNT]) * 9
    runs[row], runs[row + 1], runs[row + 2] = s[S_RUN_START], at_h, s[S_ON_LOAD_H]
    runs[row + 3], runs[row + 4], runs[row + 5] = s[S_CAUSE], s[S_RUN_SOC], s[S_E] / p[P_CAPACITY]
    runs[row + 6], runs[row + 7], runs[row + 8] = s[S_RUN_KWH], s[S_RUN_LITRES], dry
    s[S_RUN_COUNT] += 1


@rule
def form_grid(s):
    s[S_GEN], s[S_GEN_TIMER], s[S_SITE] = GEN_ON_LOAD, 0.0, SITE_ON
    s[S_VISITED] = s[S_CALLED] = 0.0
    s[S_TRIP] = s[S_TRIP + 1] = s[S_TRIP + 2] = 0.0


@rule
def take_duty(s, cause):
    s[S_DUTY] = cause
    s[S_TAIL] = s[S_ABSORB] = 0.0


@rule
def stand_still(p, s, runs, at_h, dry):
    close_run(p, s, runs, at_h, dry)
    s[S_GEN], s[S_GEN_TIMER], s[S_REST], s[S_NO_RETURN] = GEN_STOPPED, 0.0, p[P_REST], 0.0


@rule
def stop_generator(p, s):
    s[S_GEN], s[S_GEN_TIMER] = GEN_COOLING, p[P_COOL_DOWN]


@rule
def dc_draw(kw, linear, quadratic):
    return kw * (1 + linear + quadratic * kw)


@rule
def read_conditions(p, s, f):
    low = p[P_CHARGE_RULE] == 1 and f[F_SHOWN_E] <= p[P_START_E] + EPS
    f[F_LOW_CHARGE] = 1.0 if low else 0.0
    if p[P_PEAK_RULE] == 0:
        return
    start, stop, limit = p[P_PEAK_START] + EPS, p[P_PEAK_STOP] + EPS, f[F_INV_LIMIT] + EPS
    draw = p[P_IDLE] + p[P_STANDBY]
    over, under = False, True
    for k in range(3):
        want = f[F_WANT + k]
        over = over or want > start or want > limit
        under = under and not (want > stop or want > limit)
        draw += dc_draw(max(0.0, want), p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC])
    dc_limit = p[P_DISCHARGE_KW] + f[F_ARRAY_DC] + EPS
    f[F_PEAK] = 1.0 if s[S_SITE] == SITE_ON and (over or draw > dc_limit) else 0.0
    f[F_CALM] = 1.0 if under and draw <= dc_limit else 0.0


@rule
def is_urgent(p, f):
    return f[F_SHOWN_E] <= p[P_URGENT_E] + EPS


@rule
def is_satisfied(p, s, f):
    if s[S_DUTY] == CAUSE_PEAK:
        return f[F_CALM] == 1 and s[S_HELD_CALM] >= p[P_PEAK_HOLD] - EPS
    if f[F_SHOWN_E] >= p[P_STOP_E] - EPS or s[S_ABSORB] >= p[P_ABSORB_H] - EPS:
        return True
    if p[P_TAIL_KW] > 0 and s[S_TAIL] >= p[P_TAIL_H] - EPS:
        return True
    held_back = s[S_FROZEN] == 1 or (f[F_RESTRICTED] == 1 and p[P_RESTRICTED_ENDS] == 1)
    return held_back and not is_urgent(p, f)


@rule
def consider_start(p, s, charge, peak):
    if s[S_SITE] == SITE_DEAD or not has_fuel(p, s):
        return
    if s[S_SITE] != SITE_ON and p[P_BLACK_START] != 1 and s[S_VISITED] != 1:
        return
    wait = min(charge, peak)
    if wait == INF:
        return
    countdown = max(wait, s[S_REST])
    if countdown >= p[P_STEP_H] - EPS:
        return
    s[S_CAUSE] = CAUSE_CHARGE if charge <= wait + EPS else CAUSE_PEAK
    s[S_GEN], s[S_GEN_TIMER] = GEN_STARTING, countdown + p[P_START_DELAY]


@rule
def consider_stop(p, s, f, charge, peak):
    if s[S_DUTY] > CAUSE_CHARGE and charge <= EPS:
        take_duty(s, CAUSE_CHARGE)
    if s[S_ON_LOAD_H] >= p[P_MAX_RUN] - EPS:
        s[S_NO_RETURN] = 1.0
        stop_generator(p, s)
        return
    if s[S_ON_LOAD_H] < p[P_MIN_RUN] - EPS or not is_satisfied(p, s, f):
        return
    if s[S_DUTY] != CAUSE_CHARGE and charge <= EPS:
        take_duty(s, CAUSE_CHARGE)
    elif s[S_DUTY] != CAUSE_PEAK and peak <= EPS:
        take_duty(s, CAUSE_PEAK)
    else:
        stop_generator(p, s)


@rule
def decide_generator(p, s, f):
    latest = p[P_STEP_H] - EPS
    may_charge = is_urgent(p, f) or (f[F_RESTRICTED] == 0 and s[S_FROZEN] == 0)
    charge = max(0.0, p[P_CHARGE_DELAY] - s[S_HELD_CHARGE]) if f[F_LOW_CHARGE] == 1 and may_charge else INF
    peak = max(0.0, p[P_PEAK_DELAY] - s[S_HELD_PEAK]) if f[F_PEAK] == 1 else INF
    if charge >= latest:
        charge = INF
    if peak >= latest:
        peak = INF
    if s[S_GEN] == GEN_STOPPED:
        consider_start(p, s, charge, peak)
    elif s[S_GEN] == GEN_ON_LOAD:
        consider_stop(p, s, f, charge, peak)
    elif s[S_GEN] == GEN_COOLING and min(charge, peak) <= EPS and s[S_NO_RETURN] == 0 and has_fuel(p, s):
        form_grid(s)
        take_duty(s, CAUSE_CHARGE if charge <= EPS else CAUSE_PEAK)


@rule
def hold_conditions(p, s, f):
    h = p[P_STEP_H]
    peak_run = s[S_GEN] == GEN_ON_LOAD and s[S_DUTY] == CAUSE_PEAK
    s[S_HELD_CHARGE] = s[S_HELD_CHARGE] + h if f[F_LOW_CHARGE] == 1 else 0.0
    s[S_HELD_PEAK] = s[S_HELD_PEAK] + h if f[F_PEAK] == 1 else 0.0
    s[S_HELD_CALM] = s[S_HELD_CALM] + h if peak_run and f[F_CALM] == 1 else 0.0


@rule
def settle_timers(p, s, f, t, runs):
    if s[S_CALLED] == 1 and s[S_VISIT] <= EPS:
        s[S_CALLED] = 0.0
        t[T_VISITS] += 1
        if s[S_SITE] == SITE_DEAD:
            s[S_SITE], s[S_VISITED] = SITE_CUT_OFF, 1.0
    if s[S_GEN] == GEN_STARTING and s[S_GEN_TIMER] <= EPS:
        s[S_GEN], s[S_GEN_TIMER] = GEN_WARMING, p[P_WARM_UP]
        t[T_STARTS_BY + int(s[S_CAUSE])] += 1
        s[S_RUN_START], s[S_RUN_SOC] = f[F_TIME], s[S_E] / p[P_CAPACITY]
        s[S_RUN_KWH] = s[S_RUN_LITRES] = s[S_ON_LOAD_H] = s[S_NO_RETURN] = 0.0
    if s[S_GEN] == GEN_WARMING and s[S_GEN_TIMER] <= EPS:
        form_grid(s)
        s[S_ON_LOAD_H] = s[S_HELD_CALM] = 0.0
        take_duty(s, s[S_CAUSE])
    if s[S_GEN] == GEN_COOLING and s[S_GEN_TIMER] <= EPS:
        stand_still(p, s, runs, f[F_TIME], 0.0)

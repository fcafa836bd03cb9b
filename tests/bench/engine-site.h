/* What the loop keeps: state, flows of the step and segment in hand, totals. Slots of parameters and totals come
 * from slots.h, which other-languages.ts writes from src/sim/slots.ts. Units: kW, kWh, h, °C, litres. */
#include <math.h>
#include "slots.h"

#define PHASES 3
#define RUN_FIELDS 9
#define OUTAGE_FIELDS 4
enum { CAUSE_CHARGE = 2, CAUSE_PEAK = 3 };
enum { OUTAGE_POWER = 0, OUTAGE_ENERGY = 1, OUTAGE_TRIP = 2, OUTAGE_TANK_DRY = 4, OUTAGE_LAST = 5 };

typedef struct {
  long count;
  const double *load[PHASES], *dc, *air_c, *sun;
  const unsigned char *restricted, *night;
} Series;

typedef struct {
  double e, air_c, cells_c, heat_air, heat_battery, tank, lead;
  double gen_timer, rest, on_load_h, held_charge, held_peak, held_calm, tail, absorb, trip[PHASES], visit;
  int site, gen, cause, duty, no_return, visited, called, frozen, heater_on, cooler_on, ordered;
  double run_start, run_soc, run_kwh, run_litres, outage_start, outage_kwh;
  int outage_open, outage_cause;
  long runs, outages;
} State;

typedef struct {
  /* the step */
  int restricted, night, low_charge, peak, calm;
  double load[PHASES], want[PHASES], dc_array, shown, factor, charge_limit, derating, limit, charger_limit, cap[PHASES];
  double climate, heater, cooler, heat_air_kwh, heat_battery_kwh, heater_kwh, cooler_kwh, time;
  /* the segment */
  double dt, deficit[PHASES], carried[PHASES], gen_load[PHASES], draw, room, share;
  double offered, charge, discharge, e_next, dc_used, ac_used, gen_kw, inv_loss, charger_ac, standby, idle, frost;
  int is_short, tails, absorbs;
} Flows;

typedef struct {
  State s;
  Flows f;
  double t[T_SIZE], x[X_SIZE];
  double *run_log, *outage_log;
} Site;

static inline double least(double a, double b) { return a < b ? a : b; }
static inline double most(double a, double b) { return a > b ? a : b; }
static inline double dc_draw(double kw, double linear, double quadratic) { return kw * (1 + linear + quadratic * kw); }

/* RULES.md, share(V, p) */
static inline double share_within(double there, double sum, double squares, double linear, double quadratic) {
  double b = (1 + linear) * sum, a = quadratic * squares;
  if (there >= b + a) return 1;
  if (there <= 0) return 0;
  return (2 * there) / (b + sqrt(b * b + 4 * a * there));
}

/* 1 - e^-x by its series, as in src/sim/exp.ts */
static inline double decayed_share(double x) {
  if (x <= 0) return 0;
  if (x > 700) return 1;
  int halvings = 0;
  double y = x;
  for (; y > 0.125; halvings++) y *= 0.5;
  double term = y, share = y;
  for (int n = 2; n < 12; n++) {
    term *= -y / n;
    share += term;
  }
  for (; halvings > 0; halvings--) share = share * (2 - share);
  return share;
}

static inline double stored_after_charge(const double *p, double e, double offered, double limit, double dt) {
  double full = p[P_CAPACITY], taper = p[P_E_TAPER], slope = p[P_TAPER_SLOPE], eff = p[P_CHARGE_EFF];
  double power = least(offered, limit);
  if (power <= 0 || e >= full) return e;
  double straight = e + eff * power * dt;
  if (straight <= taper) return straight;
  if (slope <= 0) return least(straight, full);
  double meet = taper + (1 - power / limit) / slope, at = e, left = dt;
  if (e < meet) {
    double time = (meet - e) / (eff * power);
    if (time >= dt) return least(straight, full);
    at = meet;
    left = dt - time;
  }
  double accepted = limit * (1 - slope * (at - taper));
  if (accepted <= 0) return least(at, full);
  double decay = eff * limit * slope;
  return least(at + (eff * accepted * decayed_share(decay * left)) / decay, full);
}

static inline double fuel_rate(const double *p, double kw) {
  const double *line = p + P_FUEL_LINES + (kw <= p[P_FUEL_BREAK_1] ? 0 : kw <= p[P_FUEL_BREAK_2] ? 2 : 4);
  return most(0, line[0] + line[1] * kw);
}

static inline int has_fuel(const double *p, const State *s) {
  return p[P_TANK] == 0 || s->tank > p[P_TANK_RESERVE] + EPS;
}

static inline void call_person(const double *p, State *s) {
  if (s->called) return;
  s->called = 1;
  s->visit = p[P_VISIT];
}

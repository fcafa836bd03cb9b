/* What is booked in a segment: energies, hours, outages. RULES.md, what is booked. */

static inline double missed(double *t, int phase, int cause, double kw, double dt) {
  t[T_UNSERVED + phase] += kw * dt;
  t[T_UNSERVED_BY + cause] += kw * dt;
  return kw;
}

static inline void close_outage(Site *z, double at_h) {
  double *row = z->outage_log + z->s.outages * OUTAGE_FIELDS;
  row[0] = z->s.outage_start;
  row[1] = at_h;
  row[2] = z->s.outage_kwh;
  row[3] = z->s.outage_cause;
  z->s.outages++;
  z->s.outage_open = 0;
}

static inline void go_on_outage(Site *z, double at_h, double kwh, int cause) {
  State *s = &z->s;
  if (!s->outage_open) {
    s->outage_open = 1;
    s->outage_start = at_h;
    s->outage_kwh = 0;
    s->outage_cause = cause;
    z->t[T_OUTAGES] += 1;
  }
  s->outage_kwh += kwh;
  if (cause < s->outage_cause) s->outage_cause = cause;
}

static inline void book_climate(Site *z, double served) {
  Flows *f = &z->f;
  if (f->climate <= 0) return;
  double hours = (served / f->climate) * f->dt;
  z->t[T_CLIMATE] += served * f->dt;
  z->t[T_HEATER] += f->heater * hours;
  z->t[T_COOLER] += f->cooler * hours;
  f->heater_kwh += f->heater * hours;
  f->cooler_kwh += f->cooler * hours;
}

static inline void book_loads(const double *p, Site *z, int off) {
  State *s = &z->s;
  Flows *f = &z->f;
  double *t = z->t, dt = f->dt, per_phase = f->climate / PHASES, shrunk = 1 - f->share, unserved = 0, climate = 0;
  int energy = has_fuel(p, s) ? OUTAGE_ENERGY : OUTAGE_TANK_DRY, cause = OUTAGE_LAST, whole = 0;
  int shrink = f->is_short == SHORT_POWER ? OUTAGE_POWER : energy;
  for (int k = 0; k < PHASES; k++) {
    double want = f->want[k], load = f->load[k];
    if (want <= 0) continue;
    if (off || s->trip[k] > EPS) {
      int why = off ? energy : OUTAGE_TRIP;
      unserved += missed(t, k, why, load, dt);
      if (why < cause) cause = why;
      whole = 1;
      continue;
    }
    double beyond = f->deficit[k] - f->carried[k];
    if (beyond <= 0 && shrunk <= 0) { /* all of it is served */
      climate += per_phase;
      continue;
    }
    double over = beyond / want, lacking = (shrunk * f->carried[k]) / want;
    climate += per_phase * (1 - over - lacking);
    if (over > 0) {
      unserved += missed(t, k, OUTAGE_POWER, load * over, dt);
      if (load * over * dt > EPS) cause = OUTAGE_POWER;
      whole = 1;
    }
    if (lacking > 0) {
      unserved += missed(t, k, shrink, load * lacking, dt);
      if (load * lacking * dt > EPS && shrink < cause) cause = shrink;
      if (shrink == OUTAGE_POWER) whole = 1;
    }
  }
  book_climate(z, climate);
  double served_h = whole ? 0 : f->share * dt;
  if (unserved * dt > EPS) {
    t[T_UNSERVED_H] += dt - served_h;
    go_on_outage(z, f->time + served_h, unserved * dt, cause);
  } else if (s->outage_open) close_outage(z, f->time);
}

static inline void book_flows(const double *p, Site *z) {
  Flows *f = &z->f;
  double *t = z->t, dt = f->dt;
  double battery_loss = f->charge * (1 - p[P_CHARGE_EFF]) + f->discharge * (1 / p[P_DISCHARGE_EFF] - 1);
  t[T_DC_USED] += f->dc_used * dt;
  t[T_AC_USED] += f->ac_used * dt;
  t[T_CHARGE] += f->charge * dt;
  t[T_DISCHARGE] += f->discharge * dt;
  t[T_STANDBY] += f->standby * dt;
  t[T_IDLE] += f->idle * dt;
  t[T_INV_LOSS] += f->inv_loss * dt;
  t[T_CHARGER_AC] += f->charger_ac * dt;
  t[T_FROST] += f->frost * dt;
  f->heat_air_kwh += (f->inv_loss + f->idle + f->charger_ac * (1 - p[P_CHARGER_EFF])) * dt;
  f->heat_battery_kwh += (battery_loss + f->standby) * dt;
  z->s.e = f->e_next;
}

static inline void book_engine(const double *p, Site *z, double rate) {
  State *s = &z->s;
  Flows *f = &z->f;
  double *t = z->t, dt = f->dt, rated = p[P_GEN_RATED];
  t[T_FUEL] += rate * dt;
  t[T_GEN] += f->gen_kw * dt;
  t[T_RUN_H] += dt;
  t[T_NIGHT_H] += f->night * dt;
  if (f->gen_kw < 0.3 * rated - EPS) t[T_LOW_LOAD_H] += dt;
  s->run_kwh += f->gen_kw * dt;
  s->run_litres += rate * dt;
  if (p[P_TANK] == 1) s->tank -= rate * dt;
  if (s->gen != GEN_ON_LOAD) return;
  t[T_ON_LOAD_H] += dt;
  t[T_LOADING_H + (int)least(9, floor((10 * f->gen_kw) / rated + EPS))] += dt;
  s->tail = f->tails ? s->tail + dt : 0;
  s->absorb += f->absorbs * dt;
}

/* what full inverters would have carried above the derated limit */
static inline void book_derating(const double *p, Site *z) {
  Flows *f = &z->f;
  if (f->derating >= 1) return;
  for (int k = 0; k < PHASES; k++) {
    double need = z->s.trip[k] > EPS ? f->want[k] : f->deficit[k];
    z->t[T_DERATED] += most(0, least(need, p[P_INV_RATED]) - f->limit) * f->dt;
  }
}

static inline void note_extremes(const double *p, Site *z) {
  State *s = &z->s;
  double *x = z->x;
  x[X_MIN_SOC] = least(x[X_MIN_SOC], s->e / p[P_CAPACITY]);
  if (s->e <= p[P_E_CUTOFF] + EPS) z->t[T_FLOOR_H] += p[P_STEP_H];
  x[X_COLDEST_CELL] = least(x[X_COLDEST_CELL], s->cells_c);
  x[X_HOTTEST_CELL] = most(x[X_HOTTEST_CELL], s->cells_c);
  x[X_HOTTEST_AIR] = most(x[X_HOTTEST_AIR], s->air_c);
  x[X_LOWEST_TANK] = least(x[X_LOWEST_TANK], s->tank);
}

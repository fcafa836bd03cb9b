/* When the generator starts and stops, and its timers. RULES.md 4 and 5.1; of the causes, charge and peak. */

static inline void close_run(const double *p, Site *z, double at_h, int ran_dry) {
  State *s = &z->s;
  double *row = z->run_log + s->runs * RUN_FIELDS;
  row[0] = s->run_start;
  row[1] = at_h;
  row[2] = s->on_load_h;
  row[3] = s->cause;
  row[4] = s->run_soc;
  row[5] = s->e / p[P_CAPACITY];
  row[6] = s->run_kwh;
  row[7] = s->run_litres;
  row[8] = ran_dry;
  s->runs++;
}

static inline void form_grid(State *s) {
  s->gen = GEN_ON_LOAD;
  s->gen_timer = 0;
  s->site = SITE_ON;
  s->visited = s->called = 0;
  for (int k = 0; k < PHASES; k++) s->trip[k] = 0;
}

static inline void take_duty(State *s, int cause) {
  s->duty = cause;
  s->tail = s->absorb = 0;
}

static inline void stand_still(const double *p, Site *z, double at_h, int ran_dry) {
  close_run(p, z, at_h, ran_dry);
  z->s.gen = GEN_STOPPED;
  z->s.gen_timer = 0;
  z->s.rest = p[P_REST];
  z->s.no_return = 0;
}

static inline void stop_generator(const double *p, State *s) {
  s->gen = GEN_COOLING;
  s->gen_timer = p[P_COOL_DOWN];
}

static inline void read_conditions(const double *p, const State *s, Flows *f) {
  f->low_charge = p[P_CHARGE_RULE] == 1 && f->shown <= p[P_START_E] + EPS;
  if (p[P_PEAK_RULE] == 0) return;
  double start = p[P_PEAK_START] + EPS, stop = p[P_PEAK_STOP] + EPS, limit = f->limit + EPS;
  double draw = p[P_IDLE] + p[P_STANDBY];
  int over = 0, under = 1;
  for (int k = 0; k < PHASES; k++) {
    double want = f->want[k], need = most(0, want);
    over |= need > start || need > limit;
    under &= !(want > stop || want > limit);
    draw += dc_draw(need, p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC]);
  }
  double dc_limit = p[P_DISCHARGE_KW] + f->dc_array + EPS;
  f->peak = s->site == SITE_ON && (over || draw > dc_limit);
  f->calm = under && draw <= dc_limit;
}

static inline int is_urgent(const double *p, const Flows *f) { return f->shown <= p[P_URGENT_E] + EPS; }

static inline int is_held_back(const double *p, const State *s, const Flows *f) {
  return !is_urgent(p, f) && (s->frozen || (f->restricted && p[P_RESTRICTED_ENDS] == 1));
}

static inline int is_satisfied(const double *p, const State *s, const Flows *f) {
  if (s->duty == CAUSE_PEAK) return f->calm && s->held_calm >= p[P_PEAK_HOLD] - EPS;
  if (f->shown >= p[P_STOP_E] - EPS || s->absorb >= p[P_ABSORB_H] - EPS) return 1;
  if (p[P_TAIL_KW] > 0 && s->tail >= p[P_TAIL_H] - EPS) return 1;
  return is_held_back(p, s, f);
}

static inline void consider_start(const double *p, State *s, double charge, double peak) {
  if (s->site == SITE_DEAD || !has_fuel(p, s)) return;
  if (s->site != SITE_ON && p[P_BLACK_START] != 1 && !s->visited) return;
  double wait = least(charge, peak);
  if (wait == INFINITY) return;
  double countdown = most(wait, s->rest);
  if (countdown >= p[P_STEP_H] - EPS) return;
  s->cause = charge <= wait + EPS ? CAUSE_CHARGE : CAUSE_PEAK;
  s->gen = GEN_STARTING;
  s->gen_timer = countdown + p[P_START_DELAY];
}

static inline void consider_stop(const double *p, State *s, const Flows *f, double charge, double peak) {
  if (s->duty > CAUSE_CHARGE && charge <= EPS) take_duty(s, CAUSE_CHARGE);
  if (s->on_load_h >= p[P_MAX_RUN] - EPS) {
    s->no_return = 1;
    stop_generator(p, s);
    return;
  }
  if (s->on_load_h < p[P_MIN_RUN] - EPS || !is_satisfied(p, s, f)) return;
  if (s->duty != CAUSE_CHARGE && charge <= EPS) take_duty(s, CAUSE_CHARGE);
  else if (s->duty != CAUSE_PEAK && peak <= EPS) take_duty(s, CAUSE_PEAK);
  else stop_generator(p, s);
}

static inline void decide_generator(const double *p, State *s, const Flows *f) {
  double latest = p[P_STEP_H] - EPS;
  int may_charge = is_urgent(p, f) || (!f->restricted && !s->frozen);
  double charge = f->low_charge && may_charge ? most(0, p[P_CHARGE_DELAY] - s->held_charge) : INFINITY;
  double peak = f->peak ? most(0, p[P_PEAK_DELAY] - s->held_peak) : INFINITY;
  if (charge >= latest) charge = INFINITY;
  if (peak >= latest) peak = INFINITY;
  if (s->gen == GEN_STOPPED) consider_start(p, s, charge, peak);
  else if (s->gen == GEN_ON_LOAD) consider_stop(p, s, f, charge, peak);
  else if (s->gen == GEN_COOLING && least(charge, peak) <= EPS && !s->no_return && has_fuel(p, s)) {
    form_grid(s);
    take_duty(s, charge <= EPS ? CAUSE_CHARGE : CAUSE_PEAK);
  }
}

static inline void hold_conditions(const double *p, State *s, const Flows *f) {
  double h = p[P_STEP_H];
  int peak_run = s->gen == GEN_ON_LOAD && s->duty == CAUSE_PEAK;
  s->held_charge = f->low_charge ? s->held_charge + h : 0;
  s->held_peak = f->peak ? s->held_peak + h : 0;
  s->held_calm = peak_run && f->calm ? s->held_calm + h : 0;
}

static inline void settle_timers(const double *p, Site *z) {
  State *s = &z->s;
  if (s->called && s->visit <= EPS) {
    s->called = 0;
    z->t[T_VISITS] += 1;
    if (s->site == SITE_DEAD) {
      s->site = SITE_CUT_OFF;
      s->visited = 1;
    }
  }
  if (s->gen == GEN_STARTING && s->gen_timer <= EPS) {
    s->gen = GEN_WARMING;
    s->gen_timer = p[P_WARM_UP];
    z->t[T_STARTS_BY + s->cause] += 1;
    s->run_start = z->f.time;
    s->run_soc = s->e / p[P_CAPACITY];
    s->run_kwh = s->run_litres = s->on_load_h = 0;
    s->no_return = 0;
  }
  if (s->gen == GEN_WARMING && s->gen_timer <= EPS) {
    form_grid(s);
    s->on_load_h = s->held_calm = 0;
    take_duty(s, s->cause);
  }
  if (s->gen == GEN_COOLING && s->gen_timer <= EPS) stand_still(p, z, z->f.time, 0);
}

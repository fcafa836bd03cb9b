/* Flows of a segment in the four modes, and trips. RULES.md 5. */

static inline void charge_from(const double *p, const State *s, Flows *f, double dt, double offered) {
  double per_kwh = 1 / (p[P_CHARGE_EFF] * dt);
  f->offered = offered;
  f->discharge = f->frost = 0;
  f->e_next = stored_after_charge(p, s->e, offered, f->charge_limit, dt);
  f->charge = f->e_next == s->e ? 0 : least(offered, (f->e_next - s->e) * per_kwh);
  if (f->factor < 1 && offered > 0)
    f->frost = (stored_after_charge(p, s->e, offered, p[P_CHARGE_KW], dt) - s->e) * per_kwh - f->charge;
}

static inline void shrink_loads(const double *p, Flows *f, double there) {
  double sum = 0, squares = 0, linear = p[P_LOSS_LINEAR], quadratic = p[P_LOSS_QUADRATIC];
  for (int k = 0; k < PHASES; k++) {
    sum += f->carried[k];
    squares += f->carried[k] * f->carried[k];
  }
  f->share = sum > 0 ? share_within(there, sum, squares, linear, quadratic) : there >= 0;
  f->inv_loss = linear * sum * f->share + quadratic * squares * f->share * f->share;
}

static inline void discharge_for(const double *p, const State *s, Flows *f, double dt, double supply, double needed) {
  double eff = p[P_DISCHARGE_EFF], gap = needed - supply;
  double from_energy = (most(0, s->e - p[P_E_CUTOFF]) * eff) / dt, cap = least(p[P_DISCHARGE_KW], from_energy);
  f->offered = f->charge = f->frost = 0;
  if (gap <= cap + 1e-12) {
    f->discharge = gap;
    f->e_next = s->e - (gap * dt) / eff;
    return;
  }
  f->is_short = from_energy < p[P_DISCHARGE_KW] ? SHORT_ENERGY : SHORT_POWER;
  double there = supply + cap, left = s->e - (cap * dt) / eff, forced = 0;
  shrink_loads(p, f, there - f->standby - f->idle);
  if (there < f->standby + f->idle) {
    double standby = f->standby;
    forced = least(most(0, standby - there), (most(0, left - p[P_E_EMPTY]) * eff) / dt);
    f->standby = least(standby, there + forced);
    f->idle = most(0, there - standby);
  }
  f->discharge = cap + forced;
  f->e_next = forced > 0 ? left - (forced * dt) / eff : left;
}

static inline void find_inverter_needs(const double *p, const State *s, Flows *f) {
  f->draw = 0;
  for (int k = 0; k < PHASES; k++) {
    f->deficit[k] = s->trip[k] > EPS ? 0 : most(0, f->want[k]);
    f->carried[k] = least(f->deficit[k], f->limit);
    f->draw += dc_draw(f->carried[k], p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC]);
  }
}

static inline void flow_from_inverters(const double *p, const State *s, Flows *f, double dt) {
  double needed = p[P_IDLE] + p[P_STANDBY] + f->draw;
  f->gen_kw = 0;
  f->share = 1;
  f->is_short = SHORT_NONE;
  f->standby = p[P_STANDBY];
  f->idle = p[P_IDLE];
  f->inv_loss = f->draw - (f->carried[0] + f->carried[1] + f->carried[2]);
  f->charger_ac = f->ac_used = 0; /* no AC-coupled array: what is left of a rounding */
  if (f->dc_array >= needed) {
    charge_from(p, s, f, dt, f->dc_array - needed);
    f->dc_used = least(f->dc_array, needed + f->charge);
    f->charger_ac = f->ac_used = (needed + f->charge - f->dc_used) / p[P_CHARGER_EFF];
  } else {
    f->dc_used = f->dc_array;
    discharge_for(p, s, f, dt, f->dc_array, needed);
  }
}

static inline int is_charging(const double *p, const State *s) { return s->duty != CAUSE_PEAK || p[P_PEAK_CHARGES] == 1; }

static inline double assist_limit(const double *p, const Flows *f, int k) {
  return p[P_ASSIST] == 1 || p[P_GEN_PHASE_KW + k] == 0 ? f->limit : 0;
}

static inline double charger_room(const double *p, const State *s, const Flows *f, int k) {
  double top = is_charging(p, s) ? least(f->cap[k], p[P_CHARGE_TARGET]) : f->cap[k];
  return s->trip[k] > EPS ? 0 : most(0, least(f->charger_limit, top - f->gen_load[k]));
}

static inline void find_generator_needs(const double *p, const State *s, Flows *f) {
  f->draw = f->room = 0;
  for (int k = 0; k < PHASES; k++) {
    double want = s->trip[k] > EPS ? 0 : f->want[k];
    f->deficit[k] = most(0, want - f->cap[k]);
    f->carried[k] = least(f->deficit[k], assist_limit(p, f, k));
    f->gen_load[k] = least(want, f->cap[k]);
    f->draw += dc_draw(f->carried[k], p[P_LOSS_LINEAR], p[P_LOSS_QUADRATIC]);
    f->room += charger_room(p, s, f, k);
  }
}

/* DC array that the battery does not take, through the inverters in place of generator output */
static inline void pass_dc_surplus(const double *p, Flows *f) {
  double left = f->dc_array - f->dc_used, sum = 0, squares = 0, top = INFINITY;
  if (left <= EPS) return;
  for (int k = 0; k < PHASES; k++) {
    double out = f->carried[k] > EPS ? 0 : f->gen_load[k];
    sum += out;
    squares += out * out;
    if (out > 0) top = least(top, f->limit / out);
  }
  double headroom = most(0, f->gen_kw - p[P_MIN_LOAD_KW]), linear = p[P_LOSS_LINEAR], quadratic = p[P_LOSS_QUADRATIC];
  if (sum <= 0 || headroom <= 0) return;
  double share = least(least(share_within(left, sum, squares, linear, quadratic), headroom / sum), top);
  double loss = linear * sum * share + quadratic * squares * share * share;
  f->gen_kw -= sum * share;
  f->dc_used += sum * share + loss;
  f->inv_loss += loss;
}

static inline void flow_from_generator(const double *p, const State *s, Flows *f, double dt) {
  double standing = p[P_IDLE] + p[P_STANDBY], room = p[P_CHARGER_EFF] * f->room, needed = standing + f->draw;
  int charging = is_charging(p, s);
  double from_charger = charging ? room : least(room, standing), supply = f->dc_array + from_charger;
  f->share = 1;
  f->is_short = SHORT_NONE;
  f->standby = p[P_STANDBY];
  f->idle = p[P_IDLE];
  f->inv_loss = f->draw - f->carried[0] - f->carried[1] - f->carried[2];
  if (supply >= needed) {
    charge_from(p, s, f, dt, supply - needed);
    f->dc_used = least(f->dc_array, needed + f->charge);
    from_charger = needed + f->charge - f->dc_used;
  } else {
    f->dc_used = f->dc_array;
    discharge_for(p, s, f, dt, supply, needed);
  }
  f->ac_used = 0;
  f->charger_ac = from_charger / p[P_CHARGER_EFF];
  double share = room > 0 ? from_charger / room : 0;
  f->gen_kw = 0;
  for (int k = 0; k < PHASES; k++) {
    f->gen_load[k] += charger_room(p, s, f, k) * share;
    f->gen_kw += f->gen_load[k];
  }
  if (p[P_DC_TO_AC] == 1) pass_dc_surplus(p, f);
  f->frost = least(f->frost, f->dc_array - f->dc_used);
  f->tails = charging && f->offered > 0 && f->charge < f->offered - EPS && f->charge < p[P_TAIL_KW];
  f->absorbs = charging && s->e >= p[P_E_TAPER] - EPS;
}

static inline void flow_cut_off(const double *p, const State *s, Flows *f, double dt) {
  double standby = p[P_STANDBY], eff = p[P_DISCHARGE_EFF];
  f->e_next = s->e;
  f->share = f->offered = f->charge = f->discharge = f->dc_used = f->gen_kw = f->inv_loss = f->charger_ac = 0;
  f->standby = f->idle = f->frost = f->ac_used = 0;
  f->is_short = SHORT_NONE;
  if (s->site == SITE_DEAD) return;
  if (f->dc_array >= standby) {
    charge_from(p, s, f, dt, f->dc_array - standby);
    f->standby = standby;
    f->dc_used = standby + f->charge;
    return;
  }
  f->discharge = least(standby - f->dc_array, (most(0, s->e - p[P_E_EMPTY]) * eff) / dt);
  f->dc_used = f->dc_array;
  f->standby = f->dc_array + f->discharge;
  f->e_next = s->e - (f->discharge * dt) / eff;
}

static inline void trip_all(const double *p, Site *z) {
  for (int k = 0; k < PHASES; k++) z->s.trip[k] = p[P_RESTART];
  z->t[T_TRIPS] += 1;
}

static inline int trip_phases(const double *p, Site *z, int on_load) {
  int tripped = 0;
  for (int k = 0; k < PHASES; k++) {
    double limit = on_load ? assist_limit(p, &z->f, k) : z->f.limit;
    if (z->s.trip[k] > EPS || z->f.deficit[k] <= limit + EPS) continue;
    tripped = 1;
    if (p[P_TRIP_ALL] == 1) {
      trip_all(p, z);
      break;
    }
    z->s.trip[k] = p[P_RESTART];
    z->t[T_TRIPS] += 1;
  }
  return tripped;
}

static inline void settle_overload(const double *p, Site *z) {
  State *s = &z->s;
  Flows *f = &z->f;
  if (trip_phases(p, z, 0)) find_inverter_needs(p, s, f);
  if (p[P_IDLE] + p[P_STANDBY] + f->draw - f->dc_array <= p[P_DISCHARGE_KW] + EPS) return;
  if (s->trip[0] > EPS && s->trip[1] > EPS && s->trip[2] > EPS) return;
  trip_all(p, z);
  find_inverter_needs(p, s, f);
}

/* Start and end of a step: deliveries, what temperatures allow, thermostats, the two nodes. RULES.md 1, 3, 6. */

static inline void fill_up(const double *p, Site *z) {
  z->t[T_DELIVERED] += p[P_TANK_CAPACITY] - z->s.tank;
  z->t[T_DELIVERIES] += 1;
  z->s.tank = p[P_TANK_CAPACITY];
}

static inline void take_deliveries(const double *p, Site *z) {
  State *s = &z->s;
  if (s->ordered && s->lead <= EPS) {
    fill_up(p, z);
    s->ordered = 0;
  }
  if (!s->ordered && p[P_ORDER_AT] >= 0 && s->tank <= p[P_ORDER_AT] + EPS) {
    if (p[P_LEAD] <= EPS) fill_up(p, z);
    else {
      s->ordered = 1;
      s->lead = p[P_LEAD];
    }
  }
}

static inline double charge_factor(const double *p, double c) {
  if (c <= p[P_COLD_NONE] || c >= p[P_HOT_NONE]) return 0;
  if (c < p[P_COLD_FULL]) return (c - p[P_COLD_NONE]) / (p[P_COLD_FULL] - p[P_COLD_NONE]);
  if (c > p[P_HOT_FULL]) return (p[P_HOT_NONE] - c) / (p[P_HOT_NONE] - p[P_HOT_FULL]);
  return 1;
}

static inline void find_limits(const double *p, State *s, Flows *f) {
  f->factor = charge_factor(p, s->cells_c);
  f->charge_limit = f->factor * p[P_CHARGE_KW];
  if (s->cells_c <= p[P_COLD_NONE]) s->frozen = 1;
  else if (s->cells_c >= p[P_THAW]) s->frozen = 0;
  f->derating = s->air_c <= p[P_KNEE] ? 1 : most(0, 1 - p[P_DERATE_SLOPE] * (s->air_c - p[P_KNEE]));
  f->limit = p[P_INV_RATED] * f->derating;
  f->charger_limit = p[P_CHARGER] * f->derating;
}

static inline double node_at_end(const double *p, const State *s, int node, double out, double air, double battery) {
  const double *phi = p + P_PHI + 2 * node, *gamma = p + P_GAMMA + 3 * node;
  return phi[0] * s->air_c + phi[1] * s->cells_c + gamma[0] * out + gamma[1] * air + gamma[2] * battery;
}

static inline double duty_towards(double wanted, double reach, int on) {
  if (on && reach <= wanted) return 1;
  return least(1, most(0, wanted / reach));
}

static inline void set_thermostats(const double *p, State *s, Flows *f, double out, double sun) {
  double air = s->heat_air + p[P_SUN_APERTURE] * sun;
  f->heater = f->cooler = 0;
  if (p[P_HEATER] > 0 && (f->shown >= p[P_HEATER_MIN_E] - EPS || s->gen == GEN_ON_LOAD)) {
    double idle = node_at_end(p, s, 1, out, air, s->heat_battery), rise = p[P_GAMMA + 5] * p[P_HEATER];
    double goal = s->heater_on ? p[P_HEATER_OFF] : p[P_HEATER_ON];
    f->heater = p[P_HEATER] * duty_towards(goal - idle, rise, s->heater_on);
    s->heater_on = s->heater_on ? idle + rise <= goal : idle < goal;
  } else s->heater_on = 0;
  if (p[P_COOLER] > 0) {
    double idle = node_at_end(p, s, 0, out, air, s->heat_battery);
    double fall = p[P_GAMMA + 1] * p[P_COOLER_COP] * p[P_COOLER];
    double goal = s->cooler_on ? p[P_COOLER_OFF] : p[P_COOLER_ON];
    f->cooler = p[P_COOLER] * duty_towards(idle - goal, fall, s->cooler_on);
    s->cooler_on = s->cooler_on ? idle - fall >= goal : idle > goal;
  }
  f->climate = f->heater + f->cooler;
}

static inline void step_temperatures(const double *p, State *s, const Flows *f, double out, double sun) {
  double per_step = 1 / p[P_STEP_H];
  double loss_air = f->heat_air_kwh * per_step, loss_battery = f->heat_battery_kwh * per_step;
  double air = loss_air + p[P_SUN_APERTURE] * sun - f->cooler_kwh * per_step * p[P_COOLER_COP];
  double battery = loss_battery + f->heater_kwh * per_step;
  double next = node_at_end(p, s, 0, out, air, battery);
  s->cells_c = node_at_end(p, s, 1, out, air, battery);
  s->air_c = next;
  s->heat_air = loss_air;
  s->heat_battery = loss_battery;
}

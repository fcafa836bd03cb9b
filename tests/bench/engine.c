/* The rules of src/sim/RULES.md as the demo farm uses them, in C: a yardstick for src/sim. Written plainly as one
 * loop over the general step; every term in the order of src/sim, so that totals agree to the last bit.
 * Left out, as the farm has none: AC-coupled arrays, lead-acid, further cabinets, second set, failed starts, persons
 * who are away, shedding, shiftable loads, overload budgets, thresholds by season.
 * gcc -O3 -march=native -ffp-contract=off. Usage: engine INPUT OUTPUT RUNS; prints CPU nanoseconds of every run. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include "engine-site.h"
#include "engine-climate.h"
#include "engine-generator.h"
#include "engine-flows.h"
#include "engine-book.h"

static inline void flow(const double *p, const State *s, Flows *f, double dt) {
  if (s->gen == GEN_ON_LOAD) flow_from_generator(p, s, f, dt);
  else if (s->site == SITE_ON) flow_from_inverters(p, s, f, dt);
  else flow_cut_off(p, s, f, dt);
}

static inline double cut_to(double dt, double timer) { return timer > EPS && timer < dt ? timer : dt; }

static inline double segment_length(const State *s, double left) {
  double dt = left;
  if (s->gen != GEN_STOPPED && s->gen != GEN_ON_LOAD) dt = least(dt, s->gen_timer);
  for (int k = 0; k < PHASES; k++) dt = cut_to(dt, s->trip[k]);
  return s->called ? cut_to(dt, s->visit) : dt;
}

static inline void run_timers(State *s, double dt) {
  if (s->gen == GEN_ON_LOAD) s->on_load_h += dt;
  else if (s->gen != GEN_STOPPED) s->gen_timer -= dt;
  s->rest = most(0, s->rest - dt);
  for (int k = 0; k < PHASES; k++) s->trip[k] = most(0, s->trip[k] - dt);
  s->visit = most(0, s->visit - dt);
}

static inline void lose_site(const double *p, Site *z, int by_inverters) {
  State *s = &z->s;
  if (by_inverters && z->f.is_short == SHORT_ENERGY) s->site = SITE_CUT_OFF;
  if (s->site != SITE_CUT_OFF || s->visited || s->e > p[P_E_DEAD] + EPS) return;
  s->site = SITE_DEAD;
  call_person(p, s);
}

static inline void segment(const double *p, Site *z, double left) {
  State *s = &z->s;
  Flows *f = &z->f;
  settle_timers(p, z);
  int on_load = s->gen == GEN_ON_LOAD, alive = s->site == SITE_ON, by_inverters = alive && !on_load;
  if (on_load) {
    find_generator_needs(p, s, f);
    if (p[P_TRIP_RULE] == 1 && trip_phases(p, z, 1)) find_generator_needs(p, s, f);
  } else if (alive) {
    find_inverter_needs(p, s, f);
    if (p[P_TRIP_RULE] == 1) settle_overload(p, z);
  }
  f->dt = segment_length(s, left);
  flow(p, s, f, f->dt);
  double rate = 0;
  int running = s->gen >= GEN_WARMING, dry = 0;
  if (running) {
    double usable = s->tank - p[P_TANK_RESERVE];
    rate = fuel_rate(p, f->gen_kw);
    dry = p[P_TANK] == 1 && rate * f->dt > usable + EPS;
    for (int pass = 0; dry && pass < 60 && fabs(rate * f->dt - usable) > 1e-12; pass++) {
      f->dt = usable / rate;
      if (on_load) find_generator_needs(p, s, f);
      flow(p, s, f, f->dt);
      rate = fuel_rate(p, f->gen_kw);
    }
  }
  book_loads(p, z, !(on_load || alive));
  book_flows(p, z);
  if (running) book_engine(p, z, rate);
  if (by_inverters) book_derating(p, z);
  if (s->site == SITE_CUT_OFF) z->t[T_CUTOFF_H] += f->dt;
  else if (s->site == SITE_DEAD) z->t[T_DEAD_H] += f->dt;
  run_timers(s, f->dt);
  if (dry) stand_still(p, z, f->time + f->dt, 1);
  lose_site(p, z, by_inverters);
}

static inline void read_step(const double *p, Site *z, const Series *in, long i) {
  Flows *f = &z->f;
  double own = f->climate / PHASES;
  for (int k = 0; k < PHASES; k++) {
    f->load[k] = in->load[k][i];
    f->want[k] = f->load[k] + own;
    z->t[T_LOAD] += f->load[k] * p[P_STEP_H];
  }
  f->dc_array = in->dc[i];
  z->t[T_DC_POTENTIAL] += f->dc_array * p[P_STEP_H];
  f->heat_air_kwh = f->heat_battery_kwh = f->heater_kwh = f->cooler_kwh = 0;
}

static void run(const double *restrict p, Site *z, const Series *in) {
  double h = p[P_STEP_H];
  State *s = &z->s;
  Flows *f = &z->f;
  for (int k = 0; k < PHASES; k++) f->cap[k] = least(p[P_GEN_PHASE_KW + k], p[P_AC_INPUT]);
  for (long i = 0; i < in->count; i++) {
    f->time = i * h;
    if (p[P_TANK] == 1) take_deliveries(p, z);
    if (s->site == SITE_CUT_OFF && s->e >= p[P_E_RECONNECT] - EPS) {
      s->site = SITE_ON;
      s->visited = 0;
    }
    f->restricted = in->restricted[i];
    f->night = in->night[i];
    f->shown = least(p[P_CAPACITY], most(0, s->e));
    find_limits(p, s, f);
    if (p[P_CABINET] == 1) set_thermostats(p, s, f, in->air_c[i], in->sun[i]);
    read_step(p, z, in, i);
    read_conditions(p, s, f);
    decide_generator(p, s, f);
    for (double left = h; left > EPS;) {
      segment(p, z, left);
      left -= f->dt;
      f->time += f->dt;
    }
    hold_conditions(p, s, f);
    if (s->ordered) s->lead -= h;
    if (p[P_CABINET] == 1) step_temperatures(p, s, f, in->air_c[i], in->sun[i]);
    note_extremes(p, z);
  }
  if (s->gen >= GEN_WARMING) close_run(p, z, in->count * h, 0);
  if (s->outage_open) close_outage(z, in->count * h);
}

/* a site at the first instant, its log empty */
static Site fresh(const double *s, double *run_log, double *outage_log) {
  Site z = {.run_log = run_log, .outage_log = outage_log};
  z.s.e = s[S_E];
  z.s.air_c = s[S_AIR_C];
  z.s.cells_c = s[S_BATTERY_C];
  z.s.tank = z.x[X_LOWEST_TANK] = s[S_TANK];
  z.x[X_MIN_SOC] = z.x[X_COLDEST_CELL] = INFINITY;
  z.x[X_HOTTEST_CELL] = z.x[X_HOTTEST_AIR] = -INFINITY;
  return z;
}

static double *read_file(const char *name) {
  FILE *file = fopen(name, "rb");
  if (!file || fseek(file, 0, SEEK_END)) exit(1);
  long bytes = ftell(file);
  double *all = malloc(bytes);
  rewind(file);
  if (!all || fread(all, 1, bytes, file) != (size_t)bytes) exit(1);
  fclose(file);
  return all;
}

static void write_file(const char *name, const Site *z) {
  double ends[] = {z->s.e, z->s.tank, z->s.runs, z->s.outages};
  FILE *file = fopen(name, "wb");
  if (!file) exit(1);
  fwrite(z->t, sizeof z->t, 1, file);
  fwrite(z->x, sizeof z->x, 1, file);
  fwrite(ends, sizeof ends, 1, file);
  fwrite(z->run_log, sizeof(double) * RUN_FIELDS, z->s.runs, file);
  fwrite(z->outage_log, sizeof(double) * OUTAGE_FIELDS, z->s.outages, file);
  if (fclose(file)) exit(1);
}

int main(int argc, char **argv) {
  if (argc != 4) return 2;
  const double *all = read_file(argv[1]), *p = all + 1, *s = p + P_SIZE, *series = s + S_SIZE;
  long count = (long)all[0];
  Series in = {.count = count};
  const double **into[] = {&in.load[0], &in.load[1], &in.load[2], &in.dc, &in.air_c, &in.sun};
  for (int j = 0; j < 6; j++) *into[j] = series + j * count;
  in.restricted = (const unsigned char *)(series + 6 * count);
  in.night = in.restricted + count;
  double *run_log = malloc(sizeof(double) * RUN_FIELDS * (2 * count + 2));
  double *outage_log = malloc(sizeof(double) * OUTAGE_FIELDS * (28 * count + 2)); /* pages never touched take no room */
  if (!run_log || !outage_log) return 1;
  for (int n = atoi(argv[3]); n > 0; n--) {
    struct timespec from, to;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
    Site z = fresh(s, run_log, outage_log);
    run(p, &z, &in);
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &to);
    printf("%ld\n", (to.tv_sec - from.tv_sec) * 1000000000L + to.tv_nsec - from.tv_nsec);
    if (n == 1) write_file(argv[2], &z);
  }
  return 0;
}

const RAD = Math.PI / 180;

/** How snow lies on a plane and leaves it. */
export interface SnowRule {
  /** tilt of the plane, 0 to 90 [°] */
  tiltDeg: number;
  /** so much fresh snow within a day covers the plane whole [cm], > 0; Marion and others: 1 (from memory) */
  coverCm: number;
  /** snow slides where the air is warmer than −irradiance/this [W/(m²·K)]; 80 (from memory) */
  slideWPerM2K: number;
  /** share of the slope that an upright plane sheds in an hour of sliding; 0.197 (from memory) */
  slidePerH: number;
  /** snow on open ground that melts by a kelvin above 0 °C in a day, as water [mm]; common practice: 4 */
  meltMmPerKDay: number;
  /** rows of modules up the slope that are each lost whole while snow lies on any of them; 0: in proportion */
  rowsUpSlope: number;
}

/**
 * Share of an array's output that is lost to snow on it.
 * A fall of `coverCm` within 24 hours covers the plane whole; more snow covers it anew. Where it is warm or sunny
 * enough the snow slides, straight in time, faster on a steep plane; a flat one sheds nothing. Once the fallen snow
 * would have melted from open ground the plane is bare too. The rules hold for steps of any length: what begins or
 * ends within a step counts for its part of it (to the step: snow that both covers and slides within one, and the end
 * of the day in which falls add up).
 * @param out         written: mean over each step, 0 to 1
 * @param fallCmPerH  fresh snow [cm/h], >= 0
 * @param airC        air temperature [°C]
 * @param poaWPerM2   irradiance on the plane, snow or not [W/m²]; all as long as `out`, finite
 * @param stepMin     a whole number that divides a day
 * Source: Marion, Schaefer, Caine and Sanchez, Solar Energy 97, 2013, 112-121 (its numbers from memory). The day in
 * which light falls add up, and the melt by degree-days with ten times the depth of the water, are common practice.
 */
export function snowLossInto(
  out: Float64Array,
  fallCmPerH: Float64Array,
  airC: Float64Array,
  poaWPerM2: Float64Array,
  stepMin: number,
  rule: SnowRule,
): void {
  const stepH = stepMin / 60;
  const fresh = new FreshSnow(fallCmPerH, stepMin);
  const slidePerH = rule.slidePerH * Math.sin(rule.tiltDeg * RAD);
  // 1 mm of water is 1 cm of snow
  const meltCmPerKH = rule.meltMmPerKDay / 24;
  let groundCm = 0;
  let cover = 0;
  for (let i = 0; i < out.length; i++) {
    const gain = fallCmPerH[i] - meltCmPerKH * Math.max(0, airC[i]);
    const bareAtH = groundCm + gain * stepH > 0 ? stepH : Math.min(stepH, gain < 0 ? -groundCm / gain : 0);
    groundCm = Math.max(0, groundCm + gain * stepH);
    const rate = airC[i] > -poaWPerM2[i] / rule.slideWPerM2K ? slidePerH : 0;
    const coverAtH = fresh.coversAtH(i, rule.coverCm);
    if (coverAtH !== null && groundCm > 0) {
      out[i] = Math.min(1, (lostOver(cover, rate, coverAtH, rule.rowsUpSlope) + stepH - coverAtH) / stepH);
      cover = 1;
    } else {
      out[i] = Math.min(1, lostOver(cover, rate, bareAtH, rule.rowsUpSlope) / stepH);
      cover = groundCm > 0 ? Math.max(0, cover - rate * stepH) : 0;
    }
  }
}

/** Fresh snow of the last 24 hours that has not covered the plane yet. */
class FreshSnow {
  private readonly stepH: number;
  private readonly stepsADay: number;
  private cm = 0;
  /** from the step at which it was last used up, of which `rest` is left */
  private restAt = -1;
  private rest = 0;

  constructor(
    private readonly fallCmPerH: Float64Array,
    stepMin: number,
  ) {
    this.stepH = stepMin / 60;
    this.stepsADay = 1440 / stepMin;
  }

  /** Takes the fall of a step, one after the other. @returns when in the step it covers the plane [h]; null: not */
  coversAtH(i: number, coverCm: number): number | null {
    const old = i - this.stepsADay;
    if (old === this.restAt) this.cm -= this.rest;
    else if (old > this.restAt) this.cm -= this.fallCmPerH[old] * this.stepH;
    const before = Math.max(0, this.cm);
    const fall = this.fallCmPerH[i];
    this.cm = before + fall * this.stepH;
    // what rounding leaves of falls that have been taken off again is none
    if (fall <= 0 || this.cm < coverCm - 1e-9) return null;
    const atH = Math.min(this.stepH, Math.max(0, (coverCm - before) / fall));
    this.rest = Math.max(0, this.cm - coverCm) % coverCm;
    this.restAt = i;
    this.cm = this.rest;
    return atH;
  }
}

/** Integral of the lost share while the cover slides straight from `cover` for `hours`, at most to none [h]. */
function lostOver(cover: number, ratePerH: number, hours: number, rows: number): number {
  if (cover <= 0) return 0;
  if (ratePerH <= 0) return hours * (rows > 0 ? Math.min(1, Math.ceil(cover * rows - 1e-9) / rows) : cover);
  const left = Math.max(0, cover - ratePerH * hours);
  return (lostBelow(cover, rows) - lostBelow(left, rows)) / ratePerH;
}

/** Integral of the lost share over the cover, from 0: of the cover itself, or of the rows that it touches. */
function lostBelow(cover: number, rows: number): number {
  if (rows <= 0) return (cover * cover) / 2;
  const whole = Math.floor(cover * rows);
  return (whole * (whole + 1)) / 2 / (rows * rows) + (cover - whole / rows) * ((whole + 1) / rows);
}

import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { readLog } from '../../../src/scenarios/log/read-log.ts';
import { recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import { RECORDED, type Recorded, type SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import type { Truth } from '../../../src/scenarios/log/truth.ts';
import { logCsv, type Writing } from '../../../src/scenarios/log/write-log.ts';
import { Filed } from '../../../src/scenarios/many/ground.ts';
import { type Site, siteSchema } from '../../../src/scenarios/site-schema.ts';
import { type DemoSite, type SiteFiles, truthUnderSun, underTrueSun } from './true-sun.ts';

const OFFSET_H: Record<DemoSite, number> = { farm: 1, workshop: 10, hut: 10 };

/** Everything that a recorder sees in a year, of each site; made once. */
const made = new Map<DemoSite, { files: SiteFiles; site: Site; truth: Truth }>();
function madeOf(name: DemoSite) {
  const before = made.get(name);
  if (before) return before;
  const files = underTrueSun(name);
  const one = { files, site: new Filed(files.text, files.file).site, truth: truthUnderSun(files) };
  made.set(name, one);
  return one;
}

/** The truth of some of its days, for a recorder that was set up late. */
function someDays(truth: Truth, fromDay: number, days: number): Truth {
  const perDay = 1440 / truth.axis.stepMin;
  const cut = (values: Float64Array) => values.slice(fromDay * perDay, (fromDay + days) * perDay);
  const orNull = (values: Float64Array | null) => values && cut(values);
  return {
    axis: { ...truth.axis, startS: truth.axis.startS + fromDay * 86_400, count: days * perDay },
    loadKw: truth.loadKw.map(cut),
    arraysKw: Object.fromEntries(Object.entries(truth.arraysKw).map(([name, kw]) => [name, cut(kw)])),
    batteryKw: cut(truth.batteryKw),
    generatorKw: cut(truth.generatorKw),
    generatorOn: cut(truth.generatorOn),
    socFrac: orNull(truth.socFrac),
    fuelL: orNull(truth.fuelL),
    cabinetC: cut(truth.cabinetC),
    cellC: cut(truth.cellC),
    outsideC: orNull(truth.outsideC),
    sunWPerM2: orNull(truth.sunWPerM2),
  };
}

/** One writing in sixty: of a site, a stretch of the year, a choice of columns, by one careless recorder. */
function drawn(k: number) {
  const draw = seedrandom(`round trip ${k}`);
  const name = (['farm', 'workshop', 'hut'] as const)[k % 3];
  const { truth, site } = madeOf(name);
  const stepMin = [5, 10, 15][Math.floor(draw() * 3)];
  const others = RECORDED.filter((one) => one !== 'arrayKw' && one !== 'sunWPerM2' && draw() < 0.7);
  const columns: Recorded[] = [
    ...others,
    ...(draw() < 0.7 ? (['arrayKw'] as const) : (['sunWPerM2'] as const)),
  ];
  const days = draw() < 0.1 ? 365 : 60 + Math.floor(draw() * 60);
  const part = someDays(truth, Math.floor(draw() * (365 - days)), days);
  const arraysAlone = draw() < 0.5;
  const record = recordTruth(part, { ...USUAL_RECORDER, stepMin, columns, arraysAlone, seed: String(k) });
  const kind = Math.floor(draw() * 4);
  const writing: Writing = {
    seed: String(k),
    stamp: draw() < 0.5 ? 'start' : 'end',
    offsetH: OFFSET_H[name],
    watts: draw() < 0.5,
    percent: draw() < 0.5,
    battery: (['charging', 'discharging', 'untold'] as const)[Math.floor(draw() * 3)],
    decimalComma: draw() < 0.4,
    // right; off by whole hours; off by some minutes; drifting
    aheadH: [
      0,
      Math.round(draw() * 20 - 10) || 1,
      (draw() < 0.5 ? -1 : 1) * (0.5 + 2 * draw()),
      0.3 * draw(),
    ][kind],
    aheadHPerDay: kind === 3 ? ((draw() < 0.5 ? -1 : 1) * (1 + 2 * draw())) / 60 : 0,
    missingShare: draw() < 0.5 ? 0.02 : 0,
    shuffled: draw() < 0.5,
    headerAgain: draw() < 0.3,
  };
  return { name, site, record, writing, kind };
}

function readBack(site: Site, record: SiteRecord, writing: Writing) {
  const { csv, log } = logCsv(record, writing);
  const withLog = { ...site, log: siteSchema.shape.log.parse({ file: 'log.csv', ...log }) };
  return readLog(
    withLog,
    () => new TextEncoder().encode(csv),
    () => ({ file: 'site.yaml' }),
  );
}

/** Half of the last digit written, and of the arithmetic. */
const ROUNDING: Partial<Record<Recorded, number>> = { socFrac: 6e-5, generatorOn: 6e-5 };

/** How many steps of a quantity differ, of those that the read record has, and how many it lost. */
function compared(back: SiteRecord, written: SiteRecord, name: Recorded) {
  const a = back.columns[name] as Float64Array;
  const b = written.columns[name] as Float64Array;
  const shift = (back.axis.startS - written.axis.startS) / (written.axis.stepMin * 60);
  let [wrong, lost, known] = [0, 0, 0];
  for (let i = 0; i < b.length; i++) {
    if (Number.isNaN(b[i])) continue;
    known++;
    const value = a[i - shift];
    if (value === undefined || Number.isNaN(value)) lost++;
    else if (Math.abs(value - b[i]) > (ROUNDING[name] ?? (name.endsWith('Kw') ? 6e-4 : 6e-3))) wrong++;
  }
  return { wrong, lostShare: lost / known };
}

describe('a log written by a careless recorder and read back', () => {
  it.each(Array.from({ length: 60 }, (_, k) => k))(
    'is the same, and its clock is found: writing %i',
    (k) => {
      const { site, record, writing, kind } = drawn(k);
      const { record: back, issues } = readBack(site, record, writing);
      expect(issues.filter(({ severity }) => severity === 'error')).toEqual([]);
      if (back === null) throw new Error('no record');
      const { clock } = back.sheet;
      const drift = clock.driftHPerDay + writing.aheadHPerDay;
      expect(Math.abs(drift) * 60 * 7).toBeLessThan(2);
      const days = (record.axis.count * record.axis.stepMin) / 1440;
      const middle = clock.addedH + writing.aheadH + (drift * days) / 2;
      expect(Math.abs(middle) * 60).toBeLessThan(10);
      const isExact = Math.abs(clock.addedH + writing.aheadH) < 1e-9 && drift === 0;
      if (kind < 2) expect(isExact).toBe(true);
      for (const name of Object.keys(record.columns) as Recorded[]) {
        expect(back.columns[name]).toBeDefined();
        // nothing tells the sign of a battery by itself
        const isUntold =
          name === 'batteryKw' &&
          issues.some(({ code, want }) => code === 'sign' && want.endsWith('taken as charging'));
        if (isUntold) expect(record.columns.socFrac).toBeUndefined();
        if (!isExact || isUntold) continue;
        const { wrong, lostShare } = compared(back, record, name);
        expect([name, wrong]).toEqual([name, 0]);
        expect(lostShare).toBeLessThanOrEqual(writing.missingShare > 0 ? 0.03 : 0);
      }
    },
    60_000,
  );
});

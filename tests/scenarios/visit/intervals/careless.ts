import { readLog } from '../../../../src/scenarios/log/read-log.ts';
import type { RecorderTraits } from '../../../../src/scenarios/log/recorder.ts';
import { RECORDED, type SiteRecord } from '../../../../src/scenarios/log/site-record.ts';
import { logCsv } from '../../../../src/scenarios/log/write-log.ts';
import { Filed } from '../../../../src/scenarios/many/ground.ts';
import { normal } from '../../../../src/scenarios/normal-draw.ts';
import { between, type Draw } from './drawn-site.ts';

/** A recorder: some have no column of the whole load on three phases. */
export function traitsOf(
  { stepMin, phases, seed }: { stepMin: number; phases: number; seed: string },
  draw: Draw,
): RecorderTraits {
  const phasesOnly = draw() < 0.4 && phases > 1;
  return {
    ...{ stepMin, seed },
    arraysAlone: draw() < 0.5,
    columns: RECORDED.filter((name) => name !== 'loadKw' || !phasesOnly),
    noiseFrac: between(draw, 0.003, 0.02),
    noiseK: between(draw, 0.05, 0.3),
    noiseL: between(draw, 0.3, 1.5),
    quantum: { socFrac: 0.01, kw: 0.01, c: 0.1, l: draw() < 0.5 ? 1 : 0.1, wPerM2: 1 },
    gapsADay: between(draw, 0, 0.15),
    longestGapH: between(draw, 1, 24),
  };
}

/**
 * A clock that is some minutes wrong after it was put right, and a sensor of the sun with its own error (2 %). The
 * first and the last day are left out: with another clock they have a step outside of the site file's period.
 */
export function imperfect(record: SiteRecord, draw: Draw): SiteRecord {
  const minutes = Math.floor(between(draw, -4, 5));
  const sun = 1 + 0.02 * normal(draw);
  const { axis, columns, arraysKw } = record;
  const day = 1440 / axis.stepMin;
  const inner = <T extends Record<string, Float64Array>>(all: T) =>
    Object.fromEntries(Object.entries(all).map(([name, values]) => [name, values.slice(day, -day)])) as T;
  const kept = inner(columns as Record<string, Float64Array>);
  if (kept.sunWPerM2) kept.sunWPerM2 = kept.sunWPerM2.map((w) => w * sun);
  return {
    ...record,
    axis: { ...axis, startS: axis.startS + 60 * (minutes + 1440), count: axis.count - 2 * day },
    columns: kept,
    arraysKw: inner(arraysKw),
  };
}

/** The record after it was written as a file by a recorder whose clock drifts, and read again. */
export function writtenAndRead(record: SiteRecord, text: string, draw: Draw, seed: string): SiteRecord {
  const { csv, log } = logCsv(record, {
    ...{ seed, stamp: draw() < 0.5 ? 'start' : 'end', offsetH: 0, watts: draw() < 0.5, percent: true },
    ...{
      battery: 'discharging',
      decimalComma: false,
      missingShare: 0.002,
      shuffled: false,
      headerAgain: false,
    },
    ...{ aheadH: between(draw, -0.2, 0.2), aheadHPerDay: between(draw, -0.003, 0.003) },
  });
  const group = JSON.stringify({ file: 'written.csv', timeZone: 'UTC', ...log });
  const filed = new Filed(`${text}\nlog: ${group}\n`, 'written.yaml');
  const read = readLog(filed.site, () => new TextEncoder().encode(csv), filed.placeOf);
  if (read.record === null) throw new Error(JSON.stringify(read.issues));
  return read.record;
}

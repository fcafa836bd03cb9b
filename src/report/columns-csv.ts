import type { AlternativeResult, Study } from '../scenarios/study.ts';

/**
 * The per-step columns of an alternative as CSV: UTC stamp at the start of the step, load by phase, and every
 * column of the run. Numbers are rounded to a watt, a ten-thousandth of charge, a hundredth of a degree.
 */
export function columnsCsv(result: AlternativeResult, study: Study): Uint8Array {
  const { inputs, columns } = result;
  const { startS, stepMin } = study.axis;
  const series: [string, ArrayLike<number>, number][] = [
    ...inputs.loadKw.map((kw, k): [string, ArrayLike<number>, number] => [`load ${k + 1} kW`, kw, 1000]),
    ['DC array kW', columns.dcUsedKw, 1000],
    ['AC array kW', columns.acUsedKw, 1000],
    ['battery kW', columns.batteryKw, 1000],
    ['SoC', columns.socFrac, 10_000],
    ['generator kW', columns.generatorKw, 1000],
    ['curtailed kW', columns.curtailedKw, 1000],
    ['unserved kW', columns.unservedKw, 1000],
    ['cabinet C', columns.cabinetC, 100],
    ['cell C', columns.cellC, 100],
    ['cause', columns.cause, 1],
  ];
  const rows: string[] = [`# ${study.site.name}: ${result.name}; cause 0 stands, else 1 + start cause\n`];
  rows.push(`UTC,${series.map(([name]) => name).join(',')}\n`);
  for (let i = 0; i < inputs.count; i++) {
    let row = new Date((startS + i * stepMin * 60) * 1000).toISOString().slice(0, 16);
    for (const [, values, per] of series) row += `,${Math.round(values[i] * per) / per}`;
    rows.push(`${row}\n`);
  }
  return new TextEncoder().encode(rows.join(''));
}

/**
 * Makes the logs of the demonstration sites, all invented: each site as it "really" was for a year, with another
 * weather than it was designed for and something that changed in spring, seen by a recorder that is not perfect.
 * What changed stands here and nowhere else, so that the reading of a log can be held against it.
 * `node profiles/logs.mjs` (after `npm run build`) writes what is missing; with `--all` it writes everything anew.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import seedrandom from 'seedrandom';
import { logCsv, recordTruth, simulateTruth, USUAL_RECORDER } from '../dist/made-log.js';

const HERE = fileURLToPath(new URL('.', import.meta.url));

/** Day of the year from which something is so, from 0. */
const FEBRUARY_15 = 45;
const APRIL_10 = 99;
const MAY_4 = 123;

/**
 * The sun of the year that was logged: every day has its own share of the designed weather's, and it keeps the sun's
 * time, where the designed weather has noon at twelve all year.
 * @param eastDeg longitude less that of the clock's meridian [°]
 */
function otherSun(text, column, eastDeg, seed) {
  const draw = seedrandom(seed);
  const lines = text.trimEnd().split('\n');
  const head = lines.findIndex((line) => !line.startsWith('#'));
  const at = lines[head].split(',').indexOf(column);
  const rows = lines.slice(head + 1).map((line) => line.split(','));
  const designed = rows.map((cells) => Number(cells[at]));
  let share = 1;
  for (const [hour, cells] of rows.entries()) {
    if (hour % 24 === 0) share = 0.7 + 0.45 * draw();
    const later = hour + (equationOfTimeMin(hour / 24) + 4 * eastDeg) / 60;
    const before = Math.floor(later);
    const part = later - before;
    const of = (index) => designed[(index + designed.length) % designed.length];
    cells[at] = (share * ((1 - part) * of(before) + part * of(before + 1))).toFixed(0);
  }
  return [...lines.slice(0, head + 1), ...rows.map((cells) => cells.join(','))].join('\n');
}

/** How far the sun is ahead of the clock [min], a common approximation (from memory). @param day of the year */
function equationOfTimeMin(day) {
  const angle = (2 * Math.PI * (day - 80)) / 365;
  return 9.87 * Math.sin(2 * angle) - 7.53 * Math.cos(angle) - 1.5 * Math.sin(angle);
}

/** More or less of the load on all phases. */
const timesLoad = (factor) => (inputs) => ({
  ...inputs,
  loadKw: inputs.loadKw.map((kw) => kw.map((one) => one * factor)),
});

/** Something on one phase that never switches off [kW]. */
const alwaysOn = (phase, more, edit) => (inputs) => {
  const edited = edit(inputs);
  return {
    ...edited,
    loadKw: edited.loadKw.map((kw, k) => (k === phase - 1 ? kw.map((one) => one + more) : kw)),
  };
};

/** The farm's recorder adds nothing up: loads by phase, arrays one by one. */
const FARM_COLUMNS = [
  ...['socFrac', 'load1Kw', 'load2Kw', 'load3Kw', 'batteryKw', 'generatorKw', 'generatorOn', 'fuelL'],
  ...['cabinetC', 'cellC', 'outsideC', 'sunWPerM2'],
];

const LOGS = {
  'logs/farm.csv': {
    site: 'sites/farm.yaml',
    ...{ sun: 'global W/m2', eastDeg: 0 },
    recorder: { columns: FARM_COLUMNS, stepMin: 5, noiseFrac: 0.01, gapsADay: 0.04, longestGapH: 10 },
    // the recorder's clock runs fast
    writing: { offsetH: 1, aheadH: 0.1, aheadHPerDay: 0.004 },
    stretches: [
      // the load has been a tenth more than was designed for from the beginning
      { fromDay: 0, changes: {}, edit: timesLoad(1.1) },
      // one of the shed's four strings is lost
      {
        fromDay: APRIL_10,
        changes: { 'arrays.shed.kWp': 6, 'arrays.shed.strings.strings': 3 },
        edit: timesLoad(1.1),
      },
      // and somebody sets the generator to start at 45 %, while a heater is left on in the milking parlour
      {
        fromDay: MAY_4,
        changes: {
          'arrays.shed.kWp': 6,
          'arrays.shed.strings.strings': 3,
          'control.charge.startSoc': 0.45,
        },
        edit: alwaysOn(2, 0.6, timesLoad(1.1)),
      },
    ],
  },
  'logs/workshop.csv': {
    site: 'sites/workshop.yaml',
    ...{ sun: 'global W/m2', eastDeg: -1 },
    recorder: { stepMin: 10, noiseFrac: 0.015, gapsADay: 0.03, longestGapH: 20 },
    // it was never told about the site's time zone: it writes an hour too much
    writing: { offsetH: 10, aheadH: 1, watts: false, battery: 'untold' },
    stretches: [
      // two of sixteen modules' worth of capacity is not there from the beginning
      { fromDay: 0, changes: { 'battery.moduleKwh': 4.4 } },
      // a new machine, a fifth more load, from the middle of February
      { fromDay: FEBRUARY_15, changes: { 'battery.moduleKwh': 4.4 }, edit: timesLoad(1.2) },
      // the chargers give six tenths of what is set, and the meter of charge shows too much
      {
        fromDay: APRIL_10,
        changes: {
          'battery.moduleKwh': 4.4,
          'inverter.chargerKw': 6,
          'battery.display': { driftPerDay: 0.006 },
        },
        edit: timesLoad(1.2),
      },
    ],
  },
};

/** How the recorders write, but for what each does otherwise. */
const WRITING = {
  ...{ stamp: 'end', offsetH: 1, watts: true, percent: true, battery: 'discharging', decimalComma: false },
  ...{ aheadH: 0, aheadHPerDay: 0, missingShare: 0, shuffled: false, headerAgain: false },
};

for (const [path, { site, sun, eastDeg, recorder, writing, stretches }] of Object.entries(LOGS)) {
  const file = HERE + path;
  if (existsSync(file) && !process.argv.includes('--all')) continue;
  const readFile = (name) => {
    const bytes = readFileSync(HERE + site.replace(/[^/]+$/, name));
    if (!name.includes('weather/')) return bytes;
    return new TextEncoder().encode(otherSun(bytes.toString('utf8'), sun, eastDeg, `sun of ${path}`));
  };
  const truth = simulateTruth({
    text: readFileSync(HERE + site, 'utf8'),
    file: site,
    readFile,
    stepMin: 1,
    stretches,
  });
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth, null, 2));
  const record = recordTruth(truth, { ...USUAL_RECORDER, ...recorder, seed: path });
  const { csv, log } = logCsv(record, { ...WRITING, ...writing, seed: path });
  mkdirSync(`${HERE}logs`, { recursive: true });
  const note = `# invented for demonstration by profiles/logs.mjs: a recorder's log of a site that does not exist\n`;
  writeFileSync(file, note + csv);
  if (process.argv.includes('--declare')) console.log(JSON.stringify(log));
}

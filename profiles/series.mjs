/**
 * The demonstration data: loads and weather, all invented, from a fixed seed. Runs in Node (make.mjs) and in a
 * browser (the workbench), and gives the same text in both.
 */
import seedrandom from 'seedrandom';

const YEAR = 2025;
const DAYS = 365;
const RAD = Math.PI / 180;

/** Monthly means are invented for no particular place: clearness, day temperature, swing of a clear day. */
const CLIMATES = {
  alpine: {
    latDeg: -36.5,
    clear: [0.58, 0.57, 0.56, 0.53, 0.48, 0.45, 0.46, 0.48, 0.52, 0.54, 0.56, 0.58],
    meanC: [15, 15, 12, 8, 4, 1, 0, 1, 4, 7, 10, 13],
    swingC: 9,
  },
  inland: {
    latDeg: 47,
    clear: [0.36, 0.42, 0.46, 0.48, 0.5, 0.52, 0.54, 0.53, 0.5, 0.44, 0.36, 0.33],
    meanC: [-4, -2, 3, 8, 13, 17, 19, 18, 14, 8, 2, -3],
    swingC: 10,
  },
  warm: {
    latDeg: -33,
    clear: [0.6, 0.58, 0.58, 0.57, 0.54, 0.52, 0.55, 0.58, 0.6, 0.6, 0.6, 0.6],
    meanC: [27, 26, 23, 18, 14, 11, 10, 12, 16, 19, 22, 25],
    swingC: 13,
  },
};

/** Hourly weather of a typical year; local standard time, stamped at the start of the hour. */
function weatherCsv(name) {
  const { latDeg, clear, meanC, swingC } = CLIMATES[name];
  const draw = seedrandom(`weather ${name}`);
  const rows = [];
  let dull = 0;
  let drift = 0;
  let total = 0;
  for (let day = 0; day < DAYS; day++) {
    const month = new Date(Date.UTC(YEAR, 0, day + 1)).getUTCMonth();
    // dull spells last: most of yesterday's sky stays
    dull = 0.72 * dull + 0.5 * (draw() + draw() - 1);
    drift = 0.75 * drift + 3 * (draw() + draw() - 1);
    const clearness = Math.min(0.74, Math.max(0.06, clear[month] + 0.62 * dull));
    const declination = 23.45 * RAD * Math.sin((2 * Math.PI * (284 + day + 1)) / 365);
    for (let hour = 0; hour < 24; hour++) {
      const angle = (hour + 0.5 - 12) * 15 * RAD;
      const lat = latDeg * RAD;
      const cosZ =
        Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(angle);
      const cloud = 0.82 + 0.36 * draw();
      const top = cosZ > 0.02 ? 1098 * cosZ * Math.exp(-0.059 / cosZ) : 0;
      const global = cosZ > 0.02 ? Math.min(top, 1361 * cosZ * clearness * cloud) : 0;
      total += global / 1000;
      const swing = swingC * (0.3 + 0.9 * clearness) * Math.cos(((hour - 14.5) * 2 * Math.PI) / 24) * 0.5;
      const air = meanC[month] + drift + swing;
      const wind = 1 + 3 * draw();
      const stamp = `${isoDay(day)} ${two(hour)}:00`;
      rows.push(`${stamp},${global.toFixed(0)},${air.toFixed(1)},${wind.toFixed(1)}`);
    }
  }
  const notes = [
    '# invented for demonstration by profiles/make.mjs: a typical year of no particular place',
    `# local standard time, stamped at the start of the hour; ${total.toFixed(0)} kWh/m2 a year`,
  ];
  return ascii([...notes, 'time,global W/m2,air C,wind m/s', ...rows, ''].join('\n'));
}

/** Farm, a minute at a time: house, milking twice a day, milk cooling, cool room, hot water, workshop. */
function farmCsv() {
  const draw = seedrandom('load farm');
  const phases = [0, 1, 2].map(() => new Float32Array(DAYS * 1440));
  const add = (phase, from, minutes, kw) => {
    for (let i = Math.max(0, from); i < Math.min(phases[phase].length, from + minutes); i++)
      phases[phase][i] += kw;
  };
  const addAll = (from, minutes, kw) => {
    for (const phase of [0, 1, 2]) add(phase, from, minutes, kw);
  };
  // a motor draws several times its power for some seconds: a little more in the mean of its first minute
  const motor = (phase, from, minutes, kw) => {
    add(phase, from, 1, kw * 0.15);
    add(phase, from, minutes, kw);
  };
  for (let day = 0; day < DAYS; day++) {
    const start = day * 1440;
    const warmth = 0.5 - 0.5 * Math.cos((2 * Math.PI * (day - 15)) / 365);
    const at = (hour) => start + Math.round(hour * 60 + 12 * (draw() - 0.5));
    for (const [phase, kw] of [0.22, 0.12, 0.12].entries()) add(phase, start, 1440, kw);
    for (const hour of [5.6, 16.2]) {
      const from = at(hour);
      motor(1, from, 100, 2.4);
      // now and then the yard is washed down while milking: the peak that the rule for peaks is for
      if (draw() < 0.15) motor(1, from + 70, 14, 2.4);
      for (let k = 0; k < 10; k++) motor(2, from + 10 * k, 3, 0.9);
      addAll(from + 20, 130, 0.75);
      add(2, from + 95, 70 + Math.round(20 * (1 - warmth)), 3);
    }
    for (let minute = Math.floor(15 * draw()); minute < 1440; ) {
      const on = Math.round(7 + 6 * warmth);
      addAll(start + minute, 1, 0.1);
      addAll(start + minute, on, 0.6);
      minute += on + 22 + Math.floor(6 * draw());
    }
    add(0, at(6), 25, 1.6);
    add(0, at(7), 12, 2);
    add(0, at(12), 35, 2.2);
    add(0, at(18.2), 45, 2.4);
    add(0, at(17.5), 300, 0.25 + 0.25 * (1 - warmth));
    if (draw() < 0.35) motor(0, at(10), 60, 1.2);
    if (day % 7 < 5 && draw() < 0.4) motor(1, at(9 + 5 * draw()), 20 + Math.floor(30 * draw()), 2.6);
    if (draw() < 0.3) add(2, at(9 + 6 * draw()), 15, 3.2);
  }
  return loadCsv('farm', 1, phases);
}

/** Workshop, five minutes at a time: shifts with breaks, machines, compressor, welding on two phases. */
function workshopCsv() {
  const draw = seedrandom('load workshop');
  const count = DAYS * 288;
  const phases = [0, 1, 2].map(() => new Float32Array(count).fill(0.28));
  for (let day = 0; day < DAYS; day++) {
    const weekday = new Date(Date.UTC(YEAR, 0, day + 1)).getUTCDay();
    const works = weekday >= 1 && weekday <= 5 && day > 8 && day < 355;
    const welds = draw() < 0.55;
    for (let step = 0; step < 288; step++) {
      const i = day * 288 + step;
      const hour = step / 12;
      const shift =
        works && hour >= 7 && hour < 15.75 && !(hour >= 9.5 && hour < 9.75) && !(hour >= 12 && hour < 12.5);
      if (!shift) continue;
      const compressor = draw() < 0.38 ? 2.6 : 0.2;
      for (const phase of [0, 1, 2]) phases[phase][i] += 1.2 + compressor + 2.6 * draw() * draw();
      if (draw() < 0.3) phases[2][i] += 2.2;
      if (welds && draw() < 0.22) {
        const kw = 5 + 5.5 * draw();
        phases[0][i] += kw;
        phases[1][i] += kw;
      }
    }
  }
  return loadCsv('workshop', 5, phases);
}

/** Hut, a quarter of an hour at a time: empty in the week, people on weekends and in holidays. */
function hutCsv() {
  const draw = seedrandom('load hut');
  const count = DAYS * 96;
  const load = new Float32Array(count);
  for (let day = 0; day < DAYS; day++) {
    const weekday = new Date(Date.UTC(YEAR, 0, day + 1)).getUTCDay();
    const holidays = day < 18 || (day > 186 && day < 200);
    const there = holidays || ((weekday === 6 || weekday === 0) && draw() < 0.75);
    for (let step = 0; step < 96; step++) {
      const i = day * 96 + step;
      const hour = step / 4;
      load[i] = 0.015;
      if (!there) continue;
      load[i] += draw() < 0.4 ? 0.08 : 0.01;
      if (hour >= 7 && hour < 22.5) load[i] += 0.05;
      if ((hour >= 7.5 && hour < 8.25) || (hour >= 18 && hour < 19)) load[i] += 0.5 + 0.9 * draw();
      if (hour >= 17.5 && hour < 22.5) load[i] += 0.12;
      if (draw() < 0.05 && hour > 8 && hour < 20) load[i] += 0.55;
    }
  }
  return loadCsv('hut', 15, [load]);
}

/** As bytes: half a million lines put together as text would keep a browser waiting. */
function loadCsv(name, stepMin, phases) {
  const head = [
    `# invented for demonstration by profiles/make.mjs: a ${name} that does not exist\n`,
    `# local standard time, stamped at the start of the interval\n`,
    `time,${phases.map((_, k) => `phase ${k + 1} kW`).join(',')}\n`,
  ];
  const steps = phases[0].length;
  const bytes = new Uint8Array(1000 + steps * (18 + 9 * phases.length));
  let end = 0;
  const put = (part) => {
    for (let i = 0; i < part.length; i++) bytes[end++] = part[i];
  };
  put(ascii(head.join('')));
  const times = Array.from({ length: 1440 / stepMin }, (_, i) => {
    const minute = i * stepMin;
    return ascii(` ${two(Math.floor(minute / 60))}:${two(minute % 60)}`);
  });
  const values = [];
  for (let i = 0, day = 0; day < DAYS; day++) {
    const date = ascii(isoDay(day));
    for (const time of times) {
      put(date);
      put(time);
      for (const phase of phases) {
        const watts = Math.round(phase[i] * 1000);
        values[watts] ??= ascii(`,${watts / 1000}`);
        put(values[watts]);
      }
      bytes[end++] = 10;
      i++;
    }
  }
  return bytes.slice(0, end);
}

function ascii(text) {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

function isoDay(day) {
  return new Date(Date.UTC(YEAR, 0, day + 1)).toISOString().slice(0, 10);
}

function two(value) {
  return String(value).padStart(2, '0');
}

export const FILES = {
  'weather/alpine.csv': () => weatherCsv('alpine'),
  'weather/inland.csv': () => weatherCsv('inland'),
  'weather/warm.csv': () => weatherCsv('warm'),
  'loads/hut.csv': hutCsv,
  'loads/farm.csv': farmCsv,
  'loads/workshop.csv': workshopCsv,
};

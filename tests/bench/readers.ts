/** Yardsticks of the readers: time, and memory beside the size of the file. Made data, read several times. */
import { readCsv } from '../../src/scenarios/read-csv.ts';
import { readGreenButton } from '../../src/scenarios/read-greenbutton.ts';
import { readNem12 } from '../../src/scenarios/read-nem12.ts';

const bytes = (text: string) => new TextEncoder().encode(text);

function minuteCsv(): Uint8Array {
  const rows = ['time,a,b,c,d'];
  const start = Date.UTC(2025, 0, 1);
  for (let i = 0; i < 525_600; i++) {
    const stamp = new Date(start + i * 60_000).toISOString().slice(0, 16).replace('T', ' ');
    rows.push(`${stamp},${(i % 977) / 100},${(i % 311) / 100},1.25,${(i % 89) / 10}`);
  }
  return bytes(`${rows.join('\n')}\n`);
}

function fiveMinuteNem12(): Uint8Array {
  const rows = Array.from({ length: 365 }, (_, day) => {
    const date = new Date(Date.UTC(2025, 0, 1 + day)).toISOString().slice(0, 10).replaceAll('-', '');
    const values = Array.from({ length: 288 }, (_, i) => (((day * 288 + i) * 7919) % 997) / 1000);
    return `300,${date},${values.join(',')},A,,,20260101000000,`;
  });
  return bytes(
    ['100,NEM12,202601010000,A,B', '200,1234567890,E1,E1,E1,N1,X,kWh,5,', ...rows, '900', ''].join('\n'),
  );
}

function quarterHourGreenButton(): Uint8Array {
  const start = Date.UTC(2025, 0, 1) / 1000;
  const days = Array.from({ length: 365 }, (_, day) => {
    const readings = Array.from({ length: 96 }, (_, i) => {
      const at = start + day * 86_400 + i * 900;
      return `<IntervalReading><timePeriod><duration>900</duration><start>${at}</start></timePeriod><value>${((day * 96 + i) * 7919) % 997}</value></IntervalReading>`;
    });
    return `<entry><content><IntervalBlock xmlns="http://naesb.org/espi"><interval><duration>86400</duration><start>${start + day * 86_400}</start></interval>${readings.join('\n')}</IntervalBlock></content></entry>`;
  });
  const type =
    '<entry><content><ReadingType xmlns="http://naesb.org/espi"><accumulationBehaviour>4</accumulationBehaviour><commodity>1</commodity><flowDirection>1</flowDirection><intervalLength>900</intervalLength><uom>72</uom></ReadingType></content></entry>';
  return bytes(`<feed xmlns="http://www.w3.org/2005/Atom">${type}${days.join('\n')}</feed>`);
}

function measure(name: string, file: Uint8Array, read: () => { series: unknown[] }): void {
  const taken: number[] = [];
  let grown = 0;
  for (let i = 0; i < 5; i++) {
    const before = process.memoryUsage();
    const start = performance.now();
    if (read().series.length === 0) throw new Error(`${name} was not read`);
    taken.push(performance.now() - start);
    const after = process.memoryUsage();
    grown = Math.max(grown, after.arrayBuffers + after.heapUsed - before.arrayBuffers - before.heapUsed);
  }
  const median = taken.sort((a, b) => a - b)[2];
  const megabytes = file.length / 1e6;
  console.log(
    `${name.padEnd(46)} ${megabytes.toFixed(1).padStart(6)} MB ${median.toFixed(0).padStart(6)} ms, memory ${(grown / file.length).toFixed(1)} times the file`,
  );
}

const csv = minuteCsv();
const nem12 = fiveMinuteNem12();
const greenButton = quarterHourGreenButton();
const column = (name: string) => ({ column: name, quantity: 'loadKw' as const, unit: 'kW' as const });
const options = {
  columns: ['a', 'b', 'c', 'd'].map(column),
  stamp: 'start' as const,
  timeZone: '+10:00',
  maxGapMin: 60,
};
measure('CSV, a year of minutes, five columns', csv, () => readCsv(csv, 'minutes.csv', options));
measure('NEM12, a year of five minutes', nem12, () => readNem12(nem12, 'nem12.csv'));
measure('Green Button, a year of quarter-hours', greenButton, () => readGreenButton(greenButton, 'feed.xml'));

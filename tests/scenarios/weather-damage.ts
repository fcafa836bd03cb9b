/** What mail, spreadsheets and disks do to files: every kind in turn, each time elsewhere. */
type Draw = (below: number) => number;
type Damage = (text: string, draw: Draw) => string;

const HUGE = [
  '999999999999999999999',
  '1e308',
  '1e999',
  '-88888888',
  '0x7f',
  '1e',
  '9999',
  '99.9',
  '-9900',
  '',
  'NaN',
];

/** Changes the list of lines. */
const lines =
  (change: (all: string[], draw: Draw) => string[]): Damage =>
  (text, draw) =>
    change(text.split('\n'), draw).join('\n');

function swapCells(line: string, a: number, b: number): string {
  const cells = line.split(',');
  if (Math.max(a, b) < cells.length) [cells[a], cells[b]] = [cells[b], cells[a]];
  return cells.join(',');
}

const KINDS: Record<string, Damage> = {
  'a bit flipped': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + String.fromCharCode(text.charCodeAt(at) ^ (1 << draw(8))) + text.slice(at + 1);
  },
  'a letter for another': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + '0123456789,.-:/ \n'[draw(17)] + text.slice(at + 1);
  },
  'the end cut off': (text, draw) => text.slice(0, draw(text.length)),
  'a piece lost': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + text.slice(at + 1 + draw(80));
  },
  'another number': (text, draw) => {
    const numbers = [...text.matchAll(/(?<=,)[\d.]+(?=,)/g)];
    const { 0: old, index } = numbers[draw(numbers.length)];
    return text.slice(0, index) + HUGE[draw(HUGE.length)] + text.slice(index + old.length);
  },
  'a piece over another': (text, draw) => {
    const from = draw(text.length - 40);
    const at = draw(text.length - 40);
    return text.slice(0, at) + text.slice(from, from + 40) + text.slice(at + 40);
  },
  'two bytes a letter': (text) => [...text.slice(0, 20_000)].map((letter) => `${letter}\0`).join(''),
  'bytes of another encoding': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + String.fromCharCode(128 + draw(128)) + text.slice(at);
  },
  'other line ends': (text, draw) => text.replaceAll(/\r?\n/g, ['\r', '\r\n', '\n\n'][draw(3)]),
  'a byte-order mark': (text) => `\xef\xbb\xbf${text}`,
  'a line lost': lines((all, draw) => all.toSpliced(draw(all.length), 1)),
  'a line twice': lines((all, draw) => all.toSpliced(draw(all.length), 0, all[draw(all.length)])),
  'two lines swapped': lines((all, draw) => {
    const [a, b] = [draw(all.length), draw(all.length)];
    return all.with(a, all[b]).with(b, all[a]);
  }),
  'two lines joined': lines((all, draw) => {
    const at = draw(all.length - 1);
    return all.toSpliced(at, 2, all[at] + all[at + 1]);
  }),
  'the end of a line lost': lines((all, draw) => {
    const at = draw(all.length);
    return all.with(at, all[at].slice(0, draw(all[at].length + 1)));
  }),
  'two cells of a line swapped': lines((all, draw) => {
    const at = draw(all.length);
    const width = all[at].split(',').length;
    return all.with(at, swapCells(all[at], draw(width), draw(width)));
  }),
  'two columns swapped': lines((all, draw) => {
    const [a, b] = [draw(36), draw(36)];
    return all.map((line) => swapCells(line, a, b));
  }),
  'two columns of the rows swapped': lines((all, draw) => {
    const [a, b] = [draw(36), draw(36)];
    return all.map((line) => (/^\d/.test(line) ? swapCells(line, a, b) : line));
  }),
};

/** @param seed the same seed, the same damage */
export function* damaged(
  file: Uint8Array,
  times: number,
  seed: number,
): Generator<{ kind: string; file: Uint8Array }> {
  let state = seed;
  const draw: Draw = (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
  const text = Buffer.from(file).toString('latin1');
  const kinds = Object.entries(KINDS);
  for (let k = 0; k < times; k++) {
    const [kind, damage] = kinds[k % kinds.length];
    yield { kind: `${kind}, time ${k}`, file: new Uint8Array(Buffer.from(damage(text, draw), 'latin1')) };
  }
}

/** Seeded damage to a file of text: what mail, spreadsheets, portals and disks do to meter files. */
export interface Damaged {
  kind: string;
  bytes: Uint8Array;
}

type Draw = (below: number) => number;

const toText = (bytes: Uint8Array) => new TextDecoder('latin1').decode(bytes);
const toBytes = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 255);
const HUGE = ['999999999999999999999', '1e308', '1e999', '-88888888888', '123456789012', '0x7fffffff'];

type Kinds = Record<string, (text: string, draw: Draw) => string>;

/** Damage to any text of lines and commas. */
const KINDS: Kinds = {
  'a bit flipped': (text, draw) => {
    const at = draw(text.length);
    const flipped = String.fromCharCode(text.charCodeAt(at) ^ (1 << draw(8)));
    return text.slice(0, at) + flipped + text.slice(at + 1);
  },
  'a letter replaced': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + '0123456789,.-<>/"AVE'[draw(20)] + text.slice(at + 1);
  },
  'the end cut off': (text, draw) => text.slice(0, draw(text.length)),
  'a stretch lost': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + text.slice(at + 1 + draw(80));
  },
  'a huge number put in': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + HUGE[draw(HUGE.length)] + text.slice(at);
  },
  'a number made huge': (text, draw) => {
    const numbers = [...text.matchAll(/\d+(\.\d+)?/g)];
    const { 0: old, index } = numbers[draw(numbers.length)];
    return text.slice(0, index) + HUGE[draw(HUGE.length)] + text.slice(index + old.length);
  },
  'a piece over another': (text, draw) => {
    const piece = text.slice(draw(text.length)).slice(0, 40);
    const at = draw(text.length - piece.length);
    return text.slice(0, at) + piece + text.slice(at + piece.length);
  },
  'zeros between the letters': (text, draw) => {
    const order = draw(2);
    return [...text].map((letter) => (order === 0 ? `${letter}\0` : `\0${letter}`)).join('');
  },
  'zeros from somewhere on': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + [...text.slice(at)].map((letter) => `${letter}\0`).join('');
  },
  'bytes of another encoding': (text, draw) => {
    const at = draw(text.length);
    return text.slice(0, at) + String.fromCharCode(128 + draw(128), draw(32)) + text.slice(at);
  },
  'a line lost': (text, draw) =>
    byLines(text, (lines) => {
      const at = draw(lines.length);
      return lines.filter((_, i) => i !== at);
    }),
  'a line twice': (text, draw) =>
    byLines(text, (lines) => {
      const [from, to] = [draw(lines.length), draw(lines.length)];
      return [...lines.slice(0, to), lines[from], ...lines.slice(to)];
    }),
  'lines in another order': (text, draw) =>
    byLines(text, (lines) => {
      const [a, b] = [draw(lines.length), draw(lines.length)];
      return lines.map((line, i) => (i === a ? lines[b] : i === b ? lines[a] : line));
    }),
  'a line without its end': (text, draw) =>
    byLines(text, (lines) => {
      const at = draw(lines.length);
      return lines.map((line, i) => (i === at ? line.slice(0, draw(line.length + 1)) : line));
    }),
  'two lines joined': (text, draw) =>
    byLines(text, (lines) => {
      const at = draw(lines.length - 1);
      return [...lines.slice(0, at), lines[at] + lines[at + 1], ...lines.slice(at + 2)];
    }),
  'columns swapped': (text, draw) => {
    const [a, b] = [draw(60), draw(60)];
    return byLines(text, (lines) => lines.map((line) => swapped(line, a, b)));
  },
  'columns swapped in a line': (text, draw) =>
    byLines(text, (lines) => {
      const at = draw(lines.length);
      const cells = lines[at].split(',').length;
      const [a, b] = [draw(cells), draw(cells)];
      return lines.map((line, i) => (i === at ? swapped(line, a, b) : line));
    }),
};

/** Damage that XML may take and stay XML. */
export const XML_KINDS: Kinds = {
  'an element lost': (text, draw) => {
    const { from, to } = element(text, draw);
    return text.slice(0, from) + text.slice(to);
  },
  'an element twice': (text, draw) => {
    const { from, to } = element(text, draw);
    return text.slice(0, to) + text.slice(from);
  },
  'an element elsewhere': (text, draw) => {
    const [from, to] = [element(text, draw), element(text, draw)];
    return text.slice(0, to.from) + text.slice(from.from, from.to) + text.slice(to.to);
  },
  'a digit replaced': (text, draw) => {
    const numbers = [...text.matchAll(/>-?\d+</g)];
    const { 0: old, index } = numbers[draw(numbers.length)];
    const at = index + 1 + draw(old.length - 2);
    return text.slice(0, at) + '0123456789-'[draw(11)] + text.slice(at + 1);
  },
  'a number replaced': (text, draw) => {
    const numbers = [...text.matchAll(/>-?\d+</g)];
    const { 0: old, index } = numbers[draw(numbers.length)];
    const other = ['', 'NaN', '1e5', '0x41', '-1', '0', '4', '19', '3600', '900', ...HUGE];
    return `${text.slice(0, index + 1)}${other[draw(other.length)]}${text.slice(index + old.length - 1)}`;
  },
};

/** An element that holds no other of its name. */
function element(text: string, draw: Draw): { from: number; to: number } {
  const found = [...text.matchAll(/<(\w+)[^<>]*>(?:(?!<\1\b)[\s\S])*?<\/\1>/g)];
  const whole = found[draw(found.length)];
  // as often one of those within it
  const inner = [...whole[0].slice(1).matchAll(/<(\w+)[^<>]*>(?:(?!<\1\b)[\s\S])*?<\/\1>/g)];
  if (inner.length === 0 || draw(2) === 0) return { from: whole.index, to: whole.index + whole[0].length };
  const part = inner[draw(inner.length)];
  const from = whole.index + 1 + part.index;
  return { from, to: from + part[0].length };
}

/** Every kind of damage in turn, each time elsewhere; the same seed, the same damage. */
export function* damaged(
  clean: Uint8Array,
  times: number,
  seed: number,
  more: Kinds = {},
): Generator<Damaged> {
  let state = seed >>> 0;
  const draw: Draw = (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
  const text = toText(clean);
  const kinds = Object.entries({ ...KINDS, ...more });
  for (let k = 0; k < times; k++) {
    const [kind, damage] = kinds[k % kinds.length];
    yield { kind, bytes: toBytes(damage(text, draw)) };
  }
}

function byLines(text: string, change: (lines: string[]) => string[]): string {
  return change(text.split('\n')).join('\n');
}

function swapped(line: string, a: number, b: number): string {
  const cells = line.split(',');
  if (a >= cells.length || b >= cells.length) return line;
  [cells[a], cells[b]] = [cells[b], cells[a]];
  return cells.join(',');
}

import { InvalidArgumentError } from 'commander';
import { describe, expect, it } from 'vitest';
import {
  fromZero,
  localDate,
  localTime,
  percent,
  plainNumber,
  portNumber,
  stepMinutes,
  wholeNumber,
} from '../../src/report/commands/option-values.ts';

const READERS: [string, (text: string) => unknown, [string, unknown][], string[]][] = [
  [
    'a step',
    stepMinutes,
    [
      ['1', 1],
      ['15', 15],
      ['60', 60],
    ],
    ['', '0', '7', '2.5', '120', 'x'],
  ],
  [
    'a whole number',
    wholeNumber,
    [
      ['1', 1],
      ['240', 240],
    ],
    ['', '0', '1.5', '-3', 'x'],
  ],
  [
    'any number',
    plainNumber,
    [
      ['-2.5', -2.5],
      ['0', 0],
    ],
    ['', ' ', 'x', 'Infinity'],
  ],
  [
    'a number from 0',
    fromZero,
    [
      ['0', 0],
      ['5.5', 5.5],
    ],
    ['', '-1', 'x', 'Infinity'],
  ],
  [
    'percent',
    percent,
    [
      ['0', 0],
      ['15', 0.15],
      ['100', 1],
    ],
    ['', '101', '-1'],
  ],
  [
    'a port',
    portNumber,
    [
      ['0', 0],
      ['65535', 65_535],
    ],
    ['', '65536', '-1', '1.5'],
  ],
  ['a local time', localTime, [['2025-01-12T18:00', '2025-01-12T18:00']], ['noon', '2025-13-01T00:00']],
  ['a date', localDate, [['2024-02-29', '2024-02-29']], ['2025-02-29', '29.2.2024', '']],
];

describe('values of options', () => {
  it.each(READERS)('%s is read, or refused', (_, read, right, wrong) => {
    for (const [text, value] of right) expect(read(text), text).toBe(value);
    for (const text of wrong) expect(() => read(text), text).toThrow(InvalidArgumentError);
  });
});

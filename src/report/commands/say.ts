import { keepUnits } from '../numbers.ts';
import { wrapped } from '../wrap.ts';

/** Prints paragraphs that are folded to the terminal's width, without breaking a number from its unit. */
export function sayTo(width: number) {
  return (text: string, indent = '', look = (line: string) => line) => {
    for (const line of wrapped(keepUnits(text), Math.max(40, width - indent.length)))
      process.stdout.write(`${indent}${look(line.replaceAll('\u00a0', ' '))}\n`);
  };
}

import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';

/**
 * Unbundled (tests, development), each `slot.NAME` would be a getter call in the step loop, forty times as
 * slow: put the numbers of slots.ts in their place. A bundle does so by itself (`inlineConst`).
 */
export function inlineSlots(): Plugin {
  const text = readFileSync(new URL('./src/sim/slots.ts', import.meta.url), 'utf8');
  const numbers = new Map([...text.matchAll(/export const (\w+) = ([\d.e-]+);/g)].map((m) => [m[1], m[2]]));
  return {
    name: 'inline-slots',
    enforce: 'pre',
    transform(code, id) {
      if (!id.includes('/src/sim/') || !code.includes("import * as slot from './slots.ts'")) return null;
      return code.replace(/\bslot\.([A-Z]\w*)/g, (whole, name) => numbers.get(name) ?? whole);
    },
  };
}

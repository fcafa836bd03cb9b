import type { Mode } from './flow.ts';
import { isBypassed, type Site } from './site.ts';

/** Which flows hold (section 5.4). */
export function modeOf(site: Site): Mode {
  const { state, plant } = site;
  if (state.engine === 'on load') return 'generator';
  if (state.site === 'on') return plant.battery && !isBypassed(site) ? 'inverters' : 'off';
  return state.site === 'cut off' ? 'off' : 'dead';
}

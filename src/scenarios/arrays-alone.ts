import type { InputMaker } from './inputs-from-site.ts';
import type { Site } from './site-schema.ts';

/**
 * What each array of a site offers by itself, behind its converter, by the arrays' names [kW].
 * @param maker has made the site without an error
 */
export function arraysAlone(site: Site, maker: InputMaker): [string, Float64Array][] {
  return site.arrays.map((array) => {
    const made = maker.make({ ...site, arrays: [array], sources: [] }, false);
    const kw = made?.inputs.dcArrayKw ?? made?.inputs.acArrayKw;
    if (!kw) throw new Error(`no output of array '${array.name}'`);
    return [array.name, kw];
  });
}

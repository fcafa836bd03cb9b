import { extraterrestrialNormal } from '../sim/sky/extraterrestrial.ts';
import type { Findings } from './findings.ts';
import type { LaidRows, StepNames } from './lay-rows.ts';
import type { WeatherQuantity } from './weather-cells.ts';

const IRRADIANCE: readonly WeatherQuantity[] = ['ghiWPerM2', 'dniWPerM2', 'dhiWPerM2'];

/** As many values above what energy can be show that values are means; fewer may be faults. */
const ENOUGH = 10;

/**
 * With several records an hour the data dictionary's Wh/m² of the record's minutes and the mean W/m² over them
 * differ by a factor, and files hold either. Values above what the sun brings to the outside of the air in those
 * minutes cannot be energy; a file without them is read as energy. Either reading is a doubt.
 * @returns words for the data sheet
 */
export function recordsToMeans(laid: LaidRows, steps: StepNames, perHour: number, found: Findings): string {
  const mostEnergy = (step: number) => extraterrestrialNormal(steps.dayOf(step)) / perHour;
  const columns = IRRADIANCE.map((quantity) => laid.values.get(quantity) as Float64Array);
  let above = 0;
  for (const values of columns)
    for (let step = 0; step < values.length; step++) if (values[step] > mostEnergy(step)) above++;
  const minutes = 60 / perHour;
  if (above >= ENOUGH) {
    const got = `${perHour} records an hour, ${above} values above what ${minutes} minutes of sun can bring`;
    found.doubt('unit', 'irradiance', got, 'W/m² or Wh/m²; read as mean W/m²');
    return ', irradiance in mean W/m²';
  }
  for (const [i, values] of columns.entries())
    for (let step = 0; step < values.length; step++) {
      if (values[step] > mostEnergy(step)) {
        const got = `${values[step]} Wh/m² in ${minutes} minutes`;
        const want = 'less than the sun outside the air; taken as missing';
        found.doubt('impossible', IRRADIANCE[i], got, want, { line: laid.lineOf[step] });
        values[step] = Number.NaN;
      } else values[step] *= perHour;
    }
  const got = `${perHour} records an hour, no values that only means can have`;
  found.doubt('unit', 'irradiance', got, `W/m² or Wh/m²; read as Wh/m² in ${minutes} minutes`);
  return `, irradiance in Wh/m² of each ${minutes} minutes`;
}

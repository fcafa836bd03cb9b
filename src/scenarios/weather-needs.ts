import type { Issue, Place } from './issue.ts';
import { isInPlane } from './plane-irradiance.ts';
import type { Path } from './site-document.ts';
import type { Site } from './site-schema.ts';
import type { Weather } from './weather-files.ts';

/**
 * What a site asks of its weather that the files do not have: irradiance for its planes and cabinet, wind, snow.
 * @param placeOf where a part of the site file stands
 */
export function weatherNeeds(site: Site, weather: Weather, placeOf: (path: Path) => Place): Issue[] {
  const told: Issue[] = [];
  const tell = (severity: Issue['severity']) => (code: string, path: Path, got: string, want: string) =>
    told.push({ severity, code, path: path.join('.'), got, want, at: placeOf(path) });
  const refuse = tell('error');
  const { arrays, cabinet, sky } = site;
  const { plane } = weather;
  const measured = plane ? `${plane.tiltDeg}°, facing ${plane.azimuthDeg}°` : 'no plane';
  const noGlobal = `weather with global irradiance; it has ${measured} only`;
  for (const [i, array] of arrays.entries()) {
    if (weather.globalWPerM2 === null && !isInPlane(array, plane))
      refuse(
        'no-global',
        ['arrays', i, 'tiltDeg'],
        `${array.tiltDeg}°, facing ${array.azimuthDeg}°`,
        noGlobal,
      );
    if (array.cellTemperature === 'faiman' && weather.windMPerS === null)
      refuse('no-wind', ['arrays', i, 'cellTemperature'], 'faiman', 'weather with the wind speed, or noct');
    if (isInPlane(array, plane) && (array.horizon ?? sky.horizon).length > 0)
      tell('doubt')(
        'horizon',
        ['arrays', i, 'name'],
        `a horizon round '${array.name}', whose plane was measured`,
        'none: the measured irradiance has the horizon in it already, and is taken as it is',
      );
  }
  if (cabinet && cabinet.sunM2 > 0 && weather.globalWPerM2 === null)
    refuse('no-global', ['cabinet', 'sunM2'], `${cabinet.sunM2} m² in the sun`, noGlobal);
  const knowsSnow = weather.snowCmPerH !== null || weather.precipMmPerH !== null;
  if (sky.snow && sky.snow.falls.length === 0 && !knowsSnow && arrays.length > 0)
    refuse(
      'no-snow',
      ['sky', 'snow'],
      'snow without falls',
      'falls with their dates, or weather with snowfall or precipitation (of an EPW file: precipitation: true)',
    );
  return told;
}

/**
 * Cell temperature rising linearly with irradiance.
 * @param airC       air temperature [°C], finite
 * @param poaWPerM2  plane-of-array irradiance, mean over the step [W/m²], >= 0
 * @param noctC      nominal operating cell temperature [°C]
 * @returns cell temperature [°C]
 * Errors: none; ranges are checked where the site file is read.
 * Source: Ross, 15th IEEE Photovoltaic Specialists Conference, 1981.
 */
export function cellTempC(airC: number, poaWPerM2: number, noctC: number): number {
  return airC + ((noctC - 20) / 800) * poaWPerM2;
}

/**
 * Module temperature with wind.
 * @param windMPerS wind speed [m/s], >= 0
 * @param u0 constant heat loss [W/(m²·K)], u1 its rise with wind [W·s/(m³·K)]
 * @returns [°C]
 * Source: Faiman, Progress in Photovoltaics 16(4), 2008; the form of IEC 61853-2.
 */
export function moduleTempC(airC: number, poaWPerM2: number, windMPerS: number, u0 = 25, u1 = 6.84): number {
  return airC + poaWPerM2 / (u0 + u1 * windMPerS);
}

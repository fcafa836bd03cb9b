import { z } from 'zod';
import { frac, num, text } from './site-fields.ts';

const cabinetFields = {
  airKjPerK: num('heat capacity of air and electronics', 'kJ/K', 1, 100_000),
  batteryKjPerK: num('heat capacity of the battery', 'kJ/K', 1, 1_000_000),
  airToOutsideWPerK: num('heat path air to outside', 'W/K', 0, 10_000),
  airToBatteryWPerK: num('heat path air to battery', 'W/K', 0, 10_000),
  batteryToOutsideWPerK: num('heat path battery to outside', 'W/K', 0, 10_000).default(0),
  sunM2: num('sunlit area times absorptance', 'm²', 0, 100, '0: in full shade').default(0),
  cooler: z
    .strictObject({
      ratedW: num('electric power', 'W', 1, 100_000),
      cop: num('heat moved per electricity', '', 0.5, 10).default(2.5),
      onC: num('on at', '°C', 0, 80),
      offC: num('off at', '°C', 0, 80),
    })
    .nullable()
    .default(null),
  heater: z
    .strictObject({
      ratedW: num('electric power', 'W', 1, 100_000),
      onC: num('on at', '°C', -30, 40, 'temperature of the cells'),
      offC: num('off at', '°C', -30, 40),
      minSoc: frac('blocked below', 'unless the generator is on load').default(0.3),
    })
    .nullable()
    .default(null),
};

export const cabinet = z.strictObject(cabinetFields);

/** A further cabinet, with batteries only. */
export const batteryCabinet = z.strictObject({
  name: text('name'),
  modules: num(
    'modules in it',
    '',
    1,
    10_000,
    'of battery.modules; the rest stand in the first cabinet',
  ).int(),
  ...cabinetFields,
});

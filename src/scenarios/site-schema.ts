import { z } from 'zod';
import { batteryCabinet, cabinet } from './site-cabinet.ts';
import { control } from './site-control.ts';
import { breaker, design, motor } from './site-design.ts';
import { faults } from './site-faults.ts';
import { num } from './site-fields.ts';
import { generator, secondGenerator, tank } from './site-generator.ts';
import { horizon } from './site-horizon.ts';
import { limits } from './site-limits.ts';
import { appliance, load, shiftable } from './site-loads.ts';
import { log } from './site-log.ts';
import { alternative, money } from './site-money.ts';
import { people } from './site-people.ts';
import { period, site } from './site-place.ts';
import { array, battery, inverter } from './site-power.ts';
import { prices } from './site-prices.ts';
import { sky } from './site-sky.ts';
import { source } from './site-sources.ts';
import { stress, uncertain } from './site-uncertain.ts';
import { weather } from './site-weather.ts';

/** The whole site file. */
export const siteSchema = z.strictObject({
  site,
  period,
  load: z.array(load).default([]),
  appliances: z.array(appliance).default([]),
  shiftable: z.array(shiftable).max(8).default([]),
  weather: weather.nullable().default(null),
  sky: sky.prefault({}),
  arrays: z.array(array).default([]),
  sources: z.array(source).default([]),
  battery: battery.nullable().default(null),
  inverter,
  cabinet: cabinet.nullable().default(null),
  batteryCabinets: z.array(batteryCabinet).max(8).default([]),
  roomC: num('temperature without a cabinet', '°C', -40, 60).default(20),
  generator: generator.nullable().default(null),
  secondGenerator: secondGenerator.nullable().default(null),
  tank: tank.nullable().default(null),
  control: control.prefault({}),
  people: people.prefault({}),
  faults: faults.prefault({}),
  design: design.prefault({}),
  motors: z.array(motor).nullable().default(null),
  breakers: z.array(breaker).nullable().default(null),
  money,
  prices: prices.prefault({}),
  horizon: horizon.prefault({}),
  limits: limits.prefault({}),
  uncertain,
  stress: stress.prefault({}),
  log: log.nullable().default(null),
  alternatives: z.array(alternative).default([]),
});

export type Site = z.infer<typeof siteSchema>;
export type { Breaker, Motor } from './site-design.ts';
export type Appliance = Site['appliances'][number];
export type LoadFile = Site['load'][number];
export type WeatherFile = NonNullable<Site['weather']>;
export type ArrayPart = Site['arrays'][number];
export type SourceFile = Site['sources'][number];
export type SiteLog = NonNullable<Site['log']>;
export type SnowPart = NonNullable<Site['sky']['snow']>;

/** The JSON Schema of the site file, for editors. */
export function siteJsonSchema(): unknown {
  return z.toJSONSchema(siteSchema, { io: 'input' });
}

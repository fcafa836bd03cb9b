/** Start causes in their order of precedence; every generator run carries one. */
export const START_CAUSES = ['bypass', 'hand', 'charge', 'peak', 'full', 'exercise', 'continuous'] as const;
export type StartCause = (typeof START_CAUSES)[number];

/** Causes of unserved energy in their order of precedence. */
export const OUTAGE_CAUSES = ['power', 'energy', 'trip', 'start failure', 'tank dry', 'person away'] as const;
export type OutageCause = (typeof OUTAGE_CAUSES)[number];

export const CAUSE_BYPASS = 0;
export const CAUSE_HAND = 1;
export const CAUSE_CHARGE = 2;
export const CAUSE_PEAK = 3;
export const CAUSE_FULL = 4;
export const CAUSE_EXERCISE = 5;
export const CAUSE_CONTINUOUS = 6;

export const OUTAGE_POWER = 0;
export const OUTAGE_ENERGY = 1;
export const OUTAGE_TRIP = 2;
export const OUTAGE_START_FAILURE = 3;
export const OUTAGE_TANK_DRY = 4;
export const OUTAGE_PERSON_AWAY = 5;

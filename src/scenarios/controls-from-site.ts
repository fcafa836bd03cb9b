import type { Controls, ThresholdSet } from '../sim/controls.ts';
import type { Site } from './site-schema.ts';

/** The controls of a site, in the engine's units. The urgent state of charge is the cut-off where none is given. */
export function controlsFromSite(site: Site): Controls {
  const { control } = site;
  const { charge, peak, hand, full, exercise, shed, lock } = control;
  return {
    shortfall: control.shortfall,
    tripAllPhases: control.tripAllPhases,
    restartDelayH: control.restartMin / 60,
    deadVisitH: control.deadVisitH,
    lock: lock && { trips: lock.trips, withinH: lock.withinMin / 60 },
    charge: charge && {
      startSoc: charge.startSoc,
      delayH: charge.delayMin / 60,
      stopSoc: charge.stopSoc,
      tailKw: charge.tailKw,
      tailH: charge.tailMin / 60,
      absorptionMaxH: charge.absorptionMaxMin / 60,
    },
    peak: peak && {
      startKw: peak.startKw ?? Number.POSITIVE_INFINITY,
      delayH: peak.delayS / 3600,
      stopKw: peak.stopKw,
      holdH: peak.holdMin / 60,
      charges: peak.charges,
    },
    continuous: control.continuous,
    hand: hand && {
      startSoc: hand.startSoc,
      responseH: hand.responseMin / 60,
      stopSoc: hand.stopSoc,
      absorptionMaxH: hand.absorptionMaxMin / 60,
    },
    full: full && {
      everyH: full.everyDays * 24,
      stopSoc: full.stopSoc,
      absorptionMaxH: full.absorptionMaxMin / 60,
    },
    exercise: exercise && { runH: exercise.runMin / 60, unlessWithinH: exercise.unlessWithinDays * 24 },
    shed: shed && { belowSoc: shed.belowSoc, aboveSoc: shed.aboveSoc, overloadH: shed.overloadMin / 60 },
    sets: control.calendar.map((entry) => thresholdSet(site, entry)),
    minRunH: control.minRunMin / 60,
    maxRunH: longestRunH(control),
    leastRestH: control.restMin / 60,
    restrictedEndsRun: control.restrictedEndsRun,
    urgentSoc: urgentSocOf(site),
    chargeTargetKw: control.chargeTargetKw ?? undefined,
    peakAssist: control.peakAssist,
    acArrayOnLoad: control.acArrayOnLoad,
    acReconnectH: control.acReconnectMin / 60,
    dcToAcOnLoad: control.dcToAcOnLoad,
  };
}

/** What an entry of the calendar leaves out is as otherwise. */
function thresholdSet(site: Site, entry: Site['control']['calendar'][number]): ThresholdSet {
  const { charge, peak } = site.control;
  return {
    startSoc: entry.startSoc ?? charge?.startSoc ?? 0,
    stopSoc: entry.stopSoc ?? charge?.stopSoc ?? 0,
    urgentSoc: entry.urgentSoc ?? urgentSocOf(site),
    peakStartKw: entry.peakStartKw ?? peak?.startKw ?? Number.POSITIVE_INFINITY,
    peakStopKw: entry.peakStopKw ?? peak?.stopKw ?? 0,
  };
}

function urgentSocOf({ control, battery }: Site): number {
  return control.urgentSoc ?? battery?.cutoffSoc ?? 0;
}

/** The longest run where none is given: a day, but for a generator that runs always. */
export function longestRunH(control: Site['control']): number {
  return control.maxRunH ?? (control.continuous ? Number.POSITIVE_INFINITY : 24);
}

import { tried, tryOut } from '../alternatives.ts';
import type { Changes, LeverFacts } from '../messages.ts';
import * as state from '../state.ts';
import { useDraft } from './use-draft.ts';

/** Sizes and prices under the hand: each slider tries a value, and changes nothing until it is kept. */
export function Levers() {
  const picture = state.picture.value;
  const base = state.baseLevers.value;
  const currency = state.site.value?.currency ?? '';
  if (!picture || !base) return null;
  const { levers } = picture;
  return (
    <section class="levers" aria-labelledby="levers-title">
      <h2 id="levers-title">Sizes and prices</h2>
      {base.modules !== null && (
        <Lever
          title="Battery modules"
          unit=""
          value={tried('battery.modules', levers.modules ?? base.modules)}
          was={base.modules}
          least={1}
          most={Math.max(8, base.modules * 3)}
          step={1}
          changes={(modules) => ({ 'battery.modules': modules })}
          note="More modules in parallel mean a higher fault current: protection and cables must be checked again."
        />
      )}
      {base.arrays.map(({ name, kWp }, i) => (
        <Lever
          key={name}
          title={`Array, ${name}`}
          unit="kWp"
          value={tried(`arrays.${name}.kWp`, levers.arrays[i]?.kWp ?? kWp)}
          was={kWp}
          least={0}
          most={Math.max(4, Math.ceil(kWp * 3))}
          step={stepFor(kWp)}
          changes={(size) => ({ [`arrays.${name}.kWp`]: size })}
          note="Its controller and strings stay as they are, and may hold it back."
        />
      ))}
      {base.ratedKw !== null && (
        <Lever
          title="Generator"
          unit="kW"
          value={tried('generator.ratedKw', levers.ratedKw ?? base.ratedKw)}
          was={base.ratedKw}
          least={stepFor(base.ratedKw)}
          most={Math.max(4, Math.ceil(base.ratedKw * 3))}
          step={stepFor(base.ratedKw)}
          changes={(kw) => generatorChanges(base, kw)}
          note="Its fuel curve is scaled with it."
          caution="The engine starts by itself, at any hour: lock it out before touching it."
        />
      )}
      <Lever
        title="Fuel"
        unit={`${currency}/L`}
        value={tried('money.fuelPerL', levers.fuelPerL)}
        was={base.fuelPerL}
        least={0}
        most={Math.max(4, Math.ceil(base.fuelPerL * 3))}
        step={0.05}
        changes={(price) => ({ 'money.fuelPerL': price })}
      />
    </section>
  );
}

function stepFor(size: number): number {
  if (size < 4) return 0.1;
  return size < 40 ? 0.5 : 1;
}

/** A larger engine burns more at every share of its rating: both ends of its fuel curve are scaled. */
function generatorChanges({ fuel, ratedKw }: LeverFacts, kw: number): Changes {
  const times = kw / (ratedKw ?? kw);
  const scaled = fuel.map(({ kW, lPerH }) => ({
    kW: Math.round(kW * times * 1000) / 1000,
    lPerH: Math.round(lPerH * times * 1000) / 1000,
  }));
  return { 'generator.ratedKw': kw, 'generator.fuel': scaled };
}

interface LeverProps {
  title: string;
  unit: string;
  value: number;
  was: number;
  least: number;
  most: number;
  step: number;
  changes: (value: number) => Changes;
  /** said while it is moved */
  note?: string;
  /** said always */
  caution?: string;
}

function Lever({ title, unit, value, was, least, most, step, changes, note, caution }: LeverProps) {
  const set = (input: HTMLInputElement, since: number) => {
    const to = Number(input.value);
    if (input.value !== '' && Number.isFinite(to)) tryOut(changes(to), since);
  };
  const draft = useDraft<HTMLInputElement>(String(value));
  const full = unit ? `${title}, ${unit}` : title;
  return (
    <div class={value === was ? 'lever' : 'lever moved'}>
      <span class="lever-title">{title}</span>
      <input
        type="range"
        aria-label={full}
        min={least}
        max={most}
        step={step}
        value={value}
        onInput={(event) => set(event.currentTarget, event.timeStamp)}
      />
      <input
        {...draft}
        type="number"
        aria-label={`${full}, typed`}
        min={least}
        step="any"
        onChange={(event) => set(event.currentTarget, event.timeStamp)}
      />
      <span class="unit">{unit}</span>
      <span class="was">{value === was ? '' : `was ${was}`}</span>
      {note && value !== was && <p class="lever-note">{note}</p>}
      {caution && <p class="lever-note">{caution}</p>}
    </div>
  );
}

import { RULES } from '../../../scenarios/many/settings.ts';
import { settingName } from '../../tune/rule-words.ts';
import { capital } from '../../words.ts';
import * as state from '../state.ts';
import {
  chosenAlternative,
  LIST_PATTERN,
  MOST_ROWS,
  rowCount,
  rowOf,
  SEASON_PATTERN,
  textOf,
  type,
} from '../study-form.ts';
import * as study from '../study-state.ts';

/** What a study may be asked, small and plain: what is left empty is as the site file or the study has it. */

interface TypedProps {
  name: string;
  label: string;
  hint?: string;
  /** of a text, '' for any; left out: it is a number */
  pattern?: string;
  least?: number;
  most?: number;
  step?: number | 'any';
}

function Typed({ name, label, hint, pattern, most, least = 0, step = 'any' }: TypedProps) {
  const shared = {
    value: textOf(name),
    placeholder: hint,
    onInput: (event: { currentTarget: HTMLInputElement }) => type(name, event.currentTarget.value),
  };
  const id = `asked-${name}`;
  return (
    <div class="one-asked">
      <label for={id}>{label}</label>
      {pattern === undefined ? (
        <input id={id} type="number" {...shared} min={least} max={most} step={step} />
      ) : (
        <input id={id} {...shared} pattern={pattern || undefined} title={hint} />
      )}
    </div>
  );
}

const STEPS = [1, 5, 10, 15, 30, 60];

function StepChoice() {
  const own = state.site.value?.stepMin;
  return (
    <div class="one-asked">
      <label for="asked-step">Step of the figures</label>
      <select
        id="asked-step"
        value={textOf('step')}
        onChange={(event) => type('step', event.currentTarget.value)}
      >
        <option value="">as the site file, {own} min</option>
        {STEPS.filter((step) => step !== own).map((step) => (
          <option key={step} value={String(step)}>
            {step} min
          </option>
        ))}
      </select>
    </div>
  );
}

export function SweepForm() {
  const rows = rowCount();
  return (
    <>
      <p class="soft">
        Of the site as filed. Values are from:to:step, or a list with commas. A price of one more is added to
        the capital; left empty, the site file’s price list counts, where it has one.
      </p>
      {Array.from({ length: rows }, (_, i) => (
        <VaryRow key={i} place={i} />
      ))}
      <p class="actions">
        {rows < MOST_ROWS && (
          <button type="button" onClick={() => type('rows', String(rows + 1))}>
            One number more
          </button>
        )}
        {rows > 1 && (
          <button type="button" onClick={() => type('rows', String(rows - 1))}>
            One fewer
          </button>
        )}
      </p>
      <div class="asked">
        <Typed name="sample" label="At most so many runs" hint="all" least={1} step={1} />
        <Typed name="unserved" label="May go unserved, kWh" hint="as in the site as filed" />
        <StepChoice />
      </div>
    </>
  );
}

function VaryRow({ place }: { place: number }) {
  const { path, values, price } = rowOf(place);
  const others = (state.site.value?.alternatives.length ?? 0) > 1;
  const isAlternative = path === 'alternative';
  return (
    <div class="asked vary">
      <label>
        Vary
        <select value={path} onChange={(event) => type(`path-${place}`, event.currentTarget.value)}>
          {others && <option value="alternative">the alternative</option>}
          {study.varyChoices.value.map((one) => (
            <option key={one.path} value={one.path}>
              {one.label}
            </option>
          ))}
        </select>
      </label>
      <label>
        {isAlternative ? 'Names' : 'Values'}
        <input
          required
          value={values}
          onInput={(event) => type(`values-${path}`, event.currentTarget.value)}
        />
      </label>
      {!isAlternative && (
        <label>
          Price of one more, {state.site.value?.currency}
          <input
            type="number"
            step="any"
            value={price}
            onInput={(event) => type(`price-${path}`, event.currentTarget.value)}
          />
        </label>
      )}
    </div>
  );
}

function OfAlternative() {
  return (
    <div class="one-asked">
      <label for="asked-of">Of</label>
      <select
        id="asked-of"
        value={chosenAlternative()}
        onChange={(event) => type('of', event.currentTarget.value)}
      >
        {state.site.value?.alternatives.map(({ name }) => (
          <option key={name}>{name}</option>
        ))}
      </select>
    </div>
  );
}

/** Both searches keep to the same limits. */
export function SearchForm({ kind }: { kind: 'tune' | 'size' }) {
  return (
    <>
      <div class="asked">
        <OfAlternative />
        <StepChoice />
        {kind === 'tune' && (
          <Typed name="tune-runs" label="At most so many runs" hint="80 a setting" least={1} step={1} />
        )}
      </div>
      {kind === 'tune' ? <TuneFields /> : <SizeFields />}
      <details>
        <summary>Limits, by the year</summary>
        <p class="soft">
          Left empty, a limit is as the site file has it; else unserved load and starts are held to what they
          are today.
        </p>
        <div class="asked">
          <Typed name="most-unserved" label="Most unserved, kWh" />
          <Typed name="most-starts" label="Most starts in a day" />
          <Typed name="most-hours" label="Most running, h" />
          <Typed name="most-night-hours" label="Most running at night, h" />
          <Typed name="least-charge" label="Least charge, %" most={100} />
        </div>
      </details>
    </>
  );
}

function TuneFields() {
  return (
    <details>
      <summary>Only some settings, or a season of its own</summary>
      <fieldset class="choices">
        <legend class="soft">Settings that may change</legend>
        {RULES.map((rule) => (
          <label key={rule}>
            <input
              type="checkbox"
              checked={textOf(`rule-${rule}`, 'yes') === 'yes'}
              onChange={(event) => type(`rule-${rule}`, event.currentTarget.checked ? 'yes' : 'no')}
            />{' '}
            {settingName({ rule, season: null })}
          </label>
        ))}
      </fieldset>
      <div class="asked">
        <Typed
          name="season"
          label="Season with thresholds of its own"
          hint="winter=11,12,1,2"
          pattern={SEASON_PATTERN}
        />
      </div>
    </details>
  );
}

function SizeFields() {
  const lists = [
    ['generators', 'generators, kW', '10, 20, 30'],
    ['modules', 'battery modules', '8, 12, 24'],
    ['arrays', 'all arrays together, kWp', '10, 20, 30'],
    ['inverters', 'inverters, kVA a unit', '8, 10'],
  ] as const;
  return (
    <>
      <p class="soft">
        Sizes to look among, with commas between them; left empty, those of the catalogue. The one that comes
        with this page is generic and its prices are invented.
      </p>
      <div class="asked">
        {lists.map(([name, label, example]) => (
          <Typed key={name} name={name} label={capital(label)} hint={example} pattern={LIST_PATTERN} />
        ))}
        <label>
          A catalogue of your own
          <input
            type="file"
            accept=".yaml,.yml,.json"
            onChange={async (event) => {
              const file = event.currentTarget.files?.[0];
              const text = file ? await file.text() : '';
              type('catalogue-text', text);
              type('catalogue-file', file?.name ?? '');
            }}
          />
        </label>
      </div>
      {textOf('catalogue-file') && <p class="soft">Prices are from {textOf('catalogue-file')}.</p>}
    </>
  );
}

export function StressForm() {
  const others = state.site.value?.alternatives.slice(1) ?? [];
  return (
    <>
      <p class="soft">
        All years of the study, simulated many times with weather, load, failing starts and late fuel drawn
        from the seed; ranges are those of the site file, else assumptions that are named with the figures.
      </p>
      <div class="asked">
        <div class="one-asked">
          <label for="asked-only">Alternatives</label>
          <select
            id="asked-only"
            value={textOf('only')}
            onChange={(event) => type('only', event.currentTarget.value)}
          >
            <option value="">all</option>
            {others.map(({ name }) => (
              <option key={name} value={name}>
                as filed and {name}
              </option>
            ))}
          </select>
        </div>
        <Typed name="stress-runs" label="Runs of each" hint="as the site file, else 25" least={1} step={1} />
        <Typed name="seed" pattern="" label="Seed" hint="as the site file" />
        <StepChoice />
      </div>
    </>
  );
}

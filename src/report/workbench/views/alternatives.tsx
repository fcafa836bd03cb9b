import { withValue } from '../../../scenarios/edit-site.ts';
import { duplicate, ownEntry, removeAlternative, takeInHand } from '../alternatives.ts';
import { edit } from '../edits.ts';
import type { Compared } from '../messages.ts';
import * as state from '../state.ts';
import { useDraft } from './use-draft.ts';

/** All alternatives side by side: what differs in words, the figures that decide as bars, all others on request. */
export function Alternatives() {
  const site = state.site.value;
  if (!site) return null;
  const compared = state.compared.value;
  const comparing = state.comparing.value;
  return (
    <div class="alternatives">
      <InHand />
      <section aria-labelledby="side-title">
        <h2 id="side-title">Side by side</h2>
        {comparing && (
          <p class="soft" role="status">
            Simulating {comparing.done + 1} of {comparing.of}…
          </p>
        )}
        {compared && <SideBySide compared={compared} />}
      </section>
      {compared && <AllFigures compared={compared} />}
      <p class="soft">
        An estimate in today’s money from the prices in the site file; not an offer, and no promise that
        weather or load will be as simulated.
      </p>
    </div>
  );
}

/** What can be done with the alternative in hand. */
function InHand() {
  const place = state.inHand.value;
  const head = state.site.value?.alternatives[place];
  if (!head) return null;
  const entry = place === 0 ? {} : ownEntry();
  const set = (key: string, to: unknown) =>
    edit(withValue(state.text.value, ['alternatives', place - 1, key], to));
  return (
    <section class="in-hand" aria-labelledby="in-hand-title">
      <h2 id="in-hand-title">In hand: {head.name}</h2>
      <p>
        {place === 0
          ? 'The site as its file describes it. The others are changes to it.'
          : head.words.length > 0
            ? `Differs from the site as filed: ${head.words.join('; ')}.`
            : 'Differs in nothing from the site as filed.'}
      </p>
      {place > 0 && (
        <div class="in-hand-fields" key={place}>
          <Entry label="Name" text={entry.name ?? ''} set={(text) => set('name', text)} />
          <Entry label="Note" text={entry.note ?? ''} set={(text) => set('note', text)} />
          <Entry
            label={`Capital beside the site as filed, ${state.site.value?.currency}`}
            isNumber
            text={String(entry.capital ?? 0)}
            set={(text) => set('capital', Number(text))}
          />
        </div>
      )}
      {state.isTrial.value && (
        <p class="soft">What is on trial is left out here until it is kept under “The year”.</p>
      )}
      <p class="actions">
        <button type="button" class="main" onClick={() => duplicate()}>
          Duplicate
        </button>
        {place > 0 && (
          <button type="button" onClick={() => removeAlternative()}>
            Remove
          </button>
        )}
      </p>
    </section>
  );
}

interface EntryProps {
  label: string;
  text: string;
  isNumber?: boolean;
  set: (text: string) => void;
}

function Entry({ label, text, isNumber, set }: EntryProps) {
  const draft = useDraft<HTMLInputElement>(text);
  const kind = isNumber ? ({ type: 'number', step: 'any' } as const) : {};
  return (
    <label>
      {label}
      <input {...draft} {...kind} onChange={(event) => set(event.currentTarget.value)} />
    </label>
  );
}

function SideBySide({ compared: { names, rows } }: { compared: Compared }) {
  const deciding = rows.filter(({ decides }) => decides);
  const heads = state.site.value?.alternatives ?? [];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
    <section class="scroll" tabIndex={0} aria-label="Alternatives side by side">
      <table class="side-by-side">
        <thead>
          <tr>
            <th scope="col">Alternative</th>
            {deciding.map(({ key, label }) => (
              <th key={key} scope="col">
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {names.map((name, i) => (
            <tr key={name} class={state.inHand.value === i ? 'taken' : ''}>
              <th scope="row">
                <button
                  type="button"
                  class="quiet"
                  aria-pressed={state.inHand.value === i}
                  onClick={() => takeInHand(i)}
                >
                  {name}
                </button>
                <small>{heads[i]?.words.join('; ')}</small>
              </th>
              {deciding.map((row) => (
                <td key={row.key}>
                  <span class={row.best[i] ? 'best' : ''}>{row.texts[i]}</span>
                  <small>{row.differences[i]}</small>
                  <span class="length" aria-hidden="true">
                    <i style={{ width: `${(row.shares[i] ?? 0) * 100}%` }} class={i === 0 ? 'first' : ''} />
                  </span>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function AllFigures({ compared: { names, rows, sentences } }: { compared: Compared }) {
  return (
    <>
      <details>
        <summary>All figures</summary>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard */}
        <section class="scroll" tabIndex={0} aria-label="All figures of all alternatives">
          <table class="all-figures">
            <thead>
              <tr>
                <th scope="col">Figure</th>
                {names.map((name) => (
                  <th key={name} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.key} class={row.part ? 'part' : ''} data-figure={row.key}>
                  <th scope="row">{row.label}</th>
                  {row.texts.map((text, i) => (
                    <td key={names[i]} class={row.best[i] ? 'best' : ''}>
                      {text}
                      <small>{row.differences[i]}</small>
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </details>
      <details>
        <summary>In words</summary>
        {names.map((name, i) => (
          <div key={name}>
            <h3>{name}</h3>
            <p>{sentences[i].join(' ')}</p>
          </div>
        ))}
      </details>
    </>
  );
}

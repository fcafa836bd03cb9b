import { parse } from 'yaml';
import type { Issue } from '../../../scenarios/issue.ts';
import { edit } from '../edits.ts';
import { withFieldValue, withoutField } from '../field-edits.ts';
import type { Field } from '../messages.ts';
import * as state from '../state.ts';
import { useDraft } from './use-draft.ts';

/** One value with its unit, range, default and help; what is wrong with it is said beside it. */
export function FieldRow({ field }: { field: Field }) {
  if (field.kind === 'group' || field.kind === 'list') return <FieldGroup field={field} />;
  const wrong = issuesAt(field, true);
  const id = `value ${field.path}`.replaceAll(/[^\w-]/g, '-');
  const help = [rangeWords(field), field.fallback, field.help].filter((words) => words !== '').join('; ');
  return (
    <div
      class={`field ${wrong.some(({ severity }) => severity === 'error') ? 'wrong' : ''} ${field.given ? '' : 'by-default'}`}
    >
      <label for={id}>
        {field.title}
        {field.changed && <em> changed here</em>}
      </label>
      <span class="value">
        <Input field={field} id={id} />
        {field.unit && <span class="unit">{field.unit}</span>}
      </span>
      {field.removable && field.given && (
        <button type="button" class="quiet" onClick={() => edit(withoutField(field))}>
          {field.changed ? 'as filed' : 'default'}
          <span class="unseen"> for {field.title}</span>
        </button>
      )}
      {help && (
        <p class="help" id={`${id}-help`}>
          {help}
        </p>
      )}
      {wrong.map(({ got, want, severity }) => (
        <p key={want} class={severity} id={`${id}-wrong`}>
          {severity === 'error' ? 'Found' : 'Doubt: found'} {got}; expected {want}.
        </p>
      ))}
    </div>
  );
}

function Input({ field, id }: { field: Field; id: string }) {
  const common = { id, 'aria-describedby': `${id}-help`, value: field.text };
  const set = (to: unknown) => edit(withFieldValue(field, to));
  if (field.kind === 'flag')
    return (
      <input
        id={id}
        type="checkbox"
        aria-describedby={`${id}-help`}
        checked={field.text === 'true'}
        onChange={(event) => set(event.currentTarget.checked)}
      />
    );
  if (field.kind === 'choice')
    return (
      <select
        {...common}
        onChange={(event) => {
          const picked = (field.options ?? []).find((option) => String(option) === event.currentTarget.value);
          set(picked === '' ? null : picked);
        }}
      >
        {(field.options ?? []).map((option) => (
          <option key={option} value={String(option)}>
            {option === '' ? 'none' : option}
          </option>
        ))}
      </select>
    );
  return <TypedValue field={field} id={id} set={set} />;
}

function TypedValue({ field, id, set }: { field: Field; id: string; set: (to: unknown) => void }) {
  const draft = useDraft<HTMLInputElement>(field.text, field);
  return (
    <input
      id={id}
      {...draft}
      type="text"
      aria-describedby={`${id}-help`}
      inputMode={field.kind === 'number' ? 'decimal' : undefined}
      class={field.kind === 'number' ? 'number' : 'long'}
      onChange={(event) => set(typedValue(event.currentTarget.value, field.kind))}
    />
  );
}

/** What was typed as a value: a number where it is one, else the text itself, for the check to refuse in words. */
function typedValue(typed: string, kind: Field['kind']): unknown {
  const text = typed.trim();
  if (kind === 'text') return text;
  if (text === '') return undefined;
  if (kind === 'number') return Number.isFinite(Number(text)) ? Number(text) : text;
  try {
    return parse(text, { logLevel: 'silent' });
  } catch {
    return text;
  }
}

/** A group or a list, folded, with how many problems are in it. */
export function FieldGroup({ field, open = false }: { field: Field; open?: boolean }) {
  const wrong = issuesAt(field, false).filter(({ severity }) => severity === 'error').length;
  if (field.absent)
    return (
      <p class="absent">
        {field.title}: none{' '}
        <button type="button" class="quiet" onClick={() => edit(withFieldValue(field, field.seed))}>
          add <span class="unseen">{field.title}</span>
        </button>
        {field.help && <span class="help"> {field.help}</span>}
      </p>
    );
  const own = issuesAt(field, true);
  return (
    <details class="group" open={open || wrong > 0}>
      <summary>
        {field.title}
        {field.kind === 'list' && (
          <span class="soft"> {field.children.length === 0 ? 'none' : field.children.length}</span>
        )}
        {wrong > 0 && <strong class="error"> {wrong === 1 ? '1 problem' : `${wrong} problems`}</strong>}
      </summary>
      {field.help && <p class="help">{field.help}</p>}
      {own.map(({ got, want, severity }) => (
        <p key={want} class={severity}>
          Found {got}; expected {want}.
        </p>
      ))}
      {field.children.map((child) => (
        <FieldRow key={child.path} field={child} />
      ))}
      <p class="actions">
        {field.kind === 'list' && (
          <button
            type="button"
            class="quiet"
            onClick={() => edit(withFieldValue(nextItem(field), field.seed))}
          >
            add to {field.title}
          </button>
        )}
        {field.removable && (
          <button type="button" class="quiet" onClick={() => edit(withoutField(field))}>
            remove {field.title}
          </button>
        )}
      </p>
    </details>
  );
}

function nextItem(field: Field): Field {
  const place = field.children.length;
  return { ...field, path: `${field.path}.${place}`, steps: [...field.steps, place] };
}

/** Problems and doubts of a value, or of everything in a group. */
function issuesAt(field: Field, exactly: boolean): Issue[] {
  const own = field.steps.join('.');
  const prefix = state.inHand.value === 0 ? '' : `${state.inHandName.value}: `;
  return state.issues.value.filter(({ path }) => {
    const at = prefix && path.startsWith(prefix) ? path.slice(prefix.length) : path;
    const isLeaf = field.kind !== 'group' && field.kind !== 'list';
    return at === own || at === field.path || ((!exactly || isLeaf) && at.startsWith(`${own}.`));
  });
}

function rangeWords({ least, most, kind }: Field): string {
  if (kind !== 'number' || least === undefined || most === undefined) return '';
  const isBound = (value: number) => Number.isFinite(value) && Math.abs(value) < 1e15;
  if (isBound(least) && isBound(most)) return `${least} to ${most}`;
  return isBound(least) ? `at least ${least}` : '';
}

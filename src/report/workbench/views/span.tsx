import { useEffect } from 'preact/hooks';
import { areaPath, linePath } from '../../charts/per-pixel.ts';
import { shortDay, timeOfDay } from '../../view.ts';
import type { SpanPicture } from '../messages.ts';
import { askPicture, widths } from '../picture-loop.ts';
import { askWhy } from '../slow-work.ts';
import * as state from '../state.ts';
import { useWidth } from './use-size.ts';

/** Room for the name of a day [px]. */
const DAY_PX = 74;

const POWER_PX = 210;
const SOC_PX = 80;
const FILLS: Record<string, string> = {
  array: 'var(--array)',
  battery: 'var(--battery)',
  generator: 'var(--generator)',
  unserved: 'url(#hatch-unserved)',
};
const DAY_MS = 86_400_000;

/** The picked span: load, what supplies it stacked, and the state of charge; its runs can be asked about. */
export function Span() {
  const [box, width] = useWidth<HTMLDivElement>();
  useEffect(() => {
    if (width > 0 && Math.abs(widths.span - width) > 2) {
      widths.span = width;
      void askPicture(true);
    }
  }, [width]);
  const picture = state.picture.value;
  const site = state.site.value;
  if (!picture || !site) return null;
  const { span, darkWeek } = picture;
  const isDark = darkWeek !== null && darkWeek.fromStep === span.fromStep && darkWeek.toStep === span.toStep;
  return (
    <section class="span" aria-labelledby="span-title">
      <h2 id="span-title">
        {isDark ? 'The dark week, ' : ''}
        {span.title}
      </h2>
      <SpanChoice stepMin={site.stepMin} count={site.count} />
      <div ref={box} class="span-box">
        <Drawing span={span} stepMin={site.stepMin} />
      </div>
      <RunList span={span} />
    </section>
  );
}

/** The same choice as on the map, by day and length. */
function SpanChoice({ stepMin, count }: { stepMin: number; count: number }) {
  const picture = state.picture.value;
  const site = state.site.value;
  if (!picture || !site) return null;
  const { span, darkWeek } = picture;
  const perDay = 1440 / stepMin;
  const days = Math.max(1, Math.round((span.toStep - span.fromStep) / perDay));
  const show = (fromStep: number, length: number) => {
    const from = Math.round(Math.max(0, Math.min(count - length, fromStep)));
    state.span.value = { fromStep: from, toStep: Math.min(count, from + length) };
    void askPicture(true);
  };
  const dateOf = (ms: number) => new Date(ms).toISOString().slice(0, 10);
  return (
    <div class="span-choice">
      <label>
        from{' '}
        <input
          type="date"
          value={dateOf(span.localMs)}
          min={dateOf(site.localMs)}
          max={dateOf(site.localMs + count * stepMin * 60_000 - 1)}
          onChange={(event) => {
            const ms = Date.parse(`${event.currentTarget.value}T00:00Z`);
            if (!Number.isNaN(ms)) show((ms - site.localMs) / 60_000 / stepMin, days * perDay);
          }}
        />
      </label>
      <label>
        for{' '}
        <select
          value={String(days)}
          onChange={(event) => show(span.fromStep, Number(event.currentTarget.value) * perDay)}
        >
          {[...new Set([1, 2, 3, 7, 14, 31, days])]
            .sort((a, b) => a - b)
            .map((length) => (
              <option key={length} value={String(length)}>
                {length === 1 ? 'a day' : `${length} days`}
              </option>
            ))}
        </select>
      </label>
      <button
        type="button"
        onClick={() => show(span.fromStep - (span.toStep - span.fromStep), span.toStep - span.fromStep)}
      >
        earlier
      </button>
      <button type="button" onClick={() => show(span.toStep, span.toStep - span.fromStep)}>
        later
      </button>
      {darkWeek && (
        <button
          type="button"
          onClick={() => {
            state.span.value = null;
            void askPicture(true);
          }}
        >
          the dark week
        </button>
      )}
    </div>
  );
}

function Drawing({ span, stepMin }: { span: SpanPicture; stepMin: number }) {
  const width = span.loadKw.length;
  const kw = span.stack.map(({ kw }) => Float64Array.from(kw));
  // what lies on what: each sum with all below it
  for (let k = 1; k < kw.length; k++) for (let i = 0; i < width; i++) kw[k][i] += kw[k - 1][i];
  const load = Float64Array.from(span.loadKw);
  const charge = Float64Array.from(span.chargeKw);
  const most = Math.max(0.1, ...(kw.length > 0 ? kw[kw.length - 1] : []), ...load);
  const down = Math.max(0, ...charge);
  const scale = POWER_PX / (most + down);
  const zero = most * scale;
  const y = (value: number) => zero - value * scale;
  const height = POWER_PX + (span.soc ? SOC_PX + 26 : 0);
  const socY = (soc: number) => POWER_PX + 26 + (1 - soc) * SOC_PX;
  const days = dayLines(span, stepMin);
  const levers = state.picture.value?.levers;
  return (
    <figure>
      <figcaption class="span-key">
        <span>
          <i class="line" /> load
        </span>
        {span.stack.map(({ name }) => (
          <span key={name}>
            <svg width="16" height="11" aria-hidden="true">
              <rect width="16" height="11" fill={FILLS[name]} />
            </svg>{' '}
            {name}
          </span>
        ))}
        <span class="soft">
          above the line what supplies, below it what charges the battery; up to {most.toFixed(1)} kW
        </span>
      </figcaption>
      <div class="span-drawing">
        {span.soc && (
          <span class="soc-word" aria-hidden="true" style={{ top: `${POWER_PX + 4}px` }}>
            state of charge, 0 to 100 %
          </span>
        )}
        <svg
          class="span-svg"
          viewBox={`0 0 ${width} ${height}`}
          preserveAspectRatio="none"
          style={{ height: `${height}px` }}
          role="img"
          aria-label={span.title}
        >
          {days.map(({ at }) => (
            <path key={at} d={`M${at * width} 0V${height}`} class="day-line" />
          ))}
          {kw
            .map((values, k) => (
              <path
                key={span.stack[k].name}
                d={areaPath(0, zero, values, y)}
                fill={FILLS[span.stack[k].name]}
              />
            ))
            .reverse()}
          {down > 0 && (
            <path d={areaPath(0, zero, charge, (value) => zero + value * scale)} class="charging" />
          )}
          <path d={linePath(0, load, y)} class="load-line" />
          <path d={`M0 ${zero}H${width}`} class="zero-line" />
          {span.soc && (
            <>
              <path d={areaPath(0, socY(0), Float64Array.from(span.soc), socY)} class="soc-under" />
              <path d={linePath(0, Float64Array.from(span.soc), socY)} class="soc-line" />
              <path d={`M0 ${socY(0)}H${width}M0 ${socY(1)}H${width}`} class="zero-line" />
              {[levers?.startSoc, levers?.stopSoc].map(
                (soc) => soc != null && <path key={soc} d={`M0 ${socY(soc)}H${width}`} class="level-line" />,
              )}
            </>
          )}
        </svg>
      </div>
      <div class="day-names" aria-hidden="true">
        {days
          .filter((_, i) => i % Math.max(1, Math.ceil((days.length * DAY_PX) / width)) === 0)
          // the last one is left out where it would be cut
          .filter(({ at }) => at === 0 || (1 - at) * width >= DAY_PX)
          .map(({ at, text }) => (
            <span key={at} style={{ left: `${at * 100}%` }}>
              {text}
            </span>
          ))}
      </div>
      <div class="run-strip">
        {span.runs.map(({ run, from, to, text, cause }) => (
          <button
            key={run}
            type="button"
            tabIndex={-1}
            aria-hidden="true"
            title={text}
            class={cause === 'charge' || cause === 'peak' ? cause : 'other'}
            style={{ left: `${from * 100}%`, width: `max(6px, ${(to - from) * 100}%)` }}
            onClick={() => askWhy(run)}
          />
        ))}
      </div>
    </figure>
  );
}

/** Local midnights in the span; hours where it is short. */
function dayLines(
  { localMs, fromStep, toStep }: SpanPicture,
  stepMin: number,
): { at: number; text: string }[] {
  const lengthMs = (toStep - fromStep) * stepMin * 60_000;
  const every = lengthMs > 2 * DAY_MS ? DAY_MS : 6 * 3_600_000;
  const lines: { at: number; text: string }[] = [];
  for (
    let ms = Math.ceil(localMs / every) * every;
    ms < localMs + lengthMs && lines.length < 400;
    ms += every
  )
    lines.push({ at: (ms - localMs) / lengthMs, text: ms % DAY_MS === 0 ? shortDay(ms) : timeOfDay(ms) });
  return lines;
}

const MOST_LISTED = 20;

/** Every run of the span; asking about one runs the site again in the background. */
function RunList({ span }: { span: SpanPicture }) {
  if (span.runs.length === 0) return <p class="soft">The generator does not run in this span.</p>;
  return (
    <details class="runs" open={span.runs.length <= 8}>
      <summary>
        {span.runs.length === 1 ? 'One generator run' : `${span.runs.length} generator runs`}: pick one to see
        why it started
      </summary>
      <ul>
        {span.runs.slice(0, MOST_LISTED).map(({ run, text }) => (
          <li key={run}>
            <button
              type="button"
              class="quiet"
              aria-pressed={state.askedRun.value === run}
              onClick={() => askWhy(run)}
            >
              {text}
            </button>
          </li>
        ))}
      </ul>
      {span.runs.length > MOST_LISTED && (
        <p class="soft">The first {MOST_LISTED}; a shorter span lists the rest.</p>
      )}
    </details>
  );
}

import { useEffect } from 'preact/hooks';
import { MONTH_NAMES } from '../../view.ts';
import { tried, tryOut } from '../alternatives.ts';
import type { SocBand } from '../messages.ts';
import { askPicture, widths } from '../picture-loop.ts';
import * as state from '../state.ts';
import { useWidth } from './use-size.ts';

/** Of the drawing's own measure; the page gives it its height. */
const HEIGHT = 200;

/** State of charge through the year, with the thresholds as lines that are dragged. */
export function SocLevers() {
  const [box, width] = useWidth<HTMLDivElement>();
  useEffect(() => {
    if (width > 0 && Math.abs(widths.year - width) > 2) {
      widths.year = width;
      void askPicture(true);
    }
  }, [width]);
  const picture = state.picture.value;
  const base = state.baseLevers.value;
  if (!picture || !base) return null;
  const { levers, soc } = picture;
  return (
    <section class="soc" aria-labelledby="soc-title">
      <h2 id="soc-title">
        State of charge through the year
        {levers.startSoc !== null && (
          <small> lowest and highest of each day; drag where the generator starts and stops</small>
        )}
      </h2>
      <div class="soc-box" ref={box}>
        {soc ? <Band band={soc} /> : <p class="soft">This site has no battery.</p>}
        <MonthTicks />
        {soc &&
          [0, 50, 100].map((percent) => (
            <span key={percent} class="soc-tick" style={{ bottom: `${percent}%` }}>
              {percent} %
            </span>
          ))}
        {soc && levers.startSoc !== null && levers.stopSoc !== null && (
          <>
            <Threshold
              name="stops"
              path="control.charge.stopSoc"
              value={levers.stopSoc}
              was={base.stopSoc}
              least={Math.min(1, levers.startSoc + 0.01)}
              most={1}
            />
            <Threshold
              name="starts"
              path="control.charge.startSoc"
              value={levers.startSoc}
              was={base.startSoc}
              least={levers.cutoffSoc ?? 0}
              most={Math.max(0, levers.stopSoc - 0.01)}
            />
          </>
        )}
      </div>
      {base.ratedKw !== null && (
        <p class="care soc-care">
          The generator starts by itself, at any hour and without warning: lock it out before touching it or
          anything that it drives.
        </p>
      )}
    </section>
  );
}

function Band({ band: { lowest, highest } }: { band: SocBand }) {
  const { length } = lowest;
  const y = (soc: number) => ((1 - soc) * HEIGHT).toFixed(1);
  let high = '';
  let low = '';
  let back = '';
  for (let i = 0; i < length; i++) {
    high += `${i} ${y(highest[i])} ${i + 1} ${y(highest[i])} `;
    low += `${i} ${y(lowest[i])} ${i + 1} ${y(lowest[i])} `;
    const k = length - 1 - i;
    back += `${k + 1} ${y(lowest[k])} ${k} ${y(lowest[k])} `;
  }
  return (
    <svg
      class="soc-band"
      viewBox={`0 0 ${length} ${HEIGHT}`}
      preserveAspectRatio="none"
      role="img"
      aria-label="Lowest and highest state of charge of each day through the year"
    >
      <polygon points={`${high}${back}`} class="soc-range" />
      <polyline points={low} class="soc-low" />
    </svg>
  );
}

function MonthTicks() {
  const site = state.site.value;
  if (!site) return null;
  const spanMs = site.count * site.stepMin * 60_000;
  const first = new Date(site.localMs);
  const ticks: { at: number; text: string }[] = [];
  const stride = spanMs > 800 * 86_400_000 ? 12 : 1;
  for (let k = 0; ticks.length < 40; k += stride) {
    const ms = Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + k, 1);
    if (ms >= site.localMs + spanMs) break;
    const month = new Date(ms).getUTCMonth();
    const text = stride === 12 ? String(new Date(ms).getUTCFullYear()) : MONTH_NAMES[month].slice(0, 3);
    ticks.push({ at: Math.max(0, (ms - site.localMs) / spanMs), text });
  }
  return (
    <div class="month-ticks" aria-hidden="true">
      {ticks.map(({ at, text }) => (
        <span key={at} style={{ left: `${at * 100}%` }}>
          {stride === 12 ? (
            text
          ) : (
            <>
              {text[0]}
              <i>{text.slice(1)}</i>
            </>
          )}
        </span>
      ))}
    </div>
  );
}

interface ThresholdProps {
  name: 'starts' | 'stops';
  path: string;
  value: number;
  was: number | null;
  least: number;
  most: number;
}

function Threshold({ name, path, value: drawn, was, least, most }: ThresholdProps) {
  // the line stays under the hand, even where its picture is not there yet
  const value = tried(path, drawn);
  const percent = Math.round(value * 1000) / 10;
  const set = (to: number, since: number | null) => {
    const rounded = Math.round(Math.max(least, Math.min(most, to)) * 100) / 100;
    if (rounded !== tried(path, drawn)) tryOut({ [path]: rounded }, since);
  };
  const drag = (event: PointerEvent) => {
    const line = event.currentTarget as HTMLElement;
    const box = line.parentElement?.getBoundingClientRect();
    if (!box || !line.hasPointerCapture(event.pointerId)) return;
    set(1 - (event.clientY - box.top) / box.height, event.timeStamp);
  };
  const keys: Record<string, number> = {
    ArrowUp: 0.01,
    ArrowRight: 0.01,
    ArrowDown: -0.01,
    ArrowLeft: -0.01,
    PageUp: 0.05,
    PageDown: -0.05,
  };
  return (
    <>
      {was !== null && was !== value && <div class="was-line" style={{ bottom: `${was * 100}%` }} />}
      <div
        class={`threshold ${name}`}
        role="slider"
        tabIndex={0}
        aria-orientation="vertical"
        aria-label={`Generator ${name} at`}
        aria-valuemin={Math.round(least * 100)}
        aria-valuemax={Math.round(most * 100)}
        aria-valuenow={percent}
        aria-valuetext={`${percent} % state of charge`}
        style={{ bottom: `${value * 100}%` }}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={drag}
        onKeyDown={(event) => {
          const by = keys[event.key];
          if (by === undefined) return;
          event.preventDefault();
          set(tried(path, drawn) + by, event.timeStamp);
        }}
      >
        <span>
          {name} at {percent} %
        </span>
      </div>
    </>
  );
}

import type { Terminal } from './work.ts';

/** One line on a terminal that says what a search is doing, written over as it goes on; nothing elsewhere. */
export function showDoing({ showsProgress }: Terminal): {
  show: (doing: string, runs: number) => void;
  end: () => void;
} {
  const write = (text: string) => {
    if (showsProgress) process.stderr.write(`\r\x1b[K${text}`);
  };
  return { show: (doing, runs) => write(`${runs} runs so far; now ${doing}`), end: () => write('') };
}

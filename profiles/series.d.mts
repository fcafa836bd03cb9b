/** Makers of the demonstration files, by their path in this folder; the same bytes every time. */
export const FILES: Record<string, () => Uint8Array>;

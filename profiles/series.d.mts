/** Makers of the demonstration files, by their path in this folder; the same text every time. */
export const FILES: Record<string, () => string>;

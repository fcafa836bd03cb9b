/** Names of the readers, in the order in which they look at a file. */
export const READERS = ['nem12', 'greenbutton', 'pvgis', 'epw', 'tmy3', 'csv'] as const;
export type ReaderName = (typeof READERS)[number];

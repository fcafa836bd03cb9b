import type { EN } from './en.ts';

type Group = 'causes' | 'outageCauses' | 'headings' | 'labels' | 'sentences' | 'words';

/** Forms of a noun after a number, by the plural rules of its language ('other' stands for all that are not given). */
type Forms = { other: string } & Partial<Record<Intl.LDMLPluralRule, string>>;

/** Everything that a language must have. */
export type Texts = {
  [G in Group]: Record<keyof (typeof EN)[G], string>;
} & {
  units: Record<keyof typeof EN.units, Forms>;
  under: string;
  and: string;
  perLitre: string;
  perGallon: string;
};

export type UnitKey = keyof typeof EN.units;
export type SentenceKey = keyof typeof EN.sentences;
export type LabelKey = keyof typeof EN.labels;

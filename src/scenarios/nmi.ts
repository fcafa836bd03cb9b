import { quoted } from './findings.ts';

/**
 * The check digit of a meter identifier (NMI) of ten characters: every other character code from the right, the
 * last first, is doubled; the digits of all are added up; what is missing to the next ten is the check digit.
 * @param nmi identifier without its check digit, upper case
 * @returns 0 to 9
 * Source: AEMO, National Metering Identifier Procedure (as transcribed in public code, second hand).
 */
export function nmiChecksum(nmi: string): number {
  let sum = 0;
  for (let i = 0; i < nmi.length; i++) {
    const fromRight = nmi.length - 1 - i;
    const code = nmi.charCodeAt(i) * (fromRight % 2 === 0 ? 2 : 1);
    for (const digit of String(code)) sum += Number(digit);
  }
  return (10 - (sum % 10)) % 10;
}

/** A meter identifier as a file gives it. */
export interface Nmi {
  /** without check digit */
  nmi: string;
  /** what is doubtful about it; null when nothing is */
  doubt: string | null;
}

/** Takes a check digit off an identifier of eleven characters; the format itself has ten. */
export function readNmi(text: string): Nmi {
  const whole = text.trim().toUpperCase();
  const nmi = whole.slice(0, 10);
  if (!/^[A-Z0-9]{10,11}$/.test(whole)) return { nmi: whole, doubt: quoted(whole) };
  if (whole.length === 10) return { nmi, doubt: null };
  const right = nmiChecksum(nmi);
  return {
    nmi,
    doubt: whole[10] === String(right) ? null : `check digit ${whole[10]} where ${right} is right`,
  };
}

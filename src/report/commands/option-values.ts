import { InvalidArgumentError } from 'commander';

/**
 * Values of options as they are typed: each reader gives the value, or says what was expected, which ends the command
 * with exit code 2.
 */

/** A step [min] of whole minutes that divides an hour, 1 to 60. */
export function stepMinutes(text: string): number {
  const minutes = Number(text);
  if (Number.isInteger(minutes) && minutes >= 1 && 60 % minutes === 0) return minutes;
  throw new InvalidArgumentError('Expected whole minutes that divide 60, 1 to 60.');
}

/** A whole number, 1 or more. */
export function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1) return value;
  throw new InvalidArgumentError('Expected a whole number from 1.');
}

/** Any number. */
export function plainNumber(text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value)) return value;
  throw new InvalidArgumentError('Expected a number.');
}

/** A number, 0 or more. */
export function fromZero(text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value) && value >= 0) return value;
  throw new InvalidArgumentError('Expected a number, 0 or more.');
}

/** Percent, 0 to 100, as a share from 0 to 1. */
export function percent(text: string): number {
  const value = fromZero(text);
  if (value <= 100) return value / 100;
  throw new InvalidArgumentError('Expected percent, 0 to 100.');
}

/** An option that may be given several times: all its texts. */
export function collected(text: string, before: string[]): string[] {
  return [...before, text];
}

/** A port, 0 to 65535; 0: any that is free. */
export function portNumber(text: string): number {
  const port = Number(text);
  if (text.trim() !== '' && Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new InvalidArgumentError('Expected a whole number from 0 to 65535.');
}

/** A local time to the minute, as it was typed. */
export function localTime(text: string): string {
  if (/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text) && !Number.isNaN(Date.parse(`${text}Z`))) return text;
  throw new InvalidArgumentError('Expected a local time such as 2025-01-12T18:00.');
}

/** A day of the calendar, as it was typed. */
export function localDate(text: string): string {
  const day = new Date(`${text}T00:00Z`);
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(day.getTime());
  if (isDay && day.toISOString().startsWith(text)) return text;
  throw new InvalidArgumentError('Expected a date such as 2026-01-31.');
}

/** Today by the clock of this computer: yyyy-mm-dd. */
export function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Debian's Chromium, which tests look at pages with; `npm test` installs it where it may. */
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright';

export const CHROMIUM = '/usr/bin/chromium';
export const isInstalled = existsSync(CHROMIUM);

const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const launch = (): Promise<Browser> => chromium.launch({ executablePath: CHROMIUM, args: QUIET });

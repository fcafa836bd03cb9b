/** Before the tests: finds Chromium, installs Debian's where it may (root, apt-get), or says what to install. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const CHROMIUM = '/usr/bin/chromium';

if (!existsSync(CHROMIUM)) {
  const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    process.stdout.write('Chromium is missing: installing the Debian package chromium ...\n');
    const quiet = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
    spawnSync('apt-get', ['update'], quiet);
    spawnSync('apt-get', ['install', '-y', 'chromium'], quiet);
  }
  if (!existsSync(CHROMIUM))
    process.stdout.write(
      'No Chromium: tests in a browser are skipped. On Debian: apt-get install chromium\n',
    );
}

/** Before the tests: finds a Redis server, installs Debian's where it may (root, apt-get), or says what to install. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const REDIS = '/usr/bin/redis-server';

if (!existsSync(REDIS)) {
  const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    process.stdout.write('Redis is missing: installing the Debian package redis-server ...\n');
    const quiet = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
    spawnSync('apt-get', ['update'], quiet);
    spawnSync('apt-get', ['install', '-y', 'redis-server'], quiet);
  }
  if (!existsSync(REDIS))
    process.stdout.write(
      'No Redis: tests of the queue are skipped. On Debian: apt-get install redis-server\n',
    );
}

import { spawnSync } from 'node:child_process';

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command as a person runs it: a process of its own. */
export function lugwright(
  args: readonly string[],
  options: { input?: string | Buffer; cwd?: string; env?: Record<string, string> } = {},
): Ran {
  const r = spawnSync(process.execPath, [`${process.cwd()}/bin/lugwright.mjs`, ...args], {
    input: options.input ?? '',
    cwd: options.cwd,
    env: { ...process.env, ...options.env },
    maxBuffer: 1 << 28,
  });
  return { status: r.status, out: r.stdout.toString(), err: r.stderr.toString() };
}

import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const home = mkdtempSync(join(tmpdir(), 'lugwright-kept-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

const JIG = 'jigs/kettle-row-snare.yaml';
/** The program in a folder of its own, with what the build kept for it. */
function copyOf(name: string): string {
  const folder = join(home, name);
  for (const part of ['bin', 'dist', 'jigs', 'package.json']) cpSync(part, join(folder, part), { recursive: true });
  return folder;
}
const check = (folder: string, flags: readonly string[] = []): string => {
  const args = [...flags, 'bin/lugwright.mjs', 'check', JIG, '--json'];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${status}: ${stderr}`);
  return stdout;
};
const kept = (folder: string): string[] =>
  readdirSync(join(folder, 'dist/code')).map((n) => join(folder, 'dist/code', n));

describe('code that the build kept', () => {
  it('is taken by the engine that made it: of a check nothing is left to keep', () => {
    const folder = copyOf('taken');
    const asks = `import { ENTRY, keepCode, load } from './bin/pieces.mjs';
      await load(ENTRY).main(['check', '${JIG}']);
      console.error(JSON.stringify(keepCode()));`;
    const run = (): unknown => {
      const args = ['--input-type=module', '-e', asks];
      return JSON.parse(spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' }).stderr.trim());
    };
    expect(kept(folder).length).toBeGreaterThan(10);
    expect(run()).toEqual([]);
    // And the question can be answered otherwise.
    rmSync(join(folder, 'dist/code'), { recursive: true });
    expect(run()).not.toEqual([]);
    expect(run()).toEqual([]);
  });

  it('changes nothing that is told, be it there, gone, cut short, spoilt, or made under other flags', () => {
    const folder = copyOf('told');
    const told = check(folder);
    expect(check(folder, ['--max-old-space-size=300'])).toBe(told);
    for (const file of kept(folder)) truncateSync(file, 100);
    expect(check(folder)).toBe(told);
    for (const file of kept(folder)) writeFileSync(file, '');
    expect(check(folder)).toBe(told);
    for (const file of kept(folder)) writeFileSync(file, 'spoilt '.repeat(500));
    expect(check(folder)).toBe(told);
    rmSync(join(folder, 'dist/code'), { recursive: true });
    expect(check(folder)).toBe(told);
  });
});

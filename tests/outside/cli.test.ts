import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { lugwright, type Ran } from '../helpers/cli.ts';

const home = mkdtempSync(join(tmpdir(), 'lugwright-cli-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const place = (name: string) => join(home, name);

const sound = `jig: 1
name: Test
shell: { diameter: 300 mm, depth: 150 mm, wall: 6 mm }
lugs: { count: 6, rows: [{ edge: top, distance: 36 mm }], holes: { layout: upright, spacing: 25.4 mm, drill: 6 mm } }
`;
let n = 0;
function jigFile(text: string | Buffer): string {
  const file = place(`jig-${n++}.yaml`);
  writeFileSync(file, text);
  return file;
}

/** Exit 2, in one paragraph a line, no stack trace, at once. */
function refused(r: Ran, said: RegExp): void {
  expect(r.status, r.err).toBe(2);
  expect(r.err).toMatch(said);
  expect(r.err).not.toMatch(/\n\s+at |node:internal|TypeError/);
}

describe('help and versions', () => {
  test('--version', () =>
    expect(lugwright(['--version']).out.trim()).toBe(JSON.parse(readFileSync('package.json', 'utf8')).version));
  test('--help lists every command, and each has an example', () => {
    const help = lugwright(['--help']);
    expect(help.status).toBe(0);
    for (const c of ['new', 'check', 'make', 'dry-run', 'feeds', 'measured', 'coupon', 'schema']) {
      expect(help.out).toMatch(new RegExp(`^\\s+${c}\\b`, 'm'));
      const own = lugwright([c, '--help']);
      expect(own.status).toBe(0);
      expect(own.out).toMatch(/Example:\n\s+lugwright /);
    }
  });
  test('a misspelt command is answered with the nearest', () => refused(lugwright(['chek', 'x']), /check/));
  test('a misspelt option is answered with the nearest', () => refused(lugwright(['check', 'x', '--jsn']), /--json/));
  test('help for a misspelt command, and an option before the command', () => {
    refused(lugwright(['help', 'maek']), /Try: make, or see/);
    refused(lugwright(['--quiet', 'check', 'x']), /Try: write --quiet at the end/);
  });
  test('a profile kind named like a property of every object is none', () =>
    refused(lugwright(['schema', '--profile', 'constructor']), /Allowed: sheet, material/));
  test('no command', () => expect(lugwright([]).status).toBe(2));
  test('no jig', () => refused(lugwright(['make']), /jig/));
});

describe('bad jig files: exit 2, words, nothing written', () => {
  test.each<[string, string | Buffer, RegExp]>([
    ['empty', '', /empty file/],
    ['truncated', sound.slice(0, 90), /./],
    ['binary', Buffer.from([0x7f, 0x45, 0x4c, 0x46, 0, 1, 2, 255, 254]), /UTF-8|control/],
    ['10 MB', Buffer.alloc(10 << 20, 'a'), /256 KB/],
    ['deeply nested', `jig: ${'['.repeat(100_000)}`, /nesting/],
    [
      'alias bomb',
      `a: &a [x,x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: [*c,*c,*c,*c]\n`,
      /alias/i,
    ],
    ['duplicate key', `${sound}name: b\n`, /twice/],
    ['negative', sound.replace('150 mm', '-150 mm'), /shell\.depth/],
    ['wall over radius', sound.replace('wall: 6 mm', 'wall: 200 mm'), /radius/],
    ['NaN', sound.replace('150 mm', '.nan'), /shell\.depth/],
    ['mixed units', sound.replace('150 mm', '5 in 20 mm'), /shell\.depth/],
  ])('%s', (name, text, said) => {
    const out = place(`out-${name.replace(/\W/g, '')}`);
    const file = jigFile(text);
    const r = lugwright(['make', file, '--out', out]);
    refused(r, said);
    expect(r.err).toContain(`${file}`);
    expect(existsSync(out)).toBe(false);
  });
  test('a file that is not there, and a folder', () => {
    refused(lugwright(['check', place('missing.yaml')]), /does not exist/);
    refused(lugwright(['check', home]), /folder/);
  });
  test('line and column lead the complaint', () =>
    refused(lugwright(['check', jigFile(sound.replace('depth', 'dept'))]), /jig-\d+\.yaml:3:\d+: shell\.dept/));
  test('--json says the same as data', () => {
    const r = lugwright(['check', jigFile(sound.replace('depth', 'dept')), '--json']);
    expect(r.status).toBe(2);
    expect(JSON.parse(r.out)).toMatchObject({
      ok: false,
      exit: 2,
      errors: expect.arrayContaining([expect.objectContaining({ line: 3, key: 'shell.dept' })]),
    });
  });
  test('what is not ASCII is read by the program as it is shipped', () => {
    const text = sound.replace('diameter: 300 mm', 'diameter: 11¾”').replace('150 mm', '15.0 ｃｍ');
    refused(lugwright(['check', jigFile(text)]), /shell\.depth: 15\.0 ｃｍ/);
    const signs = sound
      .replace('36 mm }]', '1½″ }, { edge: middle, distance: −5 mm, first: 20° }]')
      .replace('6 mm }\nl', '¼” }\nl');
    expect(lugwright(['check', jigFile(signs)]).status).toBe(0);
    for (const piece of readdirSync('dist').filter((f) => f.endsWith('.cjs')))
      expect(/[^\0-\x7f]/.exec(readFileSync(join('dist', piece), 'utf8')), piece).toBeNull();
  });
  test('a fitting, hole or bit named for the program that is not there', () => {
    const [file, out] = [jigFile(sound), place('out-named')];
    const make = (...options: string[]) => lugwright(['make', file, '--out', out, ...options]);
    refused(make('--only', 'top-lug'), /--only top-lug: .*Try: --only top-lugs/);
    refused(make('--from-hole', 'lug-top-1'), /Allowed: lug-top-1-a, .*Try: --from-hole lug-top-1-a/);
    expect(existsSync(out)).toBe(false);
    // No section on the machine was written, and a program of no bit was asked for all the same.
    expect(make('--from-tool', '99')).toMatchObject({ status: 1 });
    expect(existsSync(join(out, 'rotary.nc'))).toBe(false);
  });
  test('a slip in a profile is told in its own place, once however often it is named', () => {
    mkdirSync(place('shop'), { recursive: true });
    const [file, bed] = [join(place('shop'), 'j.yaml'), join(place('shop'), 'bed.yaml')];
    writeFileSync(file, `${sound}wrap: { sheet: bed.yaml, paper: a4 }\ncollar: { sheet: bed.yaml }\n`);
    writeFileSync(bed, 'profile: sheet\nlike: laser-600x400\nkref: 0.2\n');
    const r = lugwright(['check', file, '--json']);
    expect(JSON.parse(r.out).errors).toMatchObject([
      { file: bed, line: 3, column: 1, key: 'kref', try: 'write "kerf" if that is what you mean' },
      { file, line: 5, column: 33, key: 'wrap.paper', try: 'write paper-a4 if that is what you mean' },
    ]);
    writeFileSync(bed, '# nothing yet\n');
    refused(lugwright(['check', file]), /bed\.yaml:1:1: an empty file\. Allowed: .*"profile: sheet"/);
  });
  test('a profile outside the folder is not read', () => {
    writeFileSync(place('outside.yaml'), 'profile: sheet\n');
    mkdirSync(place('in'), { recursive: true });
    const file = join(place('in'), 'j.yaml');
    for (const name of ['../outside.yaml', place('outside.yaml')]) {
      writeFileSync(file, `${sound}wrap: { sheet: "${name}" }\n`);
      refused(lugwright(['check', file]), /outside the jig file's folder/);
    }
    symlinkSync(place('outside.yaml'), join(place('in'), 'link.yaml'));
    writeFileSync(file, `${sound}wrap: { sheet: link.yaml }\n`);
    refused(lugwright(['check', file]), /link/);
  });
});

describe('the main job from the command line', () => {
  let made: Ran;
  const out = place('snare');
  beforeAll(() => {
    made = lugwright(['make', 'jigs/kettle-row-snare.yaml', '--out', out, '--json']);
  });
  test('exit 0, JSON alone on standard output, the files it names', () => {
    expect(made.status, made.err).toBe(0);
    const said = JSON.parse(made.out) as { ok: boolean; files: string[] };
    expect(said.ok).toBe(true);
    expect(
      readdirSync(out)
        .filter((f) => !f.startsWith('.'))
        .sort(),
    ).toEqual([...said.files].sort());
  });
  test('its own program passes the dry run, from a file and from standard input', () => {
    const nc = join(out, 'rotary.nc');
    expect(lugwright(['dry-run', nc, '--jig', 'jigs/kettle-row-snare.yaml']).status).toBe(0);
    const r = lugwright(['dry-run', '-', '--jig', 'jigs/kettle-row-snare.yaml', '--json'], { input: readFileSync(nc) });
    expect(r.status).toBe(0);
    expect(JSON.parse(r.out).holes).toHaveLength(45);
  });
  test('a program with the sign of A turned is mirrored, and stops', () => {
    const mirrored = readFileSync(join(out, 'rotary.nc'), 'utf8').replace(/\bA(\d)/g, 'A-$1');
    const r = lugwright(['dry-run', '-', '--jig', 'jigs/kettle-row-snare.yaml', '--json'], { input: mirrored });
    expect(r.status).toBe(1);
    expect(r.out).toMatch(/mirror/);
  });
  test('the wrong jig: exit 1, the set is written, the program withheld, and --anyway halts first', () => {
    const folder = place('wrong');
    const r = lugwright(['make', 'jigs/kettle-row-wrong.yaml', '--out', folder]);
    expect(r.status).toBe(1);
    expect(r.err).toMatch(/STOP/);
    expect(existsSync(join(folder, 'bench.html'))).toBe(true);
    expect(existsSync(join(folder, 'rotary.nc'))).toBe(false);
    // The cures clear what making alone would find too, and say so.
    const told = lugwright(['check', 'jigs/kettle-row-wrong.yaml', '--suggest']);
    expect(told.out).toMatch(/: 11 stops \(1 of them when it is made\) become 0\.\nSTOP: 10 findings/);
    const snare = readFileSync('jigs/kettle-row-snare.yaml', 'utf8').replaceAll('distance: 38 mm', 'distance: 30 mm');
    expect(lugwright(['make', jigFile(snare), '--out', place('anyway'), '--anyway']).status).toBe(1);
    const lines = readFileSync(join(place('anyway'), 'rotary.nc'), 'utf8').split('\n');
    expect(lines.find((l) => l.trim() !== '' && !l.startsWith('('))).toMatch(/^M0\b.*rod-bottoms/);
  });
  test('a folder that cannot be written', () => {
    writeFileSync(place('plain'), '');
    refused(lugwright(['make', 'jigs/kettle-row-snare.yaml', '--out', join(place('plain'), 'x')]), /path is a file/);
    mkdirSync(place('real'));
    symlinkSync(place('real'), place('link'));
    refused(lugwright(['make', 'jigs/kettle-row-snare.yaml', '--out', place('link')]), /link/);
    expect(readdirSync(place('real'))).toEqual([]);
  });
  test('names that could do harm stay names', () => {
    const name = '../../x\\u202e\\u0007/<script>alert(1)</script>';
    const folder = place('names');
    const r = lugwright(['make', jigFile(sound.replace('name: Test', `name: "${name}"`)), '--out', folder]);
    expect([0, 1]).toContain(r.status);
    for (const f of readdirSync(folder).filter((x) => /\.(html|svg)$/.test(x)))
      expect(readFileSync(join(folder, f), 'utf8')).not.toMatch(/<script>alert/);
    expect(readFileSync(join(folder, 'rotary.nc'), 'utf8')).toMatch(/^[\n -~]*$/);
    const own = lugwright(['make', jigFile(sound.replace('name: Test', `name: "${name}"`))], { cwd: home });
    expect([0, 1]).toContain(own.status);
    expect(readdirSync(join(home, 'output'))).toEqual(['x-script-alert-1-script']);
  });
  test('a closed pipe ends quietly', () => {
    const r = spawnSync('bash', ['-o', 'pipefail', '-c', `node bin/lugwright.mjs schema | head -c 10`], {
      encoding: 'utf8',
    });
    expect(r.status).toBe(0);
    expect(r.stdout).toHaveLength(10);
    expect(r.stderr).toBe('');
  });
});

describe('the other commands', () => {
  test('feeds gives numbers with reasons', () => {
    const r = lugwright([
      'feeds',
      '--wood',
      'sugar-maple',
      '--tool',
      'brad-point',
      '--diameter',
      '6 mm',
      '--machine',
      'rotary-slow',
      '--json',
    ]);
    expect(r.status).toBe(0);
    const f = JSON.parse(r.out);
    expect(f.speed_rev_min).toBeGreaterThanOrEqual(500);
    expect(f.reasons.length).toBeGreaterThan(1);
    refused(lugwright(['feeds', '--wood', 'sugar-mapel', '--tool', 'twist', '--diameter', '6']), /sugar-maple/);
    refused(lugwright(['feeds', '--wood', 'sugar-maple', '--tool', 'twist', '--diameter', '-6']), /more than 0/);
  });
  test('new writes a jig that checks, and never over a file', () => {
    const file = place('new.yaml');
    const args = [
      'new',
      file,
      '--name',
      'My: "tom" # 1',
      '--diameter',
      '12 in',
      '--depth',
      '8 in',
      '--wall',
      '6.5 mm',
      '--lugs',
      '6',
    ];
    expect(lugwright(args).status).toBe(0);
    expect([0, 1]).toContain(lugwright(['check', file]).status);
    refused(lugwright(args), /a file already/);
    refused(
      lugwright([
        'new',
        place('other.yaml'),
        '--name',
        'x',
        '--diameter',
        'wide',
        '--depth',
        '8 in',
        '--wall',
        '6',
        '--lugs',
        '6',
      ]),
      /diameter/,
    );
    expect(existsSync(place('other.yaml'))).toBe(false);
    for (const kind of ['snare', 'floor-tom', 'bass', 'tom']) {
      const f = place(`new-${kind}.yaml`);
      expect(
        lugwright([
          'new',
          f,
          '--kind',
          kind,
          '--name',
          kind,
          '--circumference',
          '1113 mm',
          '--depth',
          '165',
          '--wall',
          '6.6',
          '--lugs',
          '8',
        ]).status,
      ).toBe(0);
      expect(lugwright(['check', f]).status, kind).toBe(0);
    }
  });
  test('measured on the blank form says what it needs', () => {
    const r = lugwright(['measured', 'jigs/kettle-row-snare.yaml', join(place('snare'), 'readings.csv')]);
    expect(r.status).toBe(0);
    refused(
      lugwright(['measured', 'jigs/kettle-row-snare.yaml', '-'], {
        input: 'kind,from,to,reading_mm\nchord,lug-top-1-a,lug-top-9-z,10\n',
      }),
      /lug-top-9/,
    );
  });
  test("the demo jigs' schema is the one the program prints", () => {
    expect(JSON.parse(readFileSync('jigs/jig.schema.json', 'utf8'))).toEqual(JSON.parse(lugwright(['schema']).out));
  });
});

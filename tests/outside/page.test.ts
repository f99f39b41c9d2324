import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { fillPage } from '../../src/page/fill.ts';
import { ranges } from '../../src/page/html.ts';
import { dataText } from '../../src/page/policy.ts';
import { neighbours } from '../../src/page/sections/holes.ts';
import { supplies } from '../../src/page/shopping.ts';
import { viewOf } from '../../src/page/view.ts';
import { workSteps } from '../../src/page/work/order.ts';
import { clip, esc } from '../../src/picture/svg.ts';
import { template } from '../browser/open.ts';
import { SAMPLE, samplePage, samplePageWithProgram } from '../browser/sample.ts';

describe('the page as text', () => {
  test('its security policy names exactly the hashes of what it carries (CSP Level 3: sha256 of the element text)', () => {
    const html = fillPage(samplePage(template));
    const sha = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '';
    const styles = [...html.matchAll(/<style>([\s\S]*?)<\/style>/g)].map((m) => sha(m[1]!));
    const scripts = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((m) => sha(m[1]!));
    expect(styles).toHaveLength(1);
    expect(scripts).toHaveLength(1);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain(`style-src ${styles[0]}`);
    expect(policy).toContain(scripts[0]);
    expect(policy).not.toContain('unsafe');
  });

  test('carries no style attribute, no handler attribute and no address outside itself', () => {
    const body = fillPage(samplePage(template)).replace(/<script[\s\S]*?<\/script>|<style>[\s\S]*?<\/style>/g, '');
    expect(body).not.toMatch(/\sstyle=/);
    expect(body).not.toMatch(/\son[a-z]+=/);
    expect(body.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|\ssrc=|url\(/);
  });

  test('the same data give the same bytes, well under the limit of 900 KB', () => {
    const html = fillPage(samplePage(template));
    expect(fillPage(samplePage(template))).toBe(html);
    expect(Buffer.byteLength(html)).toBeLessThan(900_000);
  });

  test('a hundred holes with their program stay under it too', () => {
    const data = samplePageWithProgram(template, undefined, (text) => text.replace('count: 8', 'count: 24'));
    expect(data.plan.holes).toHaveLength(101);
    expect(Buffer.byteLength(fillPage(data))).toBeLessThan(900_000);
  });

  test('findings with markup stay text', () => {
    const nasty = { ...samplePage(template).findings[0]!, text: '<b onload="x">&amp;</b>', try: '</p><script>' };
    const html = fillPage(samplePage(template, SAMPLE, [nasty]));
    expect(html).toContain('&lt;b onload=&quot;x&quot;&gt;&amp;amp;&lt;/b&gt;');
    expect(html.includes('<b onload')).toBe(false);
  });

  test('without a stop it does not say that all is well, only that nothing says stop', () => {
    const html = fillPage(samplePage(template, SAMPLE, []));
    const seen = html.replace(/<script[\s\S]*?<\/script>/g, '');
    expect(/<title>STOP|do not drill/.test(seen)).toBe(false);
    expect(seen.includes('Nothing here says stop')).toBe(true);
  });
});

test('data inside a script element cannot end it, and reads back as it was', () => {
  const value = { a: '</script><!--<script>', b: '\u2028\u2029', c: '🥁' };
  expect(dataText(value)).not.toMatch(/[<\u2028\u2029]/);
  expect(JSON.parse(dataText(value))).toEqual(value);
});

test('text is escaped, and what XML 1.0 forbids (section 2.2) is replaced', () => {
  expect(esc(`<a b='c' d="e">&`)).toBe('&lt;a b=&#39;c&#39; d=&quot;e&quot;&gt;&amp;');
  expect(esc('a\u0000b\u000Bc\uD800d\uFFFEe')).toBe('a\uFFFDb\uFFFDc\uFFFDd\uFFFDe');
  expect(esc('🥁 \t\n é')).toBe('🥁 \t\n é');
});

test('cutting never tears a joined emoji or an accent from its letter', () => {
  expect(clip('drum', 4)).toBe('drum');
  expect(clip('drummer', 4)).toBe('dru…');
  expect(clip('ab👩🏽‍🔧cd', 4)).toBe('ab…');
  expect(clip('abe\u0301\u0302x', 4)).toBe('ab…');
});

test('numbers in a row are said as ranges', () => {
  expect(ranges([1, 2, 3, 5, 6, 9])).toBe('1–3, 5, 6, 9');
  expect(ranges([])).toBe('');
});

describe('the order of work', () => {
  const steps = () => workSteps(viewOf(samplePage(template)), { rotary: null, collar: null });

  test('goes from measuring to fitting, one lug before the rest, the vent last of the holes', () => {
    expect(steps().map((s) => s.id)).toEqual([
      'measure',
      'tape',
      'mark',
      'side',
      'one',
      'pilot',
      'backing',
      'full',
      'deburr',
      'vent',
      'fit',
    ]);
  });

  test('every step says how to know it went right', () => {
    for (const step of steps()) expect(step.sure.length, step.id).toBeGreaterThan(30);
  });

  test('drills every hole once: one lug first, the rest, then the vent', () => {
    const data = samplePage(template);
    const listed = steps()
      .flatMap((s) => s.ticks)
      .filter((t) => t.id.startsWith('hole-'))
      .map((t) => t.id.slice(5));
    const first = data.layout.placed[0]!.holes.map((h) => h.id);
    const all = [...first, ...listed, 'vent'].sort();
    expect(all).toEqual(data.plan.holes.map((h) => h.id).sort());
  });

  test('a collar is built before it marks, step by step; a rotary drills by program, after the witness move', () => {
    const collar = {
      supplies: [],
      steps: [
        { title: 'one', body: ['Glue & clamp.'] },
        { title: 'two', body: ['Wait.'] },
      ],
    };
    const byCollar = workSteps(viewOf(samplePage(template, `${SAMPLE}method: collar\n`)), { rotary: null, collar });
    expect(byCollar.map((s) => s.id).slice(1, 4)).toEqual(['tape', 'collar', 'mark']);
    expect(byCollar[2]!.ticks.map((t) => t.text)).toEqual(['Glue &amp; clamp.', 'Wait.']);
    const page = samplePageWithProgram(template);
    const ids = workSteps(viewOf(page), page).map((s) => s.id);
    expect(ids).toEqual(['measure', 'tape', 'mark', 'side', 'witness', 'one', 'program', 'deburr', 'fit']);
  });

  test('counts bits and changes: 5 mm and 6 mm bits, one change, 34 holes', () => {
    const full = steps().find((s) => s.id === 'full')!;
    expect(full.body[0]).toMatch(/^34 holes with 2 bits: 1 bit change\./);
  });

  test('warns of the laser only where one cuts, of wide bits only where one is used', () => {
    const told = (text: string): string =>
      workSteps(viewOf(samplePage(template, text)), { rotary: null, collar: null })
        .flatMap((s) => s.cautions.map((c) => c.text))
        .join(' ');
    expect(told(SAMPLE)).not.toMatch(/laser|drill press/);
    expect(told(`${SAMPLE}method: cut-wrap\n`)).toMatch(/laser/);
    expect(told(SAMPLE.replace('drill: 11 mm', 'drill: 16 mm'))).toMatch(/drill press/);
  });
});

describe('the shopping list', () => {
  test('counts a rod and a washer a lug, a screw a hole (8 lugs a side, two holes each; strainer and butt two each)', () => {
    const list = supplies(viewOf(samplePage(template)), { wrap: 0, collar: 0 }, null);
    const count = (start: string): unknown => list.find((s) => s.what.startsWith(start))?.count;
    expect(count('Tension rods, top')).toBe(8);
    expect(count('Tension rods, bottom')).toBe(8);
    expect(count('Screws M4 x 16')).toBe(32);
    expect(count('Screws M4 x 12')).toBe(4);
    expect(count('Gaskets')).toBe(16);
  });

  test('says what it only assumes, and what size the jig file does not give', () => {
    const text = SAMPLE.replace(', washer: 1.5 mm', '').replace(
      'drill: 6 mm, pilot: 2.5 mm, screw: M4 x 16',
      'drill: 6 mm',
    );
    const list = supplies(viewOf(samplePage(template, text)), { wrap: 0, collar: 0 }, null);
    const of = (start: string) => list.find((s) => s.what.startsWith(start));
    expect(of('Rod washers, top')!.assumed).toEqual(['rods.washer']);
    expect(of('Paper')!.assumed).toEqual(['wrap.paper']);
    expect(of('Screws for holes of 6 mm')).toMatchObject({ count: 32 });
    expect(of('Screws M4 x 12')!.assumed).toBeUndefined();
  });
});

test('chords of the table: eight lugs on R 163.7 stand 125.2906 mm apart (2 R sin(pi / 8))', () => {
  const { layout } = samplePage(template);
  const near = neighbours(layout);
  for (let k = 1; k <= 8; k++) {
    const n = near.get(`lug-top-${k}-a`)!;
    expect(n.next.id).toBe(`lug-top-${(k % 8) + 1}-a`);
    expect(n.chord).toBeCloseTo(125.2906, 4);
  }
  expect(near.get('vent')).toBeUndefined();
});

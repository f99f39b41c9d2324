/**
 * The library's page, `src/API.md`, from the declarations that `src/index.ts` exports and the comments above them.
 * `npm run api` writes it; a test asks whether it is current and whether every comment says what it should.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'oxc-parser';

/** Folders as chapters, the way the data goes. */
const CHAPTERS = [
  ['From a jig file to where everything goes', ['jig', 'layout']],
  ['Will it go together, and what to do', ['fit', 'jobs']],
  ['Templates, collars and pictures', ['wrap', 'collar', 'nest', 'picture', 'write']],
  ['Drilling by program, and what a program would do', ['feeds', 'rotary', 'dryrun', 'data']],
  ['After drilling', ['measured']],
  ['Geometry, wood and spellings', ['geometry', 'units']],
  ['Shapes of the data', ['model']],
];

const parse = (file) => {
  const source = readFileSync(file, 'utf8');
  return { source, ...parseSync(file, source) };
};

/** Lines of the comment that ends where `start` begins, without its frame; undefined when there is none. */
function commentBefore({ source, comments }, start) {
  const above = comments.filter((c) => c.end <= start && source.slice(c.end, start).trim() === '').pop();
  if (above?.type !== 'Block') return undefined;
  return above.value
    .replace(/^\*/, '')
    .split('\n')
    .map((line) => line.replace(/^\s*\* ?/, '').trimEnd());
}

/** A comment's text, and its tags; a tag goes on until the next. */
function read(lines) {
  const [lead, tags] = [[], []];
  for (const line of lines) {
    const tag = /^@(\w+) ?(.*)/.exec(line.trim());
    if (tag) tags.push({ name: tag[1], text: tag[2] });
    else if (tags.length > 0) tags[tags.length - 1].text = `${tags[tags.length - 1].text} ${line.trim()}`.trim();
    else lead.push(line);
  }
  return { lead: lead.join('\n').trim(), tags };
}

function declared(file, name) {
  const parsed = parse(file);
  for (const statement of parsed.program.body) {
    if (statement.type !== 'ExportNamedDeclaration') continue;
    const again = statement.specifiers.find((s) => s.exported.name === name);
    if (again && statement.source) return declared(join(dirname(file), statement.source.value), again.local.name);
    const declaration = statement.declaration;
    const own = declaration?.declarations?.[0] ?? declaration;
    if (own?.id?.name !== name) continue;
    const lines = commentBefore(parsed, statement.start);
    const callee = own.init?.type === 'ArrowFunctionExpression' ? own.init : own;
    const isFunction = /Function/.test(callee.type);
    const end = isFunction ? callee.body.start : statement.end;
    const signature = parsed.source
      .slice(statement.start, end)
      .replace(/^export /, '')
      .replace(/\s*(=>)?\s*$/, '');
    const parameters = isFunction ? callee.params.map((p) => (p.left ?? p).name) : [];
    return { name, file, isFunction, parameters, signature, ...read(lines ?? []) };
  }
  throw new Error(`${file} does not declare ${name}`);
}

/** Everything that `src/index.ts` exports, with its comment. */
export function publicThings(index = 'src/index.ts') {
  return parse(index).program.body.flatMap((statement) =>
    (statement.specifiers ?? []).map((s) => declared(join(dirname(index), statement.source.value), s.exported.name)),
  );
}

const cell = (text) => text.replaceAll('|', '\\|');
const said = (thing, tag) => thing.tags.filter((t) => t.name === tag).map((t) => t.text);

function functionText(thing) {
  const rows = said(thing, 'param').map((text) => {
    const [name, ...rest] = text.split(' ');
    return `| \`${name}\` | ${cell(rest.join(' '))} |`;
  });
  const [gives, throws, source] = ['returns', 'throws', 'source'].map((tag) => said(thing, tag).join(' '));
  return [
    `### ${thing.name}`,
    thing.lead,
    `\`\`\`ts\n${thing.signature}\n\`\`\``,
    [
      `| | |\n| --- | --- |`,
      ...rows,
      `| gives | ${cell(gives)} |`,
      `| throws | ${cell(throws)} |`,
      `| source | ${cell(source)} |`,
    ].join('\n'),
  ].join('\n\n');
}

const typeText = (thing) => [`### ${thing.name}`, thing.lead, `\`\`\`ts\n${thing.signature}\n\`\`\``].join('\n\n');

/** The page as text; `example` is shown as it runs. */
export function apiPage(things, example) {
  const intro = read(commentBefore(parse('src/index.ts'), parse('src/index.ts').program.body[0].start)).lead;
  const chapters = CHAPTERS.map(([title, folders]) => {
    const mine = folders.flatMap((folder) => things.filter((t) => t.file.startsWith(`src/${folder}/`)));
    const inOrder = [...mine.filter((t) => t.isFunction), ...mine.filter((t) => !t.isFunction)];
    return `## ${title}\n\n${inOrder.map((t) => (t.isFunction ? functionText(t) : typeText(t))).join('\n\n')}`;
  });
  const missing = things.filter(
    (t) => !CHAPTERS.some(([, folders]) => folders.some((f) => t.file.startsWith(`src/${f}/`))),
  );
  if (missing.length > 0) throw new Error(`no chapter for ${missing.map((t) => t.file).join(', ')}`);
  return `${[
    '# The library',
    '<!-- Made by `npm run api` from the comments in the code: change those. -->',
    intro,
    "Versions are semantic: what this page names, the jig file, the commands and their exit status, the files and the findings' ids change their meaning only with a new major version (before 1.0.0: with a new minor version). CHANGELOG.md says what changed.",
    '## An example that runs\n\nIt is `tests/package/stranger.ts`; the tests run it here, and `npm run package` in an installed package.',
    `\`\`\`ts\n${example.trim()}\n\`\`\``,
    ...chapters,
  ].join('\n\n')}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync('src/API.md', apiPage(publicThings(), readFileSync('tests/package/stranger.ts', 'utf8')));

// An editor's help for the studio file, through a YAML language server that is not ours: `placer
// begin` writes the file and its schema, the server offers our words, shows our texts and
// underlines what our own reader would refuse.
//   node editor_test.mjs PLACER TOOLS_FOLDER
import {execFileSync, spawn} from 'node:child_process';
import {existsSync, mkdtempSync, readFileSync, rmSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {join} from 'node:path';
import {pathToFileURL} from 'node:url';

const [, , placer, tools] = process.argv;
const packages = join(tools ?? '', 'node_modules');
const server = join(packages, 'yaml-language-server', 'bin', 'yaml-language-server');
if (!existsSync(server)) {
  console.log('skipped: tests/run.sh installs the language server');
  process.exit(77);
}

let failed = 0;
let passed = 0;
function check(what, holds, seen = '') {
  if (holds) passed += 1;
  else failed += 1;
  if (!holds) console.log(`FAILED: ${what} ${JSON.stringify(seen)}`);
}

/** Speaks JSON-RPC with the server over its standard input and output. */
class Editor {
  constructor() {
    const stdio = ['pipe', 'pipe', 'inherit'];
    this.process = spawn(process.execPath, [server, '--stdio'], {stdio});
    this.bytes = Buffer.alloc(0);
    this.answers = new Map();
    this.asked = 0;
    this.opened = 0;
    this.underlined = new Map();  // who waits for it, by file
    this.process.stdout.on('data', (bytes) => this.take(bytes));
  }
  take(bytes) {
    this.bytes = Buffer.concat([this.bytes, bytes]);
    for (;;) {
      const end = this.bytes.indexOf('\r\n\r\n');
      if (end < 0) return;
      const head = this.bytes.subarray(0, end).toString();
      const length = Number(/Content-Length: (\d+)/i.exec(head)[1]);
      if (this.bytes.length < end + 4 + length) return;
      const message = JSON.parse(this.bytes.subarray(end + 4, end + 4 + length).toString());
      this.bytes = this.bytes.subarray(end + 4 + length);
      this.hear(message);
    }
  }
  hear(message) {
    if (message.method === 'textDocument/publishDiagnostics') {
      this.underlined.get(message.params.uri)?.(message.params.diagnostics);
    } else if (message.method === 'workspace/configuration') {
      this.send({id: message.id, result: message.params.items.map(() => ({}))});
    } else if (message.method && message.id !== undefined) {
      this.send({id: message.id, result: null});
    } else if (message.id !== undefined) {
      this.answers.get(message.id)?.(message.result ?? null);
    }
  }
  send(message) {
    const body = JSON.stringify({jsonrpc: '2.0', ...message});
    this.process.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }
  ask(method, params) {
    const id = (this.asked += 1);
    this.send({id, method, params});
    return new Promise((resolve) => this.answers.set(id, resolve));
  }
  tell(method, params) {
    this.send({method, params});
  }
  /** Opens the text as a new file beside the others: its address, and what is underlined. */
  async open(text) {
    const uri = `${home}/studio-${(this.opened += 1)}.yaml`;
    const found = new Promise((resolve) => this.underlined.set(uri, resolve));
    this.tell('textDocument/didOpen', {
      textDocument: {uri, languageId: 'yaml', version: 1, text},
    });
    return {uri, found: await found};
  }
}

/** The place of the first `word`, after `after`. */
function place(text, word, after = '') {
  const begin = text.indexOf(word, text.indexOf(after));
  const before = text.slice(0, begin).split('\n');
  return {line: before.length - 1, character: before.at(-1).length};
}

const said = (documentation) => documentation?.value ?? documentation ?? '';

const folder = mkdtempSync(join(tmpdir(), 'placer-editor-'));
process.on('exit', () => rmSync(folder, {recursive: true, force: true}));
execFileSync(placer, ['begin'], {cwd: folder});
const home = pathToFileURL(folder).toString();
const text = readFileSync(join(folder, 'studio.yaml'), 'utf8');
const meaning = (where, word) => {
  const schema = JSON.parse(readFileSync(join(folder, 'studio.schema.json'), 'utf8'));
  return (where ? schema.definitions[where] : schema).properties[word].description;
};

const editor = new Editor();
await editor.ask('initialize', {
  processId: process.pid,
  rootUri: home,
  capabilities: {
    textDocument: {
      completion: {completionItem: {documentationFormat: ['markdown'], snippetSupport: true}},
      hover: {contentFormat: ['markdown']},
      publishDiagnostics: {},
    },
  },
});
editor.tell('initialized', {});
editor.tell('workspace/didChangeConfiguration', {
  settings: {yaml: {validate: true, hover: true, completion: true, schemaStore: {enable: false}}},
});

/** The text with `lines` put in below the line of `below`. */
function withLines(below, lines) {
  const all = text.split('\n');
  all.splice(place(text, below).line + 1, 0, ...lines);
  return all.join('\n');
}

/** What is offered behind the last of `lines`, less `back` letters, put in below `below`. */
async function offered(below, lines, back = 0) {
  const changed = withLines(below, lines);
  const {uri} = await editor.open(changed);
  const answer = await editor.ask('textDocument/completion', {
    textDocument: {uri},
    position: {
      line: place(text, below).line + lines.length,
      character: lines.at(-1).length - back,
    },
  });
  return answer?.items ?? answer ?? [];
}

/** What is underlined once `word` is written as `wrong`: [line, from, to, message], from 0. */
async function underlined(word, wrong, after = '') {
  const at = text.indexOf(word, text.indexOf(after));
  const changed = text.slice(0, at) + wrong + text.slice(at + word.length);
  const {found} = await editor.open(changed);
  const {line, character} = place(text, word, after);
  return {
    messages: found.map((one) => one.message),
    onTheWord: found.some(
      ({range}) => range.start.line === line && range.start.character <= character &&
        range.end.character > character),
  };
}

/** What is shown over the first `word` after `after`. */
async function shown(uri, word, after) {
  const position = place(text, word, after);
  position.character += 1;
  const answer = await editor.ask('textDocument/hover', {textDocument: {uri}, position});
  return said(answer?.contents);
}

// What `begin` writes has nothing underlined, and each word tells what it means.
const fresh = await editor.open(text);
check('nothing is underlined in a new file', fresh.found.length === 0, fresh.found);
/** The server puts a "\" before signs that mean something in its markup. */
const holds = (text, description) => text.replaceAll('\\', '').includes(description);
for (const [where, word, after] of [
  ['', 'units', 'name:'], ['kiln', 'inside', 'kiln:'], ['kiln', 'limit', 'kiln:'],
  ['shelf', 'thick', 'shelves:'], ['piece', 'handle', 'pieces:'], ['firing', 'cone', 'firing:'],
]) {
  const hover = await shown(fresh.uri, `${word}:`, after);
  check(`hover on ${word}`, holds(hover, meaning(where, word)), hover);
}

// A line begun in a part of the file is offered the words of that part, each with its meaning, and
// none that stands there already.
for (const [where, below, lines, back, expected, never] of [
  ['piece', 'pieces:', ['  - name: Vase', '    s'], 0, ['across', 'height', 'stack'], 'cone'],
  ['piece', 'pieces:', ['  - {name: Vase, h}'], 1, ['across', 'height', 'glaze'], 'cone'],
  ['kiln', '  height: 680', ['  '], 0, ['posts per shelf', 'room to wall', 'price'], 'height'],
  ['firing', '  kind: glaze', ['  '], 0, ['atmosphere', 'soak', 'finish', 'quiet'], 'cone'],
  ['', 'units: mm', [''], 0, ['zone', 'rules', 'variant'], 'kiln'],
]) {
  const items = await offered(below, lines, back);
  const labels = items.map((item) => item.label);
  const name = where || 'the file';
  for (const word of expected) {
    const item = items.find((one) => one.label === word);
    check(`${word} is offered for ${name}`, item !== undefined, labels);
    const told = said(item?.documentation);
    check(`${word} says what it means`, holds(told, meaning(where, word)), told);
  }
  check(`${never} is not offered for ${name}`, !labels.includes(never), labels);
}

// Where only some words can stand, they are offered.
for (const [below, lines, expected] of [
  ['kiln:', ['  heat: '], ['electric', 'natural gas']],
  ['  cone: 6', ['  atmosphere: '], ['oxidation', 'reduction']],
  ['pieces:', ['  - name: Vase', '    where: '], ['low', 'middle']],
]) {
  const labels = (await offered(below, lines)).map((item) => item.label);
  for (const word of expected) {
    check(`${word} is offered for ${lines.at(-1)}`, labels.includes(word), labels);
  }
}

// What our reader refuses is underlined, and the line under it speaks of the word, not of patterns.
for (const [word, wrong, after, message] of [
  ['height', 'hieght', 'kiln:', 'hieght'],
  ['top', 'above', 'loads from:', '"top", "front"'],
  ['680', 'tall', 'height:', '"height" takes a length, for example 680'],
  ['half round', 'half', 'shelves:', '"size" takes round and a length'],
  ['10', 'ten', 'have:', '"have" takes a whole number'],
  ['electric', 'coal', 'heat:', '"natural gas"'],
  ['30', '30, outline: [[0, 0], [90, 0], [90, 90]]', 'handle:', 'keep one'],
]) {
  const seen = await underlined(word, wrong, after);
  check(`${wrong} is underlined`, seen.onTheWord, seen);
  check(`${wrong} is explained`, seen.messages.some((one) => one.includes(message)), seen);
}

editor.process.kill();
console.log(`${passed} checks passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);

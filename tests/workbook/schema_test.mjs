// The schema for editors says the same of a studio file as the program itself: ajv is asked about
// the files that `schema_files` writes, read by the YAML reader that editors use.
//   node schema_test.mjs SCHEMA_FILES TOOLS_FOLDER
import {execFileSync} from 'node:child_process';
import {createRequire} from 'node:module';
import {existsSync} from 'node:fs';
import {join} from 'node:path';

const [, , program, tools] = process.argv;
if (!existsSync(join(tools, 'node_modules', 'ajv'))) {
  console.log('skipped: tests/run.sh installs the schema checker');
  process.exit(77);
}
const require = createRequire(join(tools, 'package.json'));
const Ajv = require('ajv');
const YAML = require('yaml');

const schema = JSON.parse(execFileSync(program, ['schema'], {maxBuffer: 1 << 26}).toString());
const accepts = new Ajv({allErrors: false, strict: false}).compile(schema);

const counts = {good: 0, broken: 0, world: 0};
let wrong = 0;
const lines = execFileSync(program, {maxBuffer: 1 << 28}).toString().trim().split('\n');
for (const line of lines) {
  const {text, verdict} = JSON.parse(line);
  counts[verdict]++;
  if (verdict === 'world') continue;
  let said = 'broken';
  let why = '';
  try {
    const value = YAML.parse(text, {prettyErrors: false, logLevel: 'error'});
    if (accepts(value)) said = 'good';
    else why = JSON.stringify(accepts.errors.slice(0, 3).map((e) => [e.instancePath, e.message]));
  } catch (error) {
    why = error.message;
  }
  if (said === verdict) continue;
  wrong++;
  if (wrong <= 20) console.error(`program: ${verdict}, schema: ${said} ${why}\n${text}`);
}
console.log(`${lines.length} files: ${JSON.stringify(counts)}, ${wrong} judged differently`);
if (wrong > 0 || counts.good < 500 || counts.broken < 500) process.exit(1);

// What the readers from outside share: the sample files, the tools of tests/package.json, counting.
//   node <reader>_test.mjs PROGRAM-THAT-WRITES-SAMPLES FOLDER-OF-TOOLS
// Ends with 0 all well, 1 something failed, 77 the tools are not installed (tests/run.sh does it).
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const [, , program, tools] = process.argv;
const packages = join(tools ?? '', 'package.json');
if (!program || !tools) {
  console.error('usage: node reader_test.mjs report_samples TOOLS');
  process.exit(2);
}
if (!existsSync(join(tools, 'node_modules'))) {
  console.log(`skipped: no tools in ${tools}; sh tests/run.sh installs them`);
  process.exit(77);
}
export const tool = createRequire(packages);

export const folder = mkdtempSync(join(tmpdir(), 'placer-samples-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
execFileSync(program, [folder]);

export const names = (ending) => readdirSync(folder).filter((name) => name.endsWith(ending)).sort();
export const bytes = (name) => readFileSync(join(folder, name));
export const text = (name) => bytes(name).toString('utf8');

let failed = 0;
let passed = 0;
export function check(what, holds, seen = '') {
  if (holds) {
    passed += 1;
  } else {
    failed += 1;
    console.log(`FAILED: ${what} ${seen}`);
  }
}
export function finish() {
  console.log(`${passed} checks passed, ${failed} failed`);
  process.exit(failed > 0 || passed === 0 ? 1 : 0);
}

// The same samples again give the same bytes.
const again = mkdtempSync(join(tmpdir(), 'placer-again-'));
execFileSync(program, [again]);
for (const name of readdirSync(folder)) {
  check(`${name} is the same twice`, bytes(name).equals(readFileSync(join(again, name))));
}
rmSync(again, { recursive: true, force: true });

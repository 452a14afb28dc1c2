// The plan as a table, read by a reader written from RFC 4180 alone, against the JSON answer.
import { check, finish, names, text } from './outside.mjs';

function records(csv) {
  const rows = [[]];
  let cell = '';
  let quoted = false;
  for (let i = 0; i < csv.length; i += 1) {
    const c = csv[i];
    if (quoted) {
      if (c === '"' && csv[i + 1] === '"') { cell += '"'; i += 1; } else if (c === '"') { quoted = false; } else { cell += c; }
    } else if (c === '"') { quoted = true; } else if (c === ',') { rows.at(-1).push(cell); cell = ''; } else if (c === '\r' && csv[i + 1] === '\n') {
      rows.at(-1).push(cell); cell = ''; rows.push([]); i += 1;
    } else { cell += c; }
  }
  rows.pop();
  return rows;
}

for (const name of names('.csv')) {
  const whole = text(name);
  const plan = JSON.parse(text(name.replace('.csv', '.load.json')));
  const [heading, ...rows] = records(whole.replace(/^\uFEFF/, ''));
  check(`${name}: letters beyond ASCII are announced`, /^[\x00-\x7f]*$/.test(whole) || whole.startsWith('\uFEFF'));
  check(`${name}: all rows are as long as the heading`, rows.every((row) => row.length === heading.length));
  const pieces = plan.firings.flatMap((firing) => firing.levels.flatMap((level) => level.pieces));
  const out = plan.left_out.reduce((sum, one) => sum + one.count, 0);
  check(`${name}: a row a piece`, rows.length === pieces.length + out, `${rows.length}`);
  const x = heading.findIndex((cell) => cell.startsWith('x ('));
  const unit = heading[x].includes('(in)') ? 25.4 : 1;
  pieces.forEach((piece, i) => {
    check(`${name}: row ${i + 1} stands where the plan says`,
      Math.abs(Number(rows[i][x]) * unit - piece.x_mm) < 0.051 && rows[i][5].replace(/^'/, '') === piece.piece,
      `${rows[i][x]} ${piece.x_mm} ${rows[i][5]}`);
  });
  const formula = /^\s*[=+@]|^\s*-(?!\d)/;
  check(`${name}: no cell is a formula`, !rows.some((row) => row.some((cell) => formula.test(cell))));
}
finish();

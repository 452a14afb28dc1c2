// Every JSON answer against the schema that the program carries, by Ajv in its strictest mode; and
// the schema against answers that have been spoilt, so that it is known to refuse.
import { check, finish, names, text, tool } from './outside.mjs';

const Ajv = tool('ajv/dist/2020').default;
const addFormats = tool('ajv-formats').default;

const spoils = {
  load: [(a) => { delete a.plan; }, (a) => { a.firings[0].kind = 'raku'; }, (a) => { a.extra = 1; },
    (a) => { a.firings[0].levels[0].shelf.outline_mm = [[0, 0], [1, 1]]; },
    (a) => { a.firings[0].levels[0].pieces[0].footprint.discs[0].r_mm = '40'; },
    (a) => { a.firings[0].levels[0].pieces[0].number = 0; }],
  firing: [(a) => { a.target = {}; }, (a) => { a.segments[0].rate_c_per_h = 'fast'; },
    (a) => { delete a.earliest_opening_h; }, (a) => { a.starts_at = 'tomorrow'; }],
  cone: [(a) => { a.cone = 6; }, (a) => { a.source = ''; }, (a) => { a.rate_c_per_h = 0; }],
  check: [(a) => { a.findings = null; }, (a) => { a.findings[0].severity = 'fatal'; },
    (a) => { a.findings[0].line = 1.5; }],
};

for (const answer of ['check', 'cone', 'firing', 'load']) {
  const ajv = new Ajv({ strict: true, allErrors: true });
  addFormats(ajv);
  const fits = ajv.compile(JSON.parse(text(`${answer}.schema.json`)));
  const files = names(`.${answer}.json`);
  check(`there are answers of ${answer}`, files.length > 1);
  for (const file of files) {
    const value = JSON.parse(text(file));
    check(`${file} fits its schema`, fits(value), JSON.stringify(fits.errors ?? []).slice(0, 400));
    check(`${file} ends with a line end`, text(file).endsWith('\n'));
  }
  const sound = files.find((file) => /everyday\.|six\.cone|two\.check/.test(file) && !/o-six/.test(file));
  for (const spoil of spoils[answer]) {
    const value = JSON.parse(text(sound));
    spoil(value);
    check(`the schema of ${answer} refuses what ${spoil} made`, !fits(value));
  }
}

// Names come through as they are, and numbers with all their digits.
const odd = JSON.parse(text('odd-names.load.json'));
check('a name with markup is itself', odd.left_out[0].reason === 'It is > 400 mm & <too wide>.');
check('bytes that are no letters are replaced', JSON.stringify(odd).includes('\uFFFD'));
const tower = text('tower.load.json');
check('numbers keep sixteen digits where they need them', /\d\.\d{12,}/.test(tower));
finish();

// The page for the phone, driven in a headless browser: what a thumb does and finds, what axe says
// of it (WCAG 2.2 A and AA), what it would fetch, how wide it is, and that it prints.
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { check, finish, folder, names, text, tool } from './outside.mjs';

const { chromium } = tool('playwright-core');
const axe = tool('axe-core');

const profile = mkdtempSync(join(tmpdir(), 'placer-browser-'));
const flags = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync'];
const phone = { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, hasTouch: true, timezoneId: 'Europe/Berlin' };
const browser = await chromium.launchPersistentContext(profile, {
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: flags, ...phone });

async function open(name, sheet = browser) {
  const page = await sheet.newPage();
  page.faults = [];
  page.on('pageerror', (error) => page.faults.push(error.message));
  page.on('console', (line) => { if (line.type() === 'error') page.faults.push(line.text()); });
  page.on('request', (request) => { if (!/^(file|data):/.test(request.url())) page.faults.push(request.url()); });
  page.on('dialog', (dialog) => { page.faults.push(`dialog ${dialog.message()}`); dialog.dismiss(); });
  await page.goto(pathToFileURL(join(folder, name)).href);
  return page;
}

async function violations(page) {
  await page.evaluate(axe.source);
  const found = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  return found.violations.map((one) => `${one.impact} ${one.id}: ${one.nodes[0].html.slice(0, 120)}`);
}

// --- every sample: sound, narrow enough, light, reachable ---
for (const name of names('.html')) {
  const page = await open(name);
  const size = statSync(join(folder, name)).size;
  check(`${name}: under 500 KB`, size < 500e3, size);
  check(`${name}: nothing sticks out at 360 px`, await page.evaluate(() => document.documentElement.scrollWidth <= 360));
  const broken = await page.evaluate((source) => {
    const xml = new DOMParser().parseFromString(source, 'application/xhtml+xml');
    return xml.querySelector('parsererror')?.textContent ?? '';
  }, text(name));
  check(`${name}: well-formed as XML too`, broken === '', broken.slice(0, 200));
  const twice = await page.evaluate(() => {
    const ids = [...document.querySelectorAll('[id]')].map((one) => one.id);
    return ids.filter((id, i) => ids.indexOf(id) !== i);
  });
  check(`${name}: every id is there once`, twice.length === 0, twice.slice(0, 3));
  const small = await page.evaluate(() => [...document.querySelectorAll('button, nav a, input')]
    .map((one) => one.getBoundingClientRect()).filter((box) => box.width > 0 && (box.width < 55.9 || box.height < 55.9)).length);
  check(`${name}: every target is 56 px or more`, small === 0, small);
  const plan = JSON.parse(text(name.replace('.html', '.load.json')));
  const pieces = plan.firings.flatMap((one) => one.levels.flatMap((level) => level.pieces)).length;
  check(`${name}: every piece has a button and a mark`, await page.evaluate((many) =>
    document.querySelectorAll('.tick.number').length === many && document.querySelectorAll('.map .piece').length === many, pieces));
  check(`${name}: nothing went wrong`, page.faults.length === 0, page.faults[0]);
  await page.close();
}

// --- what axe says, light and dark ---
for (const [name, colours] of [['everyday.html', 'light'], ['everyday.html', 'dark'], ['bisque.html', 'light'], ['odd-names.html', 'dark']]) {
  const page = await open(name);
  await page.emulateMedia({ colorScheme: colours, reducedMotion: 'reduce' });
  await page.locator('.tick.number').first().click();
  const found = await violations(page);
  check(`${name}, ${colours}: axe finds nothing`, found.length === 0, found.join('\n'));
  check(`${name}: no smooth scrolling when motion is reduced`,
    await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior === 'auto'));
  await page.evaluate(() => localStorage.clear());
  await page.close();
}

// --- names are words, never markup ---
{
  const page = await open('odd-names.html');
  check('no element came out of a name', await page.evaluate(() => !document.querySelector('main img, header b b, header script')));
  check('the plan has its name', (await page.locator('h1').textContent()) === 'Plan ELF-"9"<&>');
  check('the title is whole', (await page.title()).includes('</title><script>alert(1)</script>'));
  check('a name from right to left stands alone', await page.locator('bdi', { hasText: 'إبريق' }).count() > 0);
  await page.close();
}

// --- the map shows what the paper shows ---
{
  const page = await open('spy.html');
  const plan = JSON.parse(text('spy.load.json'));
  const count = (css) => page.locator(css).count();
  const runny = plan.firings[0].levels.flatMap((level) => level.pieces).filter((one) => one.runny).length;
  check('a drop on every piece with a runny glaze', runny > 0 && await count('.map .drop') === runny, runny);
  check('the key of a shelf with runny glazes explains the drop', await count('.key .drop') === plan.firings[0].levels.filter((level) => level.pieces.some((one) => one.runny)).length);
  check('one cone pack on the map and in the key', await count('.map .pack') === 1 && await count('.key .pack') === 1);
  check('and the line from the spy hole to it', await count('.map .sight') === 1);
  check('tight gaps are marked and explained', await count('.map .pinch') > 0 && (await page.locator('.key').allTextContents()).some((one) => /: \d+(\.5)? mm, .*no less/.test(one)));
  check('the heading of a shelf names its firing', (await page.locator('section.shelf h3').first().textContent()).includes('Glaze'));
  await page.close();

  const bisque = await open('bisque.html');
  const stacks = JSON.parse(text('bisque.load.json')).firings.flatMap((one) => one.levels.flatMap((level) => level.pieces)).filter((one) => one.stacked > 1).length;
  check('stacks are drawn as stacks', stacks > 0 && await bisque.locator('.map .thin').count() === stacks && await bisque.locator('.side .joint').count() === stacks, stacks);
  const sheet = await bisque.locator('#all-loads').textContent();
  check('what goes into which load, and what to get, is on the page', sheet.includes('bisque, load 2 of 3') && sheet.includes('get 2 more') && /\d days/.test(sheet), sheet.slice(0, 300));
  // The heights beside the kiln add up to the roof.
  const sums = await bisque.evaluate(() => [...document.querySelectorAll('.side')].slice(0, 1).flatMap((side) => [...side.querySelectorAll('g')].map((column) => {
    const halves = [...column.querySelectorAll('.room, .thick')];
    const lefts = [...new Set(halves.map((one) => one.getAttribute('x')))];
    return lefts.map((left) => ({
      sum: halves.filter((one) => one.getAttribute('x') === left).reduce((sum, one) => sum + parseFloat(one.textContent), 0),
      roof: parseFloat([...column.querySelectorAll('.name.left')].find((one) => one.getAttribute('x') === left).textContent) }));
  }).flat()));
  check('the heights add up', sums.length === 2 && sums.every((one) => one.sum === one.roof), JSON.stringify(sums));
  const tall = await bisque.evaluate(() => Math.max(...[...document.querySelectorAll('.map')].map((one) => one.getBoundingClientRect().height)));
  check('a map is never higher than the phone', tall <= 740 * 0.79, tall);
  await bisque.close();
}

// --- a thumb sets pieces ---
{
  let page = await open('everyday.html');
  const plan = JSON.parse(text('everyday.load.json'));
  const piece = plan.firings[0].levels[0].pieces.find((one) => one.number === 3);
  const id = 'f1-c1-s1-p3';
  const mark = page.locator(`.piece[data-for="${id}"]`);
  await mark.click();
  const told = await page.locator('#told').textContent();
  check('a tap tells the name', told.includes(piece.piece) && told.startsWith('3 · '), told);
  check('and the place in the list', /line 1 of the list/.test(told), told);
  check('and shows it on the map and in the list', await page.evaluate((one) =>
    document.getElementById(one).classList.contains('chosen') && document.querySelector(`[data-for="${one}"]`).classList.contains('chosen'), id));
  await page.locator('#set').click();
  check('Set ticks it', await page.locator(`#${id}`).getAttribute('aria-pressed') === 'true');
  const then = await page.locator('#told').textContent();
  check('and offers the next one to set', then.startsWith('3 is set. Next: 1 · ') && await page.locator('#f1-c1-s1-p1').evaluate((one) => one.classList.contains('chosen')), then);
  check('the map shows it by more than colour', await mark.locator('.check').isVisible());
  check('the shelf counts it', (await page.locator('.progress').first().textContent()).endsWith('1 of 11 set'));
  await page.locator('#f1-c1-s1-p5').click();
  await page.locator('#f1-get1').click();
  await page.close();

  page = await open('everyday.html');
  const pressed = () => page.evaluate(() => [...document.querySelectorAll('[aria-pressed="true"]')].map((one) => one.id).sort().join(' '));
  check('ticks are there after the page was closed', await pressed() === 'f1-c1-s1-p3 f1-c1-s1-p5 f1-get1', await pressed());
  check('they are kept under the name of the plan', await page.evaluate(() => Object.keys(localStorage).every((key) => key.includes('OAK-17'))));
  await page.locator('#f1-c1-s1-p1').click();
  await page.locator('#undo').click();
  check('Undo takes the last one off', await pressed() === 'f1-c1-s1-p3 f1-c1-s1-p5 f1-get1', await pressed());
  await page.locator('#clear').click();
  check('all ticks off', await pressed() === '');
  await page.locator('#undo').click();
  check('and Undo puts them back', await pressed() === 'f1-c1-s1-p3 f1-c1-s1-p5 f1-get1', await pressed());

  // Keyboard: the list does all that the map does.
  await page.locator('#f1-c1-s1-p2').focus();
  await page.keyboard.press('Space');
  check('a key sets a piece and marks it on the map', await page.evaluate(() =>
    document.querySelector('[data-for="f1-c1-s1-p2"]').classList.contains('chosen') && document.getElementById('f1-c1-s1-p2').getAttribute('aria-pressed') === 'true'));
  await page.keyboard.press('Tab');
  check('the next key goes to the next number', await page.evaluate(() => document.activeElement.id) === 'f1-c1-s1-p3');
  const hidden = await page.evaluate(() => {
    const bar = document.getElementById('bar').getBoundingClientRect();
    return document.activeElement.getBoundingClientRect().bottom > bar.top;
  });
  check('the bar never hides what has the focus', !hidden);
  // A tap beside a small piece finds it.
  await page.evaluate(() => document.querySelector('.map').scrollIntoView({ block: 'start', behavior: 'instant' }));
  const box = await page.locator('.piece[data-for="f1-c1-s1-p7"] .body').boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  check('the middle of a mark is the piece', (await page.locator('#told').textContent()).startsWith('7 · '));

  // Thumb on Set until the shelf is full, then Undo.
  await page.evaluate(() => document.getElementById('clear').click());
  await page.locator('.piece[data-for="f1-c1-s1-p1"]').click();
  for (let i = 0; i < 11; ++i) await page.locator('#set').click();
  check('Set again and again fills the shelf in order', (await page.locator('#told').textContent()) === '11 is set, and with it the whole shelf.', await page.locator('#told').textContent());
  check('and the list of shelves says so', await page.locator('nav a[data-shelf="f1-c1-s1"]').evaluate((one) => one.classList.contains('full')));
  await page.locator('#undo').click();
  check('Undo takes the last off again', (await pressed()).split(' ').length === 10);
  await page.evaluate(() => document.getElementById('clear').click());

  // The other plan knows nothing of these ticks.
  const other = await open('tower.html');
  check('another plan has its own ticks', await other.locator('[aria-pressed="true"]').count() === 0);
  await other.close();
  await page.evaluate(() => localStorage.clear());
  await page.close();
}

// --- the firing: clock times follow the real start ---
{
  const page = await open('everyday.html');
  const off = page.locator('.ends dd .clock').first();
  const planned = await off.textContent();
  check('heat off by the clock', /^[A-Z][a-z]{2} \d\d:\d\d$/.test(planned), planned);
  const answer = JSON.parse(text('everyday.firing.json'));
  const hours = Number(await off.getAttribute('data-h'));
  check('it is the forecast', Math.abs(hours - answer.off_h) < 0.5 / 60 + 1e-4, hours);
  await page.locator('#f1-start').fill('2025-11-25T09:00');
  await page.locator('#f1-start').dispatchEvent('change');
  const minutes = (clock) => Number(clock.slice(4, 6)) * 60 + Number(clock.slice(7));
  const moved = await off.textContent();
  // The plan says 07:30; 90 minutes later everything is 90 minutes later.
  check('all times move with the real start', (minutes(moved) - minutes(planned) + 1440) % 1440 === 90, `${planned} ${moved}`);
  await page.reload();
  check('the real start is kept', await page.locator('.ends dd .clock').first().textContent() === moved);
  await page.locator('#f1-t1').click();
  check('a step done has its time', /at [A-Z][a-z]{2} \d\d:\d\d/.test(await page.locator('#f1-t1').textContent()));
  await page.locator('.now').click();
  check('a firing that runs says where it is', (await page.locator('.now-line').textContent()).startsWith('Now: 1 · candling'));
  const order = await page.evaluate(() => ['left-out', 'f1-head', 'f1-c1-s1', 'f1-fire'].map((id) => document.getElementById(id).getBoundingClientRect().top));
  check('left-out pieces come first, then fetching, shelves, firing', order.every((top, i) => i === 0 || top > order[i - 1]));
  const tiny = await open('tiny.html');
  check('without a start, hours count', (await tiny.locator('.ends').textContent()).includes('+13 h 43'));
  await tiny.close();
  await page.close();
}

// --- headings and paper ---
{
  const page = await open('everyday.html');
  const levels = await page.evaluate(() => [...document.querySelectorAll('h1,h2,h3,h4,h5')].map((one) => Number(one.tagName[1])));
  check('headings never skip a step', levels[0] === 1 && levels.every((level, i) => i === 0 || level - levels[i - 1] <= 1), levels.join(''));
  await page.emulateMedia({ media: 'print' });
  check('on paper there is no bar and no menu', !(await page.locator('#bar').isVisible()) && !(await page.locator('nav').isVisible()));
  for (const format of ['A4', 'Letter']) {
    const pdf = await page.pdf({ format });
    const pages = pdf.toString('latin1').match(/\/Type \/Page\b/g).length;
    // First page, four shelves, three of firing: no more than twelve sheets.
    check(`${format}: it prints on a sensible number of pages`, pages >= 6 && pages <= 12, pages);
  }
  // Maps are as large on paper as a hand at arm's length needs: 96 px are an inch.
  await page.setViewportSize({ width: 703, height: 1032 });  // A4 less 12 mm all round
  const maps = await page.evaluate(() => [...document.querySelectorAll('.map')].map((one) => one.getBoundingClientRect().height / 96 * 25.4));
  check('a printed map is 90 mm high or more', maps.every((high) => high >= 90 && high <= 125), maps.map(Math.round).join(' '));
  const shelves = await page.evaluate(() => [...document.querySelectorAll('section.shelf')].map((one) => one.getBoundingClientRect().height / 96 * 25.4));
  check('each shelf with its list fits on one page of A4 and of Letter', shelves.every((high) => high < 279.4 - 24), shelves.map(Math.round).join(' '));
  await page.close();
}

await browser.close();
rmSync(profile, { recursive: true, force: true });
finish();

// Tests of check_plan.mjs itself: a plan set by hand has no violations, and each way to break it is
// seen. Run with plain node; status 1 when a test fails.
import {areaOf, check, gap, inset} from './check_plan.mjs';

const rectangle = (x0, y0, x1, y1) => [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
const disc = (x_mm, y_mm, r_mm) => ({x_mm, y_mm, r_mm});

function turned([x, y], deg, [cx, cy]) {
  const t = deg * Math.PI / 180;
  return [cx + x * Math.cos(t) - y * Math.sin(t), cy + x * Math.sin(t) + y * Math.cos(t)];
}

function mug(number, x, y, turn_deg) {
  return {
    piece: 'Mug', number, x_mm: x, y_mm: y, turn_deg, height_mm: 100, mass_kg: 0.5, stacked: 1,
    footprint: {
      discs: [disc(x, y, 40)],
      outlines: [rectangle(0, -8, 65, 8).map((p) => turned(p, turn_deg, [x, y]))]}};
}

function post(x, y, parts_mm) {
  return {x_mm: x, y_mm: y, outline_mm: rectangle(x - 15, y - 15, x + 15, y + 15), round: null, parts_mm};
}

const posts = (parts) => [post(-220, -100, parts), post(220, -100, parts), post(0, 110, parts)];

const hole = (number, eye_mm, from_mm, to_mm) => ({what: 'spy hole', number, eye_mm, from_mm, to_mm});

function pack(x, y, turn_deg) {
  return {
    spy_hole: hole(1, [0, -200], 240, 330), x_mm: x, y_mm: y, turn_deg, height_mm: 75, seen: true,
    outline_mm: rectangle(-40, -15, 40, 15).map((p) => turned(p, turn_deg, [x, y]))};
}

function shelf(top_mm) {
  return {name: 'Rectangle', outline_mm: rectangle(-250, -140, 250, 140), round: null, top_mm, thickness_mm: 15};
}

function goodPlan() {
  return {
    plan: 'OAK-17', seed: 0,
    firings: [{
      kind: 'glaze', gap_mm: 6, wall_clearance_mm: 25, first_shelf_mm: 25, under_lid_mm: 25,
      least_air_mm: 8,
      chamber: {outline_mm: rectangle(-300, -200, 300, 200), round: null, height_mm: 450},
      floor_posts: posts([50]),
      levels: [
        {column: 'all', level: 1, shelf: shelf(65), clear_height_mm: 163, air_mm: 63,
          posts: posts([150, 13]), keep_outs: [{what: 'sensor', outline_mm: [], round: disc(0, 190, 60)}],
          pieces: [mug(1, -100, 0, 0), mug(2, 100, 0, 180), mug(3, -100, -95, 0)]},
        {column: 'all', level: 2, shelf: shelf(243), clear_height_mm: 182, air_mm: 82,
          posts: [], keep_outs: [{what: 'Spy hole', outline_mm: [], round: disc(0, -200, 70)}],
          pieces: [mug(1, 0, 0, 90)], cones: [pack(0, -110, 0)]}],
      no_cones: [{spy_hole: hole(2, [-300, 0], 20, 60), reason: 'No room.'}],
      load_mass_kg: 2, furniture_mass_kg: 20}],
    left_out: [{piece: 'Platter', count: 1, reason: 'Too wide.'}],
    furniture: {shelves: [{name: 'Rectangle', needed: 2, owned: 3}],
      posts: [{height_mm: 50, needed: 3, owned: 3}, {height_mm: 150, needed: 3, owned: 4},
        {height_mm: 13, needed: 3, owned: 4}]},
    fewest_firings_possible: 1};
}

let failures = 0;
function expect(holds, what) {
  if (holds) return;
  ++failures;
  console.log(`FAILED: ${what}`);
}
const nearly = (a, b) => Math.abs(a - b) < 1e-9;

// Distances, by hand.
const one = (d) => ({discs: [d], outlines: []});
const block = (...corners) => ({discs: [], outlines: [rectangle(...corners)]});
expect(areaOf(rectangle(0, 0, 2, 3)) === 6, 'area of a rectangle');
expect(nearly(gap(one(disc(0, 0, 1)), one(disc(3, 4, 2))), 2), 'two discs');
expect(nearly(gap(one(disc(5, 6, 1)), block(0, 0, 2, 2)), 4), 'disc off a corner');
expect(nearly(gap(block(0, 0, 2, 2), block(5, 6, 7, 8)), 5), 'two corners');
expect(nearly(gap(block(0, 0, 2, 2), block(1.5, 0, 3, 2)), -0.5), 'overlap');
expect(gap(block(-5, -1, 5, 1), block(-1, -5, 1, 5)) < -0.5, 'a cross of two');
const notched = {round: null, outline_mm: [[0, 0], [5, 0], [5, 5], [10, 5], [10, 10], [0, 10]]};
expect(nearly(inset(one(disc(2, 8, 1)), notched), 1), 'inside a notched outline');
expect(inset(block(1, 1, 9, 9), notched) < 0, 'across the notch');
expect(inset(one(disc(8, 2, 1)), notched) < 0, 'in the notch');
expect(nearly(inset(block(-3, -4, 0, 0), {round: disc(0, 0, 10)}), 5), 'in a round');

const found = check(goodPlan());
expect(found.length === 0, `the good plan: ${found.join('; ')}`);

const limited = goodPlan();
Object.assign(limited.firings[0], {most_on_a_shelf_kg: 1.5, most_in_a_load_kg: 2});
expect(check(limited).length === 0, 'as heavy as the limits allow');

// What is broken, and words of the violation that must be among those found.
const broken = {
  'a mug too near': [/to .*Mug/, (p) => { p.firings[0].levels[0].pieces[2] = mug(3, -100, -85.99, 0); }],
  'handles that overlap': [/to .*Mug/, (p) => { p.firings[0].levels[0].pieces[1] = mug(2, 28, 0, 180); }],
  'over the edge': [/on its shelf/, (p) => { p.firings[0].levels[0].pieces[2] = mug(3, -100, -100.01, 0); }],
  'near a post': [/to a post/, (p) => { p.firings[0].levels[0].pieces[2] = mug(3, -159.5, -95, 0); }],
  'near the wall': [/to the wall/, (p) => { p.firings[0].wall_clearance_mm = 65.01; }],
  'in the way of the sensor': [/to the sensor/, (p) => { p.firings[0].levels[0].keep_outs[0].round.r_mm = 180; }],
  'less air than said': [/: air: said/, (p) => { p.firings[0].levels[0].air_mm = 64; }],
  'less air than asked': [/air under/, (p) => { p.firings[0].least_air_mm = 63.1; }],
  'posts too short': [/height: said/, (p) => { p.firings[0].levels[0].posts.forEach((o) => { o.parts_mm = [150]; }); }],
  'one post short': [/2 posts carry/, (p) => { p.firings[0].levels[0].posts.pop(); }],
  'a post out of line': [/in line/, (p) => { p.firings[0].levels[0].posts[0] = post(-219, -100, [150, 13]); }],
  'a post over the edge': [/on its shelf/, (p) => {
    p.firings[0].levels[0].posts[2] = post(0, 130, [150, 13]);
    p.firings[0].floor_posts[2] = post(0, 130, [50]);
  }],
  'a post that carries nothing': [/carry nothing/, (p) => { p.firings[0].levels[1].posts = posts([150]); }],
  'a shelf that hangs in the air': [/height/, (p) => { p.firings[0].levels[1].shelf.top_mm = 244; }],
  'levels misnumbered': [/is called 3/, (p) => { p.firings[0].levels[1].level = 3; }],
  'too near the floor': [/under the lowest/, (p) => { p.firings[0].first_shelf_mm = 51; }],
  'too high for the kiln': [/to the lid/, (p) => { p.firings[0].chamber.height_mm = 449; }],
  'a shelf outside the chamber': [/inside the chamber/, (p) => { p.firings[0].chamber.outline_mm = rectangle(-300, -200, 249, 200); }],
  'more posts than owned': [/2 owned/, (p) => { p.furniture.posts[0].owned = 2; }],
  'more shelves than owned': [/1 owned/, (p) => { p.furniture.shelves[0].owned = 1; }],
  'fewer shelves said than used': [/1 said/, (p) => { p.furniture.shelves[0].needed = 1; }],
  'numbers twice': [/numbers are/, (p) => { p.firings[0].levels[0].pieces[1].number = 1; }],
  'a mug drawn smaller': [/drawn otherwise/, (p) => { p.firings[0].levels[0].pieces[1].footprint.discs[0].r_mm = 39; }],
  'a handle turned away': [/drawn otherwise/, (p) => { p.firings[0].levels[0].pieces[1].turn_deg = 90; }],
  'a mug said to be lower': [/height of its kind/, (p) => { p.firings[0].levels[0].pieces[1].height_mm = 90; }],
  'a wrong mass': [/mass of the ware/, (p) => { p.firings[0].load_mass_kg = 2.1; }],
  'a near column before a far one': [/all is set before far/, (p) => {
    const far = structuredClone(p.firings[0].levels[0]);
    far.column = 'far';
    far.shelf.outline_mm = rectangle(-250, -89, 250, 191);
    p.firings[0].levels.push(far);
  }],
  'a column in two goes': [/all is set in two goes/, (p) => {
    const other = structuredClone(p.firings[0].levels[0]);
    other.column = 'other';
    p.firings[0].levels.splice(1, 0, other);
  }],
  'a shelf over its limit': [/all 1: 1.5 kg of ware/, (p) => { p.firings[0].most_on_a_shelf_kg = 1.49; }],
  'a load over its limit': [/2 kg of ware, the limit is 1.99/, (p) => { p.firings[0].most_in_a_load_kg = 1.99; }],
  'cones over the edge': [/cones: on its shelf/, (p) => { p.firings[0].levels[1].cones[0] = pack(0, -125.01, 0); }],
  'cones too near to a mug': [/cones: to .*Mug/, (p) => { p.firings[0].levels[1].cones[0] = pack(0, -60.99, 0); }],
  'cones too near to the wall': [/cones: to the wall/, (p) => { p.firings[0].wall_clearance_mm = 75.01; }],
  'cones in the way of the sensor': [/cones: to the sensor/, (p) => {
    p.firings[0].levels[1].keep_outs.push({what: 'sensor', outline_mm: [], round: disc(40, -110, 5)});
  }],
  'cones too high for their shelf': [/cones: room over it/, (p) => { p.firings[0].levels[1].cones[0].height_mm = 182.01; }],
  'cones before a post': [/cones: to .*floor|cones: to .*all 1/, (p) => {
    const cones = pack(-200, -90, 0);
    cones.seen = false;
    p.firings[0].levels[1].cones = [];
    p.firings[0].levels[0].cones = [cones];
  }],
  'cones behind a mug': [/seen past .*Mug/, (p) => { p.firings[0].levels[1].cones[0].spy_hole.eye_mm = [0, 200]; }],
  'cones where the hole does not look': [/is looked at/, (p) => { p.firings[0].levels[1].cones[0].spy_hole.from_mm = 303.01; }],
  'cones drawn elsewhere': [/not drawn where/, (p) => { p.firings[0].levels[1].cones[0].turn_deg = 15; }],
  'a hole with two packs': [/served twice/, (p) => { p.firings[0].no_cones[0].spy_hole.number = 1; }],
  'a hole without cones or reason': [/no cones and no reason/, (p) => { p.firings[0].no_cones[0].reason = ''; }],
  'left out without reason': [/no count or reason/, (p) => { p.left_out[0].reason = ''; }],
  'a claim too high': [/are said to be needed/, (p) => { p.fewest_firings_possible = 2; }],
  'an outline the wrong way round': [/counter-clockwise/, (p) => { p.firings[0].levels[1].shelf.outline_mm.reverse(); }],
};
for (const [what, [said, by]] of Object.entries(broken)) {
  const plan = goodPlan();
  by(plan);
  const violations = check(plan);
  expect(violations.some((v) => said.test(v)), `${what}: ${violations.join('; ') || 'not seen'}`);
}
console.log(`${Object.keys(broken).length} broken plans, ${failures} failures`);
process.exit(failures > 0 ? 1 : 0);

// An outside look at a load plan: reads the JSON of `placer load --json` and works out every
// distance, height and count again from the numbers in it alone.
//
//   node check_plan.mjs PLAN.json [--quiet]     prints each violation; status 1 when there are any
//
// What the keys mean: kiln coordinates in mm (x right, y back, z up from the floor), angles
// counter-clockwise in degrees, polygons open and counter-clockwise. An area is its `round` when
// that is given, else its `outline_mm`; a piece's footprint is the union of its discs and outlines
// where it is drawn. `posts` of a level stand on its shelf and carry the next one of the column. A
// level with a `bridge` lies across the columns that it is `over`, and is one of each of them.
import {readFileSync} from 'node:fs';
import {pathToFileURL} from 'node:url';

const SHORT = 1e-6;  // mm: shorter by less than this is rounding

// --- distances -----------------------------------------------------------------------------
const minus = (a, b) => [a[0] - b[0], a[1] - b[1]];
const dot = (a, b) => a[0] * b[0] + a[1] * b[1];
const cross = (a, b) => a[0] * b[1] - a[1] * b[0];
const length = (a) => Math.hypot(a[0], a[1]);
const edges = (polygon) => polygon.map((p, i) => [p, polygon[(i + 1) % polygon.length]]);

function toSegment(p, [a, b]) {
  const along = minus(b, a);
  const span = dot(along, along);
  const t = span === 0 ? 0 : Math.min(1, Math.max(0, dot(minus(p, a), along) / span));
  return length(minus(p, [a[0] + t * along[0], a[1] + t * along[1]]));
}

function segmentsCross([a, b], [c, d]) {
  const side = (p, q, r) => Math.sign(cross(minus(q, p), minus(r, p)));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function between(s, t) {
  if (segmentsCross(s, t)) return 0;
  return Math.min(toSegment(s[0], t), toSegment(s[1], t), toSegment(t[0], s), toSegment(t[1], s));
}

function inside(p, polygon) {
  let odd = false;
  for (const [a, b] of edges(polygon)) {
    if ((a[1] > p[1]) !== (b[1] > p[1])) {
      const x = a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]);
      if (p[0] < x) odd = !odd;
    }
  }
  return odd;
}

const toBoundary = (p, polygon) => Math.min(...edges(polygon).map((e) => toSegment(p, e)));
const depth = (p, polygon) => (inside(p, polygon) ? 1 : -1) * toBoundary(p, polygon);

// Signed area; positive when counter-clockwise.
export function areaOf(polygon) {
  return edges(polygon).reduce((sum, [a, b]) => sum + cross(a, b), 0) / 2;
}

const isConvex = (polygon) => edges(polygon).every(([a, b], i) => {
  const c = polygon[(i + 2) % polygon.length];
  return cross(minus(b, a), minus(c, b)) >= -1e-9 * length(minus(b, a)) * length(minus(c, b));
});

// The widest strip along an edge of p that keeps q outside; negative when there is none.
function strip(p, q) {
  return Math.max(...edges(p).map(([a, b]) => {
    const along = minus(b, a);
    return Math.min(...q.map((c) => -cross(along, minus(c, a)))) / length(along);
  }));
}

function gapOfPolygons(p, q) {
  if (isConvex(p) && isConvex(q)) {
    const apart = Math.max(strip(p, q), strip(q, p));
    if (apart <= 0) return apart;
  }
  let least = Infinity;
  for (const e of edges(p)) for (const f of edges(q)) least = Math.min(least, between(e, f));
  const deepest = Math.max(...p.map((c) => depth(c, q)), ...q.map((c) => depth(c, p)));
  return deepest > 0 ? -deepest : least;
}

// Both are {discs: [{x_mm, y_mm, r_mm}], outlines: [polygon]}.
export function gap(a, b) {
  let least = Infinity;
  for (const d of a.discs) {
    for (const e of b.discs) {
      least = Math.min(least, length([d.x_mm - e.x_mm, d.y_mm - e.y_mm]) - d.r_mm - e.r_mm);
    }
    for (const q of b.outlines) least = Math.min(least, -depth([d.x_mm, d.y_mm], q) - d.r_mm);
  }
  for (const p of a.outlines) {
    for (const e of b.discs) least = Math.min(least, -depth([e.x_mm, e.y_mm], p) - e.r_mm);
    for (const q of b.outlines) least = Math.min(least, gapOfPolygons(p, q));
  }
  return least;
}

// How far inside an area ({round, outline_mm}) a shape lies; negative when some of it is out.
export function inset(shape, area) {
  let least = Infinity;
  if (area.round) {
    const {x_mm, y_mm, r_mm} = area.round;
    for (const d of shape.discs) {
      least = Math.min(least, r_mm - length([d.x_mm - x_mm, d.y_mm - y_mm]) - d.r_mm);
    }
    for (const p of shape.outlines) {
      for (const c of p) least = Math.min(least, r_mm - length([c[0] - x_mm, c[1] - y_mm]));
    }
    return least;
  }
  const wall = area.outline_mm;
  for (const d of shape.discs) least = Math.min(least, depth([d.x_mm, d.y_mm], wall) - d.r_mm);
  for (const p of shape.outlines) {
    for (const c of p) least = Math.min(least, depth(c, wall));
    for (const c of wall) least = Math.min(least, -depth(c, p));  // a notch that reaches in
    for (const e of edges(p)) {
      for (const f of edges(wall)) if (segmentsCross(e, f)) least = Math.min(least, -SHORT * 2);
    }
  }
  return least;
}

const asShape = (area) =>
    area.round ? {discs: [area.round], outlines: []} : {discs: [], outlines: [area.outline_mm]};

function boxOf(shape) {
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  const hold = (x, y, r) => {
    box[0] = Math.min(box[0], x - r);
    box[1] = Math.min(box[1], y - r);
    box[2] = Math.max(box[2], x + r);
    box[3] = Math.max(box[3], y + r);
  };
  for (const d of shape.discs) hold(d.x_mm, d.y_mm, d.r_mm);
  for (const p of shape.outlines) for (const c of p) hold(c[0], c[1], 0);
  return box;
}

const near = (a, b, reach) => a[0] <= b[2] + reach && b[0] <= a[2] + reach &&
    a[1] <= b[3] + reach && b[1] <= a[3] + reach;

const shareHeight = (a, b) => a.low < b.high - SHORT && b.low < a.high - SHORT;

// --- the rules -----------------------------------------------------------------------------
const mm = (v) => `${+v.toFixed(6)} mm`;

class Checker {
  constructor(plan) {
    this.plan = plan;
    this.violations = [];
    this.shapes = new Map();  // of each kind and stack, brought back to its own origin
    this.used = {shelves: new Map(), posts: new Map()};
  }

  report(where, what) { this.violations.push(`${where}: ${what}`); }

  atLeast(room, asked, where, what) {
    if (!(room >= asked - SHORT)) this.report(where, `${what}: ${mm(room)}, asked ${mm(asked)}`);
  }

  same(is, said, where, what, slack = SHORT) {
    if (!(Math.abs(is - said) <= slack)) this.report(where, `${what}: said ${said}, is ${is}`);
  }

  run() {
    const plan = this.plan;
    if (!(typeof plan.plan === 'string' && plan.plan)) this.report('plan', 'has no name');
    plan.firings.forEach((firing, i) => this.firing(firing, `firing ${i + 1} (${firing.kind})`));
    for (const out of plan.left_out) {
      if (!(out.count > 0) || !out.reason) this.report(`left out '${out.piece}'`, 'no count or reason');
    }
    this.furniture();
    if (plan.fewest_firings_possible > plan.firings.length) {
      this.report('plan', `${plan.fewest_firings_possible} firings are said to be needed, ` +
          `but there are ${plan.firings.length}`);
    }
    return this.violations;
  }

  area(area, where) {
    if (area.round) return;
    if (!Array.isArray(area.outline_mm) || area.outline_mm.length < 3) {
      this.report(where, 'has neither a round nor an outline');
    } else if (!(areaOf(area.outline_mm) > 0)) {
      this.report(where, 'has an outline that does not run counter-clockwise');
    }
  }

  firing(firing, where) {
    this.area(firing.chamber, `${where}, chamber`);
    const columns = new Map();
    const standing = [];  // everything with a height: pieces, posts, slabs
    for (const level of firing.levels) {
      const here = `${where}, ${level.bridge ?? level.column} ${level.level}`;
      for (const name of level.over ?? [level.column]) {
        if (!columns.has(name)) columns.set(name, []);
        columns.get(name).push(level);
      }
      this.level(firing, level, here, standing);
    }
    for (const post of firing.floor_posts ?? []) this.standPost(post, 0, `${where}, floor`, standing);
    for (const [name, levels] of columns) {
      this.column(firing, levels, `${where}, ${name}`, columns);
    }
    for (const level of firing.levels) {
      if (level.bridge) this.bridge(firing, level, columns, `${where}, ${level.bridge} ${level.level}`);
    }
    this.crowd(firing, standing);
    const ware = firing.levels.flatMap((l) => l.pieces).reduce((sum, p) => sum + p.mass_kg, 0);
    this.same(ware, firing.load_mass_kg, where, 'mass of the ware', 1e-6);
    this.limits(firing, ware, where);
    if (firing.levels.some((level) => level.bridge)) {
      this.underBeforeOver(firing.levels, where);
    } else {
      this.settingOrder(firing.levels, where);
    }
    this.cones(firing, standing, where);
    this.count(firing);
  }

  // Far columns first, so that no arm passes over a set one; each column is listed in one go.
  settingOrder(levels, where) {
    const REACH = 50.5;  // mm: columns no farther behind one another are as far
    const middle = (level) => {
      const box = boxOf(asShape(level.shelf));
      return (box[1] + box[3]) / 2;
    };
    const seen = [];
    for (const level of levels) {
      const known = seen.find((one) => one.column === level.column);
      if (known && known !== seen.at(-1)) this.report(where, `${level.column} is set in two goes`);
      if (known) continue;
      for (const before of seen) {
        if (middle(level) - middle(before) > REACH + SHORT) {
          this.report(where, `${before.column} is set before ${level.column}, which is farther`);
        }
      }
      seen.push(level);
    }
  }

  // Packs of witness cones: on their shelf, off everything else, seen from their hole if it says so.
  cones(firing, standing, where) {
    const holes = new Set();
    const once = (hole, at) => {
      if (holes.has(hole.number)) this.report(at, `spy hole ${hole.number} is served twice`);
      holes.add(hole.number);
    };
    for (const level of firing.levels) {
      for (const pack of level.cones ?? []) {
        const here = `${where}, ${level.column} ${level.level}, cones`;
        once(pack.spy_hole, here);
        this.cone(firing, level, pack, standing, here);
      }
    }
    for (const none of firing.no_cones ?? []) {
      once(none.spy_hole, where);
      if (!none.reason) this.report(where, 'no cones and no reason');
    }
  }

  cone(firing, level, pack, standing, where) {
    const GAP = 5;  // mm, even where pieces may touch
    const [LONG, DEEP] = [80, 30];
    const turn = pack.turn_deg * Math.PI / 180;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const at = (x, y) => [pack.x_mm + x * c - y * s, pack.y_mm + x * s + y * c];
    const [x, y] = [LONG / 2, DEEP / 2];
    const ring = [at(-x, -y), at(x, -y), at(x, y), at(-x, y)];
    const shape = {discs: [], outlines: [ring]};
    if (!pack.outline_mm.every((p) => ring.some((q) => length(minus(p, q)) < 1e-5))) {
      this.report(where, 'is not drawn where it stands');
    }
    const z = {low: level.shelf.top_mm, high: level.shelf.top_mm + pack.height_mm};
    this.atLeast(inset(shape, level.shelf), 0, where, 'on its shelf');
    this.atLeast(inset(shape, firing.chamber), firing.wall_clearance_mm, where, 'to the wall');
    this.atLeast(level.clear_height_mm, pack.height_mm, where, 'room over it');
    for (const keepOut of level.keep_outs) {
      if (/spy|peep/i.test(keepOut.what)) continue;
      const band = {low: keepOut.from_mm ?? -Infinity, high: keepOut.to_mm ?? Infinity};
      if (!shareHeight(z, band)) continue;
      this.atLeast(gap(shape, asShape(keepOut)), 0, where, `to the ${keepOut.what}`);
    }
    for (const other of standing) {
      if (other.type === 'shelf' || !shareHeight(z, other)) continue;
      const runs = other.runny && firing.kind === 'glaze';
      const rule = other.type === 'post' ? 0 : runs ? firing.runny_gap_mm : firing.gap_mm;
      this.atLeast(gap(shape, other.shape), Math.max(GAP, rule), where, `to ${other.where}`);
    }
    if (pack.seen) this.sight(pack, [at(-x, 0), at(x, 0)], z, standing, where);
  }

  // Nothing that hides all but the lowest of what the hole looks at may stand before the pack.
  sight(pack, ends, z, standing, where) {
    const SEEN = 15;  // mm of the cones' height
    const hole = pack.spy_hole;
    const low = Math.max(z.low, hole.from_mm);
    this.atLeast(Math.min(z.high, hole.to_mm) - low, SEEN, where, 'of its height is looked at');
    const high = Math.min(z.high, hole.to_mm);
    const hidden = Math.max(low, Math.min(low + SEEN, high - SEEN));
    const triangle = [hole.eye_mm, ...ends];
    if (areaOf(triangle) < 0) triangle.reverse();
    const sight = {discs: [], outlines: [triangle]};
    for (const other of standing) {
      if (!shareHeight({low: hidden, high: z.high}, other)) continue;
      this.atLeast(gap(sight, other.shape), 0, where, `seen past ${other.where}`);
    }
  }

  // Nothing is laid over a place in which something is still to be set, and nothing on a shelf that
  // does not lie yet.
  underBeforeOver(levels, where) {
    levels.forEach((level, i) => {
      const names = level.over ?? [level.column];
      for (const before of levels.slice(0, i)) {
        const shared = (before.over ?? [before.column]).some((name) => names.includes(name));
        if (shared && before.shelf.top_mm >= level.shelf.top_mm) {
          this.report(where, `level ${before.level} is set before level ${level.level} under it`);
        }
      }
    });
  }

  // What is next over a level, in each of its columns; each once.
  nextOver(level, columns) {
    const over = new Set();
    for (const name of level.over ?? [level.column]) {
      const levels = columns.get(name);
      const next = levels[levels.indexOf(level) + 1];
      if (next) over.add(next);
    }
    return [...over];
  }

  // What is next under a level in each of its columns; null: the floor.
  nextUnder(level, columns) {
    return (level.over ?? [level.column]).map((name) => {
      const levels = columns.get(name);
      return levels[levels.indexOf(level) - 1] ?? null;
    });
  }

  // All posts that stand on what is next under a bridge, in any of its columns.
  postsUnder(firing, level, columns) {
    return this.nextUnder(level, columns).flatMap((below) => below?.posts ?? firing.floor_posts ?? []);
  }

  // A bridge rests on posts of every column that it is over, all ending at its underside.
  bridge(firing, level, columns, where) {
    const underside = level.shelf.top_mm - level.shelf.thickness_mm;
    const high = (post) => post.parts_mm.reduce((sum, part) => sum + part, 0);
    const reaching = (posts, foot) => posts.filter((p) =>
        inset(asShape(p), level.shelf) >= -SHORT && Math.abs(foot + high(p) - underside) <= SHORT);
    if (!Array.isArray(level.over) || level.over.length < 2) {
      return this.report(where, 'is over fewer than two columns');
    }
    const under = this.nextUnder(level, columns);
    const carriers = [];
    for (const below of new Set(under)) {
      const posts = below === null ? reaching(firing.floor_posts, 0) :
          reaching(below.posts, below.shelf.top_mm);
      const times = under.filter((one) => one === below).length;
      if (posts.length < 3 * times || posts.length > 4 * times) {
        this.report(where, `${posts.length} posts of ${times} columns carry it`);
      }
      if (below && !below.bridge && posts.length !== below.posts.length) {
        this.report(where, `posts on ${below.column} ${below.level} do not reach it`);
      }
      carriers.push(...posts);
    }
    const sides = [0, 1, 2, 3].map((q) => carriers.some((p) => {
      const box = boxOf(asShape(level.shelf));
      const off = [p.x_mm - (box[0] + box[2]) / 2, p.y_mm - (box[1] + box[3]) / 2];
      return [off[0] > 0, off[0] < 0, off[1] > 0, off[1] < 0][q];
    }));
    if (sides.includes(false)) this.report(where, 'would tip: all its posts are on one side');
    const carried = this.nextOver(level, columns).flatMap((next) => level.posts.filter((p) =>
        inset(asShape(p), next.shelf) >= -SHORT));
    if (new Set(carried).size !== level.posts.length) this.report(where, 'posts that carry nothing');
  }

  // What the kiln's owner allows on one shelf and in the kiln at once, kg of ware.
  limits(firing, ware, where) {
    const over = (is, most, at) => {
      if (typeof most === 'number' && !(is <= most + 1e-6)) {
        this.report(at, `${+is.toFixed(6)} kg of ware, the limit is ${most} kg`);
      }
    };
    over(ware, firing.most_in_a_load_kg, where);
    for (const level of firing.levels) {
      const kg = level.pieces.reduce((sum, p) => sum + p.mass_kg, 0);
      over(kg, firing.most_on_a_shelf_kg, `${where}, ${level.column} ${level.level}`);
    }
  }

  count(firing) {
    const shelves = new Map();
    const posts = new Map();
    const add = (map, key) => map.set(key, (map.get(key) ?? 0) + 1);
    for (const level of firing.levels) add(shelves, level.shelf.name);
    for (const post of [...(firing.floor_posts ?? []), ...firing.levels.flatMap((l) => l.posts)]) {
      for (const part of post.parts_mm) add(posts, part);
    }
    for (const [map, most] of [[shelves, this.used.shelves], [posts, this.used.posts]]) {
      for (const [key, n] of map) most.set(key, Math.max(most.get(key) ?? 0, n));
    }
  }

  furniture() {
    const compare = (list, key, used, what) => {
      const owned = new Map();
      const needed = new Map();
      for (const one of list) {  // two kinds of post may be of one height
        owned.set(one[key], (owned.get(one[key]) ?? 0) + one.owned);
        needed.set(one[key], (needed.get(one[key]) ?? 0) + one.needed);
      }
      for (const [kind, n] of used) {
        if (n > (owned.get(kind) ?? 0)) {
          this.report('furniture', `${n} ${what} ${kind} in use, ${owned.get(kind) ?? 0} owned`);
        }
        if (n > (needed.get(kind) ?? 0)) {
          this.report('furniture', `${n} ${what} ${kind} in use, ${needed.get(kind)} said`);
        }
      }
    };
    compare(this.plan.furniture.shelves, 'name', this.used.shelves, 'shelves');
    compare(this.plan.furniture.posts, 'height_mm', this.used.posts, 'posts of mm');
  }

  standPost(post, low, where, standing) {
    this.area(post, `${where}, post`);
    const high = low + post.parts_mm.reduce((sum, part) => sum + part, 0);
    const shape = asShape(post);
    standing.push({type: 'post', where, shape, box: boxOf(shape), low, high});
    return high;
  }

  level(firing, level, where, standing) {
    const shelf = level.shelf;
    this.area(shelf, `${where}, shelf`);
    const slab = asShape(shelf);
    const low = shelf.top_mm - shelf.thickness_mm;
    const own = {type: 'shelf', where, shape: slab, area: shelf, box: boxOf(slab), low, high: shelf.top_mm};
    standing.push(own);
    this.atLeast(inset(slab, firing.chamber), 0, where, 'shelf inside the chamber');
    for (const post of level.posts) {
      this.standPost(post, shelf.top_mm, where, standing);
      this.atLeast(inset(asShape(post), shelf), 0, where, `post at ${post.x_mm}, ${post.y_mm} on its shelf`);
    }
    let tallest = 0;
    level.pieces.forEach((piece) => {
      const name = `${where}, ${piece.piece} ${piece.number}`;
      this.piece(firing, level, piece, name);
      tallest = Math.max(tallest, piece.height_mm);
      standing.push({
        type: 'piece', where: name, shape: piece.footprint, box: boxOf(piece.footprint),
        low: shelf.top_mm, high: shelf.top_mm + piece.height_mm, runny: piece.runny === true, own});
    });
    this.same(level.clear_height_mm - tallest, level.air_mm, where, 'air');
    const numbers = level.pieces.map((p) => p.number).sort((a, b) => a - b);
    if (numbers.some((n, i) => n !== i + 1)) this.report(where, `numbers are ${numbers}`);
  }

  piece(firing, level, piece, where) {
    const shape = piece.footprint;
    for (const outline of shape.outlines) {
      if (!(areaOf(outline) > 0)) this.report(where, 'an outline does not run counter-clockwise');
    }
    this.atLeast(inset(shape, level.shelf), 0, where, 'on its shelf');
    this.atLeast(inset(shape, firing.chamber), firing.wall_clearance_mm, where, 'to the wall');
    for (const keepOut of level.keep_outs) {
      const low = level.shelf.top_mm;
      const z = {low: keepOut.from_mm ?? -Infinity, high: keepOut.to_mm ?? Infinity};
      if (!shareHeight({low, high: low + piece.height_mm}, z)) continue;
      this.atLeast(gap(shape, asShape(keepOut)), 0, where, `to the ${keepOut.what}`);
    }
    this.sameShape(firing, piece, where);
  }

  // All pieces of a kind in a kind of firing are of one shape, turned and moved as said.
  sameShape(firing, piece, where) {
    const turn = -piece.turn_deg * Math.PI / 180;
    const back = ([x, y]) => {
      const [dx, dy] = [x - piece.x_mm, y - piece.y_mm];
      return [dx * Math.cos(turn) - dy * Math.sin(turn), dx * Math.sin(turn) + dy * Math.cos(turn)];
    };
    const flat = [
      ...piece.footprint.discs.flatMap((d) => [...back([d.x_mm, d.y_mm]), d.r_mm]),
      ...piece.footprint.outlines.flatMap((o) => o.flatMap(back))];
    const key = JSON.stringify([firing.name ?? firing.kind, piece.piece, piece.stack ?? piece.stacked]);
    const known = this.shapes.get(key);
    if (!known) {
      this.shapes.set(key, {flat, height: piece.height_mm, mass: piece.mass_kg});
    } else if (flat.length !== known.flat.length ||
        flat.some((v, i) => Math.abs(v - known.flat[i]) > 1e-5)) {
      this.report(where, 'is drawn otherwise than the others of its kind');
    } else {
      this.same(known.height, piece.height_mm, where, 'height of its kind');
      this.same(known.mass, piece.mass_kg, where, 'mass of its kind');
    }
  }

  column(firing, levels, where, columns) {
    levels.forEach((level, i) => {
      const under = this.nextUnder(level, columns).map((below) => below?.level ?? 0);
      const number = 1 + Math.max(...under);
      if (level.level !== number) this.report(where, `level ${number} is called ${level.level}`);
      if (i > 0 && level.shelf.top_mm <= levels[i - 1].shelf.top_mm) {
        this.report(where, `level ${level.level} is not over the one before`);
      }
    });
    const roof = firing.chamber.height_mm - (firing.under_lid_mm ?? 0);
    let line = null;
    const bottom = levels[0];
    const underside = bottom.shelf.top_mm - bottom.shelf.thickness_mm;
    this.atLeast(underside, firing.first_shelf_mm ?? 0, where, 'under the lowest shelf');
    if (firing.floor_posts) {
      const under = firing.floor_posts.filter((p) => inset(asShape(p), bottom.shelf) >= -SHORT &&
          Math.abs(p.parts_mm.reduce((s, h) => s + h, 0) - underside) <= SHORT);
      if (underside > SHORT && under.length < 3) {
        this.report(where, `${under.length} posts carry the lowest shelf`);
      }
      if (under.length > 0) line = under;
    }
    levels.forEach((level, i) => {
      const next = levels[i + 1];
      if (level.bridge && !next && this.nextOver(level, columns).length > 0) return;
      const here = `${where} ${level.level}`;
      const top = level.shelf.top_mm;
      if (!next) {
        this.same(roof - top, level.clear_height_mm, here, 'clear height to the lid');
        if (level.posts.length > 0) this.report(here, 'posts that carry nothing');
        return;
      }
      const ceiling = next.shelf.top_mm - next.shelf.thickness_mm;
      const lowest = Math.min(...this.nextOver(level, columns).map((over) =>
          over.shelf.top_mm - over.shelf.thickness_mm));
      this.same(lowest - top, level.clear_height_mm, here, 'clear height');
      if (firing.least_air_mm !== undefined && level.pieces.length > 0) {
        this.atLeast(level.air_mm, firing.least_air_mm, here, 'air under the next shelf');
      }
      // Of the posts on a bridge, those under the column's own next shelf; they stand over posts of
      // any column that it lies over.
      const posts = level.bridge ?
          level.posts.filter((p) => inset(asShape(p), next.shelf) >= -SHORT) : level.posts;
      if (level.bridge && line) line = this.postsUnder(firing, level, columns);
      if (posts.length < 3 || (posts.length > 4 && !next.bridge)) {
        this.report(here, `${posts.length} posts carry the next shelf`);
      }
      for (const post of posts) {
        const what = `post at ${post.x_mm}, ${post.y_mm}`;
        const high = post.parts_mm.reduce((sum, part) => sum + part, 0);
        this.same(ceiling - top, high, here, `${what}: height`);
        this.atLeast(inset(asShape(post), next.shelf), 0, here, `${what} under the next shelf`);
        if (line && !line.some((p) => length([p.x_mm - post.x_mm, p.y_mm - post.y_mm]) <= SHORT)) {
          this.report(here, `${what} is not in line with those below`);
        }
      }
      line = posts;
    });
  }

  // Everything that shares a height with something else: how near do they come?
  crowd(firing, standing) {
    const pieces = standing.filter((s) => s.type === 'piece').sort((a, b) => a.box[0] - b.box[0]);
    const others = standing.filter((s) => s.type !== 'piece');
    const runny = firing.kind === 'glaze' ? firing.runny_gap_mm ?? 0 : 0;
    const reach = Math.max(firing.gap_mm, runny) + 1;
    pieces.forEach((a, i) => {
      for (let j = i + 1; j < pieces.length && pieces[j].box[0] <= a.box[2] + reach; ++j) {
        const b = pieces[j];
        if (!shareHeight(a, b) || !near(a.box, b.box, reach)) continue;
        const asked = a.runny || b.runny ? Math.max(firing.gap_mm, runny) : firing.gap_mm;
        this.atLeast(gap(a.shape, b.shape), asked, a.where, `to ${b.where}`);
      }
      for (const b of others) {
        if (b === a.own || !near(a.box, b.box, reach)) continue;
        if (b.type === 'post') {
          if (shareHeight(a, b)) {
            this.atLeast(gap(a.shape, b.shape), firing.gap_mm, a.where, `to a post (${b.where})`);
          }
          continue;
        }
        const air = b.low - a.high;
        if (a.low >= b.high - SHORT || air >= (firing.least_air_mm ?? 0) - SHORT) continue;
        const beside = gap(a.shape, b.shape);
        if (beside < -SHORT) {
          this.atLeast(air, firing.least_air_mm ?? 0, a.where, `air under ${b.where}`);
        } else if (air < -SHORT && !b.area.round) {
          this.atLeast(beside, firing.gap_mm - 0.02, a.where, `beside the edge of ${b.where}`);
        } else if (air < -SHORT) {
          this.atLeast(beside, firing.gap_mm, a.where, `beside the edge of ${b.where}`);
        }
      }
    });
    others.forEach((a, i) => {
      for (const b of others.slice(i + 1)) {
        if (!shareHeight(a, b) || !near(a.box, b.box, 0)) continue;
        // Outlines of round shelves are drawn as polygons: a speck more than they are.
        const slack = a.type === 'shelf' || b.type === 'shelf' ? 0.02 : 0;
        this.atLeast(gap(a.shape, b.shape), -slack, a.where, `${a.type} to ${b.type} of ${b.where}`);
      }
    });
  }
}

export function check(plan) {
  return new Checker(plan).run();
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const path = process.argv[2];
  if (!path) {
    console.error('node check_plan.mjs PLAN.json [--quiet]');
    process.exit(2);
  }
  const plan = JSON.parse(readFileSync(path === '-' ? 0 : path, 'utf8'));
  const violations = check(plan);
  for (const violation of violations) console.log(violation);
  if (!process.argv.includes('--quiet')) {
    const pieces = plan.firings.flatMap((f) => f.levels).flatMap((l) => l.pieces);
    const set = pieces.reduce((sum, p) => sum + (p.stacked ?? 1), 0);
    console.log(`${plan.plan}: ${plan.firings.length} firings, ${set} pieces, ` +
        `${violations.length} violations`);
  }
  process.exit(violations.length > 0 ? 1 : 0);
}

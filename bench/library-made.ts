/** A library as large as a long career's: invented titles and people, always the same. */

import type { Library } from "../src/library/index.ts";
import { packReading, rebuildFound } from "../src/library/index.ts";
import { Pcg32 } from "../src/math/index.ts";
import type { PhotoReading } from "../src/testframe/index.ts";

export interface Size {
  readonly shoots: number;
  readonly frames: number;
}

/** Of one shoot, whose frames are all asked for. */
export const LARGE_SHOOT = "shoot-large";

const TITLES = [
  "Season poster",
  "Book jacket",
  "Board portrait",
  "Choir in the foyer",
  "Album cover",
  "Front page",
];
const WHO = [
  "Ida Lindqvist",
  "Zoë Marchetti",
  "Tomasz Oyelaran",
  "Noor van Dijk",
  "Jónas Petursson",
  "Ana Keller",
];
const PLACES = [
  "Old granary",
  "Mill hall",
  "Gallery, first floor",
  "Studio at the harbour",
  "Überlingen, town hall",
];
const LIGHTS = ["key", "fill", "rim", "hair", "background", "octa 120 key", "strip left", "beauty dish"];
const PATTERNS = ["Loop", "Rembrandt", "Butterfly", "Split", "Flat"];
const [THUMBNAIL_BYTES, PER_TRANSACTION] = [8000, 1000];

export function fillLibrary(
  library: Library,
  plan: Readonly<Record<string, unknown>>,
  reading: PhotoReading,
  size: Size,
): void {
  const { db } = library;
  const random = new Pcg32(8);
  const pick = <T>(list: readonly T[]) => list[Math.floor(random.next() * list.length)];
  const packed = packReading(reading);
  const dayOf = (n: number) => new Date(Date.UTC(2026, 10, 26) - n * 86_400_000).toISOString();
  // what is made here can be made again
  db.exec("PRAGMA synchronous = OFF");
  const inBatches = (count: number, one: (n: number) => void) => {
    for (let first = 0; first < count; first += PER_TRANSACTION)
      library.write(() => {
        for (let n = first; n < Math.min(count, first + PER_TRANSACTION); n++) one(n);
      });
  };
  const shoot = db.prepare(
    "INSERT INTO shoots (id, title, date, place, client, notes, created_at, changed_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
  );
  const work = db.prepare(
    "INSERT INTO works (key, title, plan, history, revision, saved_at, shoot) VALUES (?, ?, ?, 'null', 1, ?, ?)",
  );
  const idOf = (n: number) => (n === 0 ? LARGE_SHOOT : `shoot-${n}`);
  inBatches(size.shoots, (n) => {
    const [id, at, who] = [idOf(n), dayOf(n), pick(WHO)];
    const notes = `${pick(TITLES)} for ${pick(WHO)}, ${pick(PLACES)}; bring the black V-flats`;
    shoot.run(id, `${pick(TITLES)}, ${who} ${n}`, at.slice(0, 10), pick(PLACES), pick(WHO), notes, at, at);
    for (const k of [1, 2]) {
      const room = {
        width: 4 + Math.floor(random.next() * 8) / 2,
        depth: 5 + Math.floor(random.next() * 8) / 2,
        height: 3,
      };
      const lights = [1, 2, 3].map(() => ({ ...(plan.lights as object[])[0], name: pick(LIGHTS) }));
      const title = `${pick(TITLES)}, ${who}, set-up ${k}`;
      work.run(`work-${n}-${k}`, title, JSON.stringify({ ...plan, title, room, lights }), at, id);
    }
  });
  const frame = db.prepare(
    `INSERT INTO frames (id, shoot, key, name, path, bytes, taken_at, arrived_at, width, height, pattern, ratio_stops,
       clipped_skin, stars, is_select) VALUES (?, ?, ?, ?, ?, 9000000, ?, ?, 4000, 6000, ?, 1.7, 0.001, ?, ?)`,
  );
  const part = db.prepare("INSERT INTO frame_parts (id, reading, thumbnail) VALUES (?, ?, ?)");
  const thumbnail = Uint8Array.from({ length: THUMBNAIL_BYTES }, () => Math.floor(256 * random.next()));
  inBatches(size.frames, (n) => {
    const of = n < 300 ? 0 : 1 + Math.floor(random.next() * (size.shoots - 1));
    const [id, at] = [`frame-${n}`, new Date(Date.parse(dayOf(of)) + 1000 * n).toISOString()];
    const name = `IMG_${n}.jpg`;
    const stars = Math.max(0, Math.floor(8 * random.next()) - 2);
    const path = `/photographs/${of}/${name}`;
    frame.run(
      id,
      idOf(of),
      `work-${of}-1`,
      name,
      path,
      at.slice(0, -1),
      at,
      pick(PATTERNS),
      stars,
      Number(stars > 3),
    );
    part.run(id, packed, thumbnail);
  });
  rebuildFound(library);
}

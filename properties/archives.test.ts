import fs from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { exportShoots } from "../src/library/archive-export.ts";
import { importArchive } from "../src/library/archive-import.ts";
import { type Library, openLibrary } from "../src/library/open.ts";
import { cellistShoot, fill, type MadeShoot } from "../src/library/testing/filled-library.ts";
import { newFolder, plainAround } from "../src/library/testing/fresh-library.ts";
import { openZip } from "../src/library/zip-read.ts";
import { writeZip } from "../src/library/zip-write.ts";
import { WorkError } from "../src/workbench/index.ts";
import { amount } from "./amount.ts";
import { planDocument } from "./plan-arbitrary.ts";

const SEED = 20_261_126;
const folder = newFolder();
const around = plainAround();
afterAll(() => fs.rmSync(folder, { recursive: true }));

const template = join(folder, "library.tapemark");
openLibrary(template, around).close();
let count = 0;
/** An empty library that waits for no disk. */
function fresh(): { library: Library; home: string } {
  const home = join(folder, String(++count));
  fs.mkdirSync(home);
  fs.copyFileSync(template, join(home, "library.tapemark"));
  const library = openLibrary(join(home, "library.tapemark"), around);
  library.db.exec("PRAGMA synchronous = OFF");
  return { library, home };
}

/** Names that some system refuses, takes for another, or reads as a path. */
const title = fc.oneof(
  fc.string({ unit: "grapheme", maxLength: 80 }),
  fc.constantFrom(
    "con",
    "../../up",
    "C:\\x",
    "a.",
    "A",
    "a",
    "ß",
    "SS",
    "é",
    "e\u0301",
    "\u202egpj",
    "",
    " ",
    "🎻".repeat(90),
  ),
);
const shoots: fc.Arbitrary<MadeShoot[]> = fc
  .array(
    fc.record({
      title,
      date: fc.constantFrom(null, "2026-02-28"),
      notes: fc.string({ unit: "binary", maxLength: 40 }),
      isPutAway: fc.boolean(),
      plans: fc.array(
        fc.record({
          plan: fc.tuple(planDocument, title).map(([plan, named]) => ({
            ...plan,
            title:
              [...named]
                .slice(0, 60)
                .join("")
                .replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, "") || "plan",
          })),
          history: fc.json({ maxDepth: 3 }).map((text) => JSON.parse(text) as unknown),
          by: fc.constantFrom(null, "window 2"),
          pattern: fc.constantFrom(null, "loop"),
          placed: fc.uniqueArray(fc.constantFrom("camera", "lights/key", "backdrop")),
          versions: fc.array(fc.record({ name: title, plan: planDocument }), { maxLength: 2 }),
        }),
        { maxLength: 2 },
      ),
      frames: fc.array(
        fc.record({
          name: title.map((t) => `${t.replace(/[/\0]/g, "-").slice(0, 40)}.jpg`),
          photograph: fc.option(fc.uint8Array({ maxLength: 20 })),
          thumbnail: fc.boolean(),
          reading: fc.dictionary(
            fc.constantFrom("a", "b"),
            fc.double({ noNaN: true, noDefaultInfinity: true }),
          ),
          stars: fc.integer({ min: 0, max: 5 }),
          isSelect: fc.boolean(),
          ratioStops: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true })),
        }),
        { maxLength: 3 },
      ),
    }),
    { minLength: 1, maxLength: 2 },
  )
  .map((made) =>
    made.map((shoot, s) => ({
      ...shoot,
      id: `shoot-${s}`,
      plans: shoot.plans.map((plan, p) => ({ ...plan, key: `plan-${s}-${p}` })),
      frames: shoot.frames.map((frame, f) => ({
        ...frame,
        id: `frame-${s}-${f}`,
        // a name as a file may have it here; what the library calls it is as it was
        plan: shoot.plans.length > 0 && f % 2 === 0 ? 0 : null,
      })),
    })),
  );

it(`[LB41] random libraries come back to the bit (seed ${SEED})`, async () => {
  await fc.assert(
    fc.asyncProperty(shoots, async (made) => {
      const [one, two] = [fresh(), fresh()];
      for (const shoot of made) fill(one.library, shoot, join(one.home, "card"));
      const [first, again] = [join(one.home, "a.zip"), join(two.home, "b.zip")];
      await exportShoots(one.library, "all", first);
      await importArchive(two.library, first, around);
      await exportShoots(two.library, "all", again);
      expect(fs.readFileSync(again).equals(fs.readFileSync(first))).toBe(true);
      for (const { library, home } of [one, two]) {
        library.close();
        fs.rmSync(home, { recursive: true });
      }
    }),
    { seed: SEED, numRuns: amount(40) },
  );
}, 600_000);

describe("mutated archives", () => {
  const RUNS = 2000;
  it(`[LB44] ${RUNS} of them are taken in whole or refused in words, and nothing is left of what was refused (seed ${SEED})`, async () => {
    const { library, home } = fresh();
    fill(library, cellistShoot(), join(home, "card"));
    await exportShoots(library, { shoot: "cellist" }, join(home, "a.zip"));
    library.close();
    const whole = fs.readFileSync(join(home, "a.zip"));
    const files = await unpacked(join(home, "a.zip"));
    const target = fresh();
    const rows = () => target.library.read((db) => db.prepare("SELECT count(*) AS n FROM shoots").get());
    let [taken, refused] = [0, 0];
    await fc.assert(
      fc.asyncProperty(fc.oneof(mutated(whole), rewritten), async (change) => {
        const path = join(target.home, "b.zip");
        fs.writeFileSync(path, change instanceof Uint8Array ? change : await packed(change(files)));
        const before = rows();
        try {
          await importArchive(target.library, path, around);
          taken++;
        } catch (error) {
          refused++;
          expect(error).toBeInstanceOf(WorkError);
          expect((error as WorkError).cure).not.toBe("");
          expect(rows()).toEqual(before);
        }
        const left = fs.existsSync(join(target.home, "photographs"))
          ? fs.readdirSync(join(target.home, "photographs"))
          : [];
        expect(left.filter((name) => name.startsWith("."))).toEqual([]);
      }),
      { seed: SEED, numRuns: amount(RUNS) },
    );
    expect(fs.readdirSync(home)).toEqual(expect.not.arrayContaining(["escaped.txt"]));
    expect(taken).toBeGreaterThan(0);
    expect(refused).toBeGreaterThan(taken);
    target.library.close();
  }, 600_000);
});

type Files = readonly (readonly [name: string, bytes: Uint8Array])[];

async function unpacked(path: string): Promise<Files> {
  const zip = await openZip(path);
  const files: [string, Uint8Array][] = [];
  for (const name of zip.names) files.push([name, await zip.bytes(name, 1e6)]);
  zip.close();
  return files;
}

async function packed(files: Files): Promise<Buffer> {
  const out = Buffer.alloc(4_000_000);
  const parts = files.map(([name, bytes]) => ({ name, bytes: () => bytes }));
  return out.subarray(0, await writeZip(parts, (bytes, at) => void out.set(bytes, at)));
}

/** A sound archive of documents that are not: a value in one of them is another, or a file has another name, or is gone. */
const rewritten = fc
  .record({
    file: fc.nat(),
    place: fc.nat(),
    value: fc.oneof(
      fc.jsonValue({ maxDepth: 1 }),
      fc.constantFrom(
        -1,
        1e300,
        "",
        "../../escaped.txt",
        "frames/../../x.jpg",
        "frames/con.jpg",
        [[]],
        undefined,
      ),
    ),
    name: fc.option(
      fc.constantFrom("../escaped.txt", "/x", "a\\b", "con", "plans/", "shoot.json", "SHOOT.JSON"),
      { freq: 4 },
    ),
  })
  .map(({ file, place, value, name }) => (files: Files): Files => {
    const documents = files.filter(([called]) => called.endsWith(".json"));
    const [chosen] = documents[file % documents.length];
    return files.map(([called, bytes]) => {
      if (called !== chosen) return [called, bytes];
      if (name !== null) return [name, bytes];
      let at = 0;
      const text = JSON.stringify(JSON.parse(Buffer.from(bytes).toString()), (_, v) =>
        at++ === place % 60 ? value : v,
      );
      return [called, Buffer.from(text ?? "")];
    });
  });

/** Bytes changed, put in, taken out, repeated, cut off; numbers of the format set to their ends. */
function mutated(whole: Buffer): fc.Arbitrary<Buffer> {
  const at = fc.oneof(
    fc.nat(whole.length - 1),
    // the directory, where sizes and places stand
    fc.integer({ min: Math.floor(whole.length * 0.8), max: whole.length - 1 }),
  );
  const change = fc.oneof(
    fc.record({
      kind: fc.constant("set" as const),
      at,
      bytes: fc.uint8Array({ minLength: 1, maxLength: 4 }),
    }),
    fc.record({
      kind: fc.constant("set" as const),
      at,
      bytes: fc
        .constantFrom([0, 0, 0, 0], [255, 255, 255, 255], [255, 255], [0x2e, 0x2e, 0x2f], [0x5c])
        .map((b) => Uint8Array.from(b)),
    }),
    fc.record({ kind: fc.constant("cut" as const), at, bytes: fc.uint8Array({ maxLength: 3 }) }),
    fc.record({ kind: fc.constant("end" as const), at, bytes: fc.uint8Array({ maxLength: 30 }) }),
  );
  return fc.array(change, { minLength: 1, maxLength: 4 }).map((changes) => {
    let bytes = Buffer.from(whole);
    for (const { kind, at, bytes: put } of changes) {
      const place = Math.min(at, bytes.length);
      if (kind === "set") bytes.set(put.subarray(0, bytes.length - place), place);
      else if (kind === "cut")
        bytes = Buffer.concat([bytes.subarray(0, place), put, bytes.subarray(place + 5)]);
      else bytes = Buffer.concat([bytes.subarray(0, place), put]);
    }
    return bytes;
  });
}

import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { readingOf } from "../files/testing/plain-reader.ts";
import type { ShootQuery } from "../shoots/index.ts";
import type { PhotoFace } from "../testframe/index.ts";
import { listSql, narrowed } from "./found.ts";
import { createFrameShelf, rebuildFound } from "./index.ts";
import { Model, type ModelShoot } from "./testing/model.ts";
import { smallLibrary } from "./testing/small-library.ts";

let small: ReturnType<typeof smallLibrary>;
beforeEach(() => {
  small = smallLibrary();
});
afterEach(() => small.end());

const PAGE = { offset: 0, limit: 50 };

describe("[LB27] shoots are found", () => {
  const titles = async (query: object) =>
    (await small.shoots.find({ ...query, ...PAGE })).rows.map((row) => row.title);
  it("by words, each maybe a beginning, in any order, accents or none; what people write is no command", async () => {
    await small.save("a", {
      title: "Cellist, season poster",
      room: { width: 7, depth: 9, height: 3 },
      lights: [{ name: "key", face: { shape: "polygon", sides: 8, width: 1.5 } }],
      panels: [{ name: "V-flat, black" }],
      people: [{ name: "Zoë" }],
      brief: {
        want: { pattern: "rembrandt" },
        gear: { lights: [{ name: "500", fronts: [{ name: "octa 120" }] }] },
      },
    });
    const id = (await small.shoots.shootOf("a")) as string;
    await small.shoots.change(id, 1, { place: "Überlingen" });
    await small.save("b", { title: "Board of the dairy" });
    for (const [text, isFound] of [
      ["cell", true],
      ["CELLIST poster", true],
      ["poster cellist", true],
      ["uberlingen", true],
      ["zoe", true],
      ["v-fla", true],
      ["octagon 1.5", true],
      ["octa 120", true],
      ["7.00", true],
      ["rembrandt", true],
      ["ellist", false],
      ["poster OR nothing", false],
      ["NEAR(cellist poster)", false],
      ['"', true],
      ['cellist" OR "x', false],
      ["text:cellist", false],
      ["cellist* -poster", true],
      ["\0cell", true],
      ["* ( ) ^ - — ", true],
    ] as const)
      expect((await titles({ text })).includes("Cellist, season poster"), text).toBe(isFound);
  });
  it("by all that is said at once", async () => {
    await small.save("a", { title: "A", lights: [{ name: "key" }], brief: { want: { pattern: "loop" } } });
    await small.save("b", { title: "B", lights: [{ name: "key" }], room: { width: 5, depth: 4 } });
    expect(await titles({ light: "key" })).toEqual(["B", "A"]);
    expect(await titles({ light: "key", pattern: "loop" })).toEqual(["A"]);
    expect(await titles({ light: "key", pattern: "Loop", room: "5.00 × 4.00 m" })).toEqual([]);
    expect(await titles({ from: "2026-11-26", to: "2026-11-26", room: "5.00 × 4.00 m" })).toEqual(["B"]);
    expect(await titles({ from: "2026-11-27" })).toEqual([]);
    await small.shoots.noteRead("b", { pattern: "split" });
    expect(await titles({ pattern: "split" })).toEqual(["B"]);
    expect(await small.shoots.choices()).toEqual({
      patterns: ["Loop", "Split"],
      lights: ["key"],
      rooms: ["5.00 × 4.00 m"],
    });
    await expect(small.shoots.noteRead("b", { pattern: "pretty" })).rejects.toThrow(/"pretty" is no pattern/);
  });
  it("through indexes: the list is never sorted or read whole", () => {
    const plan = (query: Partial<ShootQuery>) => {
      const { where, values } = narrowed({ ...PAGE, ...query });
      const rows = small.library.db.prepare(`EXPLAIN QUERY PLAN ${listSql(where)}`).all(...values, 50, 0);
      return rows.map(({ detail }) => String(detail));
    };
    for (const query of [
      {},
      { from: "2026-01-01", to: "2026-12-31" },
      { pattern: "Loop", light: "key", room: "5.00 × 4.00 m", stars: 3, text: "cellist" },
    ]) {
      const steps = plan(query);
      expect(steps[0], String(steps)).toMatch(/^SEARCH s USING INDEX shoots_by_day/);
      for (const step of steps) expect(step).not.toMatch(/TEMP B-TREE|SCAN [sf]\b/);
    }
  });
});

/** On which each frame was taken. */
const DAY = "2026-11-27";
const WORDS = ["Cellist", "Überlingen", "Zoë & choir", "season poster", "50/50", "V-flat, black", ""];
const KEYS = ["a", "b", "c"];
const PATTERNS = ["loop", "rembrandt", null] as const;
const NAMES = { loop: "Loop", rembrandt: "Rembrandt" } as const;
const nameOf = (pattern: (typeof PATTERNS)[number]) => (pattern === null ? null : NAMES[pattern]);

const word = fc.constantFrom(...WORDS);
const plans = fc.record({
  title: fc.constantFrom(...WORDS.slice(0, 4)),
  lights: fc.subarray(["key", "rim", "hair"]).map((names) => names.map((name) => ({ name }))),
  room: fc.constantFrom(null, { width: 7, depth: 9 }, { width: 4.5, depth: 5 }),
  brief: fc.constantFrom(...PATTERNS).map((pattern) => ({ want: { pattern } })),
});
const fields = fc.record(
  {
    title: fc.constantFrom(...WORDS.slice(0, 4)),
    date: fc.constantFrom(null, "2026-11-26", "2026-03-01"),
    ...{ place: word, client: word, notes: word },
    isPutAway: fc.boolean(),
  },
  { requiredKeys: [] },
);
const some = fc.nat(1000);
const [key, pattern] = [fc.constantFrom(...KEYS), fc.constantFrom(...PATTERNS)];
const save = fc.record({ do: fc.constant("save" as const), key, plan: plans });
const move = fc.record({ do: fc.constant("move" as const), key, at: some });
const shoot = fc.record({ do: fc.constant("shoot" as const), key, id: fc.nat(9), pattern });
const steps = fc.oneof(
  ...[save, save, move, shoot, shoot, shoot],
  fc.record({ do: fc.constant("create" as const), fields }),
  fc.record({ do: fc.constant("change" as const), at: some, fields }),
  fc.record({ do: fc.constant("pick" as const), at: some, stars: fc.nat(5), isSelect: fc.boolean() }),
  fc.record({ do: fc.constant("drop" as const), at: some }),
  fc.record({ do: fc.constant("read" as const), key, pattern }),
);
const queries = fc.record(
  {
    text: fc
      .array(fc.constantFrom("cell", "UBER", "choir", "v-fl", "50", "poster", "key", "7.00", '"', "-"))
      .map((w) => w.join(" ")),
    pattern: fc.constantFrom("Loop", "Rembrandt", ""),
    light: fc.constantFrom("key", "rim", ""),
    room: fc.constantFrom("7.00 × 9.00 m", "4.50 × 5.00 m"),
    from: fc.constantFrom("2026-03-01", "2026-11-26"),
    to: fc.constantFrom("2026-03-01", "2026-11-27"),
    stars: fc.nat(5),
    putAway: fc.boolean(),
    offset: fc.nat(2),
    limit: fc.constantFrom(1, 3, 50),
  },
  { requiredKeys: ["offset", "limit"] },
);

type Step = typeof steps extends fc.Arbitrary<infer T> ? T : never;

describe("[LB28] whatever is done, lists, search and choices are those of plain lists in memory", () => {
  const RUNS = amount(100);
  it(`${RUNS} sequences, seed 8; what is searched by is what would be made anew`, async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(steps, { minLength: 20, maxLength: 40, size: "max" }),
        fc.array(queries, { minLength: 4, maxLength: 8 }),
        async (all, asked) => {
          small.empty();
          const model = new Model();
          for (const step of all) await take(step, model);
          for (const query of [{ ...PAGE }, { ...PAGE, putAway: true }, ...asked]) {
            const { total, rows } = await small.shoots.find(query as ShootQuery);
            const expected = model.find(query as ShootQuery);
            expect(total).toBe(expected.total);
            expect(rows).toMatchObject(expected.rows);
          }
          expect(await small.shoots.choices()).toEqual(model.choices());
          for (const id of model.shoots.keys()) {
            const { rows } = await small.shoots.frames(id, 0, 100);
            const bare = rows.map(({ id, shoot, key, arrivedAt, pattern, stars, isSelect }) => ({
              id,
              shoot,
              key,
              arrivedAt,
              pattern,
              stars,
              isSelect,
            }));
            expect(bare).toEqual(model.framesIn(id).sort((a, b) => (a.arrivedAt < b.arrivedAt ? -1 : 1)));
          }
          const kept = searched();
          rebuildFound(small.library);
          expect(kept).toEqual(searched());
        },
      ),
      { numRuns: RUNS, seed: 8, endOnFailure: true },
    );
  }, 60_000);

  function searched() {
    const { db } = small.library;
    return [
      db.prepare("SELECT * FROM facts ORDER BY shoot, source, kind, value").all(),
      db.prepare("SELECT shoot, text FROM words ORDER BY shoot").all(),
    ];
  }

  async function take(step: Step, model: Model) {
    const { shoots } = small;
    const pickOf = <T>(all: Iterable<T>, at: number): T | undefined => {
      const list = [...all];
      return list[at % list.length];
    };
    const isKept = "key" in step && model.works.has(step.key);
    switch (step.do) {
      case "save": {
        await small.save(step.key, step.plan);
        const id = (await shoots.shootOf(step.key)) as string;
        if (!isKept) {
          const { shoot } = await shoots.whole(id);
          expect(shoot.title).toBe(step.plan.title);
          model.add(shoot);
        }
        return model.save(step.key, step.plan, id);
      }
      case "create":
        return model.add(await shoots.create(step.fields));
      case "change": {
        const shoot = pickOf(model.shoots.values(), step.at);
        if (shoot === undefined) return;
        await shoots.change(shoot.id, shoot.revision, step.fields);
        return model.change(shoot.id, step.fields);
      }
      case "move": {
        const shoot = pickOf(model.shoots.values(), step.at);
        if (shoot === undefined || !isKept) return;
        await shoots.move(step.key, shoot.id);
        return model.move(step.key, shoot.id);
      }
      case "shoot": {
        if (!isKept) return;
        small.hand.set(step.key);
        const { shoot } = model.works.get(step.key) as { shoot: string };
        return shootFrame(shoot, step, model);
      }
      case "pick": {
        const frame = pickOf(model.frames.values(), step.at);
        if (frame === undefined) return;
        const { stars, isSelect } = step;
        await shoots.pick(frame.id, { stars: stars as 0, isSelect });
        model.frames.set(frame.id, { ...frame, stars, isSelect });
        return;
      }
      case "drop": {
        const frame = pickOf(model.frames.values(), step.at);
        if (frame === undefined) return;
        createFrameShelf(small.library, small.parts).drop(frame.id);
        model.frames.delete(frame.id);
        return;
      }
      case "read":
        if (!isKept) return;
        await shoots.noteRead(step.key, { pattern: step.pattern });
        return model.read(step.key, nameOf(step.pattern));
    }
  }

  function shootFrame(shoot: string, step: Step & { do: "shoot" }, model: Model) {
    const reading = readingOf("x.jpg", `${DAY}T10:00:00`);
    const box = { left: 0, top: 0, width: 9, height: 9 };
    const face = { box, pattern: step.pattern, ratioStops: 1, clippedSkin: 0 } as unknown as PhotoFace;
    const photo = {
      id: `f${step.id}`,
      reading: { ...reading, faces: [face] },
      preview: null,
      thumbnail: null,
    };
    const shelf = createFrameShelf(small.library, small.parts);
    const isFirst = model.framesIn(shoot).length === 0;
    const { id, arrivedAt } = shelf.put(photo, { path: null, bytes: 1, before: [] });
    const there = model.frames.get(id);
    if (there?.shoot === shoot || there === undefined) {
      const { date, createdAt } = model.shoots.get(shoot) as ModelShoot;
      // the library's clock goes on from sequence to sequence, past midnight in the end
      const isOpen = date === null || date === createdAt.slice(0, 10);
      if (isFirst && isOpen && (date ?? "") < DAY) model.change(shoot, { date: DAY });
    }
    const pattern = nameOf(step.pattern);
    const old = { shoot, key: step.key, stars: 0, isSelect: false };
    model.frames.set(id, { ...old, ...there, id, arrivedAt, pattern });
  }
});

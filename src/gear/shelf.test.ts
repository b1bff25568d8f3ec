import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import {
  addedToShelf,
  EMPTY_SHELF,
  freePieceName,
  KINDS,
  lostOf,
  mergeShelves,
  type Piece,
  readShelf,
  type Shelf,
  STARTER_SHELF,
  shelfText,
  withoutPiece,
  withPiece,
  withTheirs,
} from "./index.ts";

const all = (shelf: Shelf): Piece[] => KINDS.flatMap((kind): readonly Piece[] => shelf[kind]);

describe("[GR1] the shelf as a document", () => {
  it("the one to begin with has something of every kind, weighed, and all of it marked typical", () => {
    for (const kind of KINDS) expect(STARTER_SHELF[kind].length, kind).toBeGreaterThan(0);
    expect(all(STARTER_SHELF).filter(({ isTypical, mass }) => !isTypical || mass === null)).toEqual([]);
  });
  it("what is written is read back the same, and written again it is the same text", () => {
    const text = shelfText(STARTER_SHELF);
    expect(readShelf(JSON.parse(text))).toEqual({ ok: true, shelf: STARTER_SHELF });
    expect(text).toMatch(/^\{\n {2}"format": "tapemark\/shelf",\n {2}"version": 1,/);
  });
  it("what is left out is filled in, and a weight that nobody gave stays unknown", () => {
    const read = readShelf({ ...HEADER, heads: [{ name: "old one", full: { wattSeconds: 250 } }] });
    expect(read.ok && read.shelf.heads[0]).toMatchObject({
      count: 1,
      mass: null,
      isTypical: false,
      full: { wattSeconds: 250, lumensPerWatt: 35 },
      dial: { marked: "stops", range: 6, step: 0.1 },
      recycle: null,
      duration: null,
    });
  });
});

const HEADER = { format: "tapemark/shelf", version: 1 };
const faults = (value: unknown) => {
  const read = readShelf(value);
  return read.ok ? [] : read.problems.map(({ path, what }) => `${path}: ${what}`);
};

describe("[GR2] what is wrong with a shelf is told with its place, its value and what is allowed", () => {
  it.each([
    [null, "shelf: must be a group of fields in braces: { … }; it is null"],
    [{ ...HEADER, version: 2 }, "version: must be 1; it is 2"],
    [
      { ...HEADER, heads: [{ name: "a" }] },
      /^heads\[0\]\.full: must be \{ "wattSeconds": … \}.*; it is missing$/,
    ],
    [
      { ...HEADER, others: [{ name: "bag", mass: -1 }] },
      "others[0].mass: must be a number from 0 to 200 kg; it is -1",
    ],
    [{ ...HEADER, others: [{ name: "bag", wieght: 1 }] }, "others[0].wieght: unknown field; take it out"],
    [{ ...HEADER, others: [{ name: "a" }, { name: "a" }] }, /^others\[1\]\.name: must be another name/],
    [
      { ...HEADER, stands: [{ name: "a", lowest: 3, highest: 2 }] },
      /^stands\[0\]\.highest: must not be under its lowest/,
    ],
    [
      { ...HEADER, lenses: [{ name: "a", shortest: 70, longest: 24, widest: 2.8 }] },
      /^lenses\[0\]\.longest: must not be under/,
    ],
  ])("%#", (value, told) => expect(faults(value)[0]).toMatch(told));
});

describe("[GR3] things are put on and taken away; what is wrong is refused and changes nothing", () => {
  it("one more, one changed, one taken away", () => {
    const name = freePieceName(STARTER_SHELF, "stands", "stand");
    expect(name).toBe("stand 2");
    const more = withPiece(STARTER_SHELF, "stands", { ...STARTER_SHELF.stands[0], name });
    expect(more.ok && more.shelf.stands.map((stand) => stand.name)).toEqual([
      "stand",
      "low stand",
      "boom stand",
      name,
    ]);
    const other = withPiece(STARTER_SHELF, "stands", { ...STARTER_SHELF.stands[1], mass: 2 }, 1);
    expect(other.ok && other.shelf.stands[1].mass).toBe(2);
    expect(withPiece(STARTER_SHELF, "stands", { ...STARTER_SHELF.stands[1], name: "stand" }, 1).ok).toBe(
      false,
    );
    expect(withoutPiece(STARTER_SHELF, "stands", 0).stands.map((stand) => stand.name)).toEqual([
      "low stand",
      "boom stand",
    ]);
  });
});

/** A shelf of a few things whose weights tell them apart. */
const few = fc
  .dictionary(fc.constantFrom("a", "b", "c", "d"), fc.integer({ min: 1, max: 3 }))
  .map((masses) => {
    const others = Object.entries(masses).map(([name, mass]) => ({ name, mass }));
    const read = readShelf({ ...HEADER, others });
    if (!read.ok) throw new Error("sound");
    return read.shelf;
  });
const masses = (shelf: Shelf) => new Map(shelf.others.map(({ mass, name }) => [name, mass]));

describe("[GR4] two who change a shelf at once", () => {
  it(`each thing is as I left it where I changed it, else as it lies there (${amount(2000)} shelves, seed 7)`, () => {
    fc.assert(
      fc.property(few, few, few, (base, there, mine) => {
        const [b, t, m] = [base, there, mine].map(masses);
        const merged = masses(mergeShelves(base, there, mine));
        for (const name of ["a", "b", "c", "d"])
          expect(merged.get(name)).toBe(m.get(name) === b.get(name) ? t.get(name) : m.get(name));
      }),
      { numRuns: amount(2000), seed: 7 },
    );
  });
  it("of one thing each field is so, and what is not sound together is mine whole", () => {
    const change = (fields: object) => ({
      ...STARTER_SHELF,
      stands: STARTER_SHELF.stands.map((each, i) => (i === 0 ? { ...each, ...fields } : each)),
    });
    const [stand] = STARTER_SHELF.stands;
    const joined = mergeShelves(STARTER_SHELF, change({ mass: 4.4 }), change({ notes: "a wheel sticks" }));
    expect(joined.stands[0]).toEqual({ ...stand, mass: 4.4, notes: "a wheel sticks" });
    const [there, mine] = [change({ lowest: 2.5 }), change({ highest: 2 })];
    const merged = mergeShelves(STARTER_SHELF, there, mine);
    expect(merged).toEqual(mine);
    expect(lostOf(STARTER_SHELF, there, merged)).toEqual([
      { kind: "stands", name: stand?.name, theirs: there.stands[0] },
    ]);
  });
  it(`nothing of either is lost unsaid: what is not in the merge is told, and taken it is there (${amount(2000)} shelves, seed 7)`, () => {
    fc.assert(
      fc.property(few, few, few, fc.boolean(), (base, there, mine, isKnown) => {
        const from = isKnown ? base : undefined;
        const merged = mergeShelves(from, there, mine);
        const lost = lostOf(from, there, merged);
        const [b, t, m] = [base, there, merged].map(masses);
        for (const name of ["a", "b", "c", "d"]) {
          const isTheirs = isKnown ? t.get(name) !== b.get(name) : t.has(name);
          const isTold = lost.some((each) => each.name === name);
          expect(isTold).toBe(isTheirs && m.get(name) !== t.get(name));
        }
        const taken = lost.reduce<Shelf>((shelf, each) => withTheirs(shelf, each) as Shelf, merged);
        expect(lostOf(from, there, taken)).toEqual([]);
      }),
      { numRuns: amount(2000), seed: 7 },
    );
  });
  it("where the base is not known any more nothing is taken away", () => {
    fc.assert(
      fc.property(few, few, (there, mine) => {
        const merged = masses(mergeShelves(undefined, there, mine));
        expect(merged).toEqual(new Map([...masses(there), ...masses(mine)]));
      }),
      { numRuns: amount(500), seed: 7 },
    );
  });
  it("what comes with an archive is added, and nothing here is changed by it", () => {
    fc.assert(
      fc.property(few, few, (here, archived) => {
        const { added, shelf } = addedToShelf(here, archived);
        expect(masses(shelf)).toEqual(new Map([...masses(archived), ...masses(here)]));
        expect(added).toBe(shelf.others.length - here.others.length);
        expect(shelf.others.slice(0, here.others.length)).toEqual(here.others);
      }),
      { numRuns: amount(500), seed: 7 },
    );
    expect(addedToShelf(EMPTY_SHELF, STARTER_SHELF).shelf).toEqual(STARTER_SHELF);
  });
});

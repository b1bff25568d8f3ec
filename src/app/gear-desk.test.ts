import { describe, expect, test } from "vitest";
import { lostOf, mergeShelves, type Shelf, STARTER_SHELF, withoutPiece } from "../gear/index.ts";
import { type KeptShelf, type ShelfStore, StoreAway } from "../workbench/index.ts";
import { ShelfDesk } from "./gear-desk.ts";
import { keysFor } from "./gear-keys.ts";
import { apartText } from "./gear-words.ts";

/** A keeper as the program is: each state is numbered, and a change is joined with what others did since its base. */
class Keeper implements ShelfStore {
  isAway = false;
  readonly states: Shelf[] = [STARTER_SHELF];

  get shelf(): Shelf {
    return this.states.at(-1) as Shelf;
  }

  async load(): Promise<KeptShelf> {
    if (this.isAway) throw new StoreAway();
    const revision = this.states.length - 1;
    return { shelf: this.shelf, isStarter: revision === 0, revision };
  }

  async save(mine: Shelf, revision: number | undefined): Promise<KeptShelf> {
    if (this.isAway) throw new StoreAway();
    const base = revision === undefined ? undefined : this.states[revision];
    const there = this.shelf;
    this.states.push(mergeShelves(base, there, mine));
    const over = lostOf(base, there, this.shelf).length > 0 ? { over: there } : {};
    return { ...(await this.load()), ...over };
  }
}

async function opened(keeper = new Keeper()): Promise<{ keeper: Keeper; desk: ShelfDesk }> {
  const desk = new ShelfDesk(keeper);
  await desk.load();
  return { keeper, desk };
}

const nameOf = (shelf: Shelf | null, index = 0) => shelf?.heads[index]?.name;
const named = (name: string) => ["called", ["heads", 0, "name"], name] as const;

describe("[AP142] a change of the shelf", () => {
  test("is shown at once, kept by itself, taken back and done again", async () => {
    const { keeper, desk } = await opened();
    const shown = () => nameOf(desk.store.get().shelf);
    const [was] = [shown()];
    expect(desk.store.get().isStarter).toBe(true);
    expect(desk.putInto(...named("lamp by the door"))).toBe(null);
    expect(shown()).toBe("lamp by the door");
    await desk.keep();
    expect(nameOf(keeper.shelf)).toBe("lamp by the door");
    desk.steps().undo?.();
    expect(shown()).toBe(was);
    expect(desk.steps().undo).toBe(null);
    await desk.keep();
    expect(keeper.shelf).toEqual(STARTER_SHELF);
    desk.steps().redo?.();
    expect(shown()).toBe("lamp by the door");
    expect(desk.steps().redo).toBe(null);
  });

  test("that makes no sound shelf is refused in words, and nothing moves", async () => {
    const { keeper, desk } = await opened();
    expect(desk.putInto("mass", ["heads", 0, "mass"], -3)).toMatch(/^It must be .*200 kg/);
    const [, other] = STARTER_SHELF.heads;
    expect(desk.putInto(...named(other?.name ?? ""))).toMatch(/another name/);
    expect(desk.store.get().shelf).toEqual(STARTER_SHELF);
    expect(desk.steps().undo).toBe(null);
    await desk.keep();
    expect(keeper.states).toHaveLength(1);
  });

  test("that changes nothing is no step", async () => {
    const { desk } = await opened();
    expect(desk.putInto("same", ["heads", 0, "name"], nameOf(STARTER_SHELF))).toBe(null);
    expect(desk.steps().undo).toBe(null);
  });
});

describe("[AP143] two windows", () => {
  test("a step that is taken back leaves what the other changed meanwhile", async () => {
    const { keeper, desk } = await opened();
    const other = (await opened(keeper)).desk;
    desk.change("without the first", withoutPiece(STARTER_SHELF, "heads", 0));
    await desk.keep();
    other.putInto("weight", ["stands", 0, "mass"], 4.4);
    await other.keep();
    expect(nameOf(other.store.get().shelf)).toBe(nameOf(STARTER_SHELF, 1));
    await desk.load();
    expect(desk.store.get().shelf?.stands[0]?.mass).toBe(4.4);
    desk.undo();
    const after = desk.store.get().shelf;
    expect(after?.heads.map(({ name }) => name).sort()).toEqual(
      STARTER_SHELF.heads.map(({ name }) => name).sort(),
    );
    expect(after?.stands[0]?.mass).toBe(4.4);
    await desk.keep();
    expect(keeper.shelf).toEqual(after);
  });

  test("what is changed while the last change is on its way is kept too", async () => {
    const { keeper, desk } = await opened();
    desk.putInto(...named("one"));
    desk.putInto("weight", ["heads", 0, "mass"], 1.25);
    await desk.keep();
    expect(keeper.shelf.heads[0]).toMatchObject({ name: "one", mass: 1.25 });
    expect(desk.store.get()).toMatchObject({ isKeeping: false, trouble: null });
  });
});

describe("[AP175] windows in step", () => {
  const heavy = (mass: number) => ["weight", ["stands", 0, "mass"], mass] as const;

  test("what another window keeps is here once there is news of it; what was never asked for is not asked", async () => {
    const { keeper, desk } = await opened();
    const other = (await opened(keeper)).desk;
    const unasked = new ShelfDesk(keeper);
    other.putInto(...heavy(4.4));
    await other.keep();
    for (const each of [desk, unasked]) await each.heard();
    expect(desk.store.get()).toMatchObject({ shelf: keeper.shelf, apart: [] });
    expect(unasked.store.get().shelf).toBe(null);
  });

  test.each([
    ["kept", false, 5],
    ["taken from the other", true, 4.4],
  ])("the same number changed in both is asked about, and %s", async (_, isTaking, mass) => {
    const { keeper, desk } = await opened();
    const other = (await opened(keeper)).desk;
    other.putInto(...heavy(4.4));
    await other.keep();
    desk.putInto(...heavy(5));
    await desk.keep();
    const { apart, shelf } = desk.store.get();
    expect(shelf?.stands[0]?.mass).toBe(5);
    expect(apart.map(({ kind, theirs }) => [kind, theirs?.mass])).toEqual([["stands", 4.4]]);
    expect(apart.map((loss) => shelf && apartText(loss, shelf, "metric"))).toEqual([
      expect.stringMatching(/5 kg, .* here; .*4.4 kg, .* there$/),
    ]);
    for (const loss of apart) desk.decide(loss, isTaking);
    await desk.keep();
    await other.heard();
    for (const each of [desk, other])
      expect(each.store.get()).toMatchObject({ shelf: keeper.shelf, apart: [] });
    expect(keeper.shelf.stands[0]?.mass).toBe(mass);
    if (!isTaking) return;
    desk.undo();
    expect(desk.store.get().shelf?.stands[0]?.mass).toBe(5);
  });

  test("what is typed in stays with its thing when another window takes one away, adds or renames one", () => {
    const begun = keysFor([], ["a", "b", "c"]);
    const keyed = (names: readonly string[], from = begun) => keysFor(from, names).map(({ key }) => key);
    expect(keyed(["b", "c"])).toEqual([1, 2]);
    expect(keyed(["z", "a", "b", "c"])).toEqual([3, 0, 1, 2]);
    expect(keyed(["a", "renamed", "c"])).toEqual([0, 1, 2]);
    expect(keyed(["c", "b", "a"])).toEqual([2, 1, 0]);
  });

  test("an answer that a later save overtook takes nothing back", async () => {
    const { keeper, desk } = await opened();
    const loading = desk.load();
    desk.putInto(...heavy(5));
    await Promise.all([desk.keep(), loading]);
    expect([desk.store.get().shelf?.stands[0]?.mass, keeper.shelf.stands[0]?.mass]).toEqual([5, 5]);
  });
});

describe("[AP144] a keeper that is away", () => {
  test("is told with its cure; what was changed stays on screen and is kept on request", async () => {
    const { keeper, desk } = await opened();
    keeper.isAway = true;
    desk.putInto(...named("lamp by the door"));
    await desk.keep();
    expect(desk.store.get().trouble).toMatch(/does not answer.*tapemark open/);
    expect(nameOf(desk.store.get().shelf)).toBe("lamp by the door");
    keeper.isAway = false;
    await desk.keep();
    expect(desk.store.get().trouble).toBe(null);
    expect(nameOf(keeper.shelf)).toBe("lamp by the door");
  });

  test("that is there again when somebody looks has what waited, joined with what others did", async () => {
    const { keeper, desk } = await opened();
    keeper.isAway = true;
    desk.putInto(...named("lamp by the door"));
    await desk.keep();
    keeper.isAway = false;
    const other = (await opened(keeper)).desk;
    other.putInto("weight", ["stands", 0, "mass"], 4.4);
    await other.keep();
    await desk.load();
    expect(keeper.shelf.heads[0]?.name).toBe("lamp by the door");
    expect(keeper.shelf.stands[0]?.mass).toBe(4.4);
    expect(desk.store.get()).toMatchObject({ shelf: keeper.shelf, trouble: null });
  });

  test("that never came says so and takes no change", async () => {
    const keeper = new Keeper();
    keeper.isAway = true;
    const { desk } = await opened(keeper);
    expect(desk.store.get()).toMatchObject({ shelf: null });
    expect(desk.store.get().trouble).toMatch(/does not answer/);
    expect(desk.putInto(...named("x"))).toMatch(/not there yet/);
  });
});

import { describe, expect, test } from "vitest";
import { mergeShelves, type Shelf, STARTER_SHELF, withoutPiece } from "../gear/index.ts";
import { type KeptShelf, type ShelfStore, StoreAway } from "../workbench/index.ts";
import { ShelfDesk } from "./gear-desk.ts";

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
    this.states.push(mergeShelves(base, this.shelf, mine));
    return this.load();
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

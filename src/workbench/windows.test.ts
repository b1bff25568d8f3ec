/** Several windows of one work: two of one browser, and one of another. */
import { beforeEach, describe, expect, it } from "vitest";
import { newPlan, type Plan, serialisePlan, setField } from "../plan/index.ts";
import { createMemoryShelf, type Session, type Shelf } from "./index.ts";
import { arrive, calm, Seat, World } from "./testing/windows.ts";

const light = (name: string, x: number) => ({
  name,
  position: [x, 1, 2],
  direction: { at: [2, 3, 1.5] },
  face: { shape: "disc", width: 0.5 },
  output: { wattSeconds: 400 },
});
const plain = { ...newPlan(), title: "start", lights: [light("key", 1), light("fill", 2)] };
const START = serialisePlan(plain as unknown as Plan);
const titled = (text: string) => setField(`title ${text}`, ["title"], text);
const iso = (value: number) => setField(`iso ${value}`, ["camera", "iso"], value);
const placed = (index: number, x: number) => setField("move", ["lights", index, "position"], [x, 1, 2]);
const only = (...lights: unknown[]) => setField("lights", ["lights"], lights);

let world: World;
let shelf: Shelf;
let one: Seat;
let two: Seat;
let far: Seat;

beforeEach(async () => {
  world = new World(() => new Date(0));
  world.isGated = false;
  shelf = createMemoryShelf();
  [one, two] = [new Seat(world, shelf, "here"), new Seat(world, shelf, "here")];
  far = new Seat(world, createMemoryShelf(), "there");
  await one.session.open("work", START);
  await one.session.flush();
  await two.session.resume("work");
  await far.session.resume("work");
  await arrive(world);
});

const plan = (seat: Seat) => seat.session.get().plan;
const labels = (seat: Seat) => seat.session.get().steps.map((step) => step.label);
const saving = (seat: Seat) => seat.session.get().saving.state;
const lightAt = (seat: Seat, index: number) => plan(seat).lights[index].position[0];
/** Kept beside the hand by one window; nobody else has heard of it. */
const keep = async (seat: Seat, ...edits: ReturnType<typeof titled>[]) => {
  for (const edit of edits) seat.session.edit(edit);
  for (const run of seat.timers.splice(0)) run();
  await calm();
};
function titlesOf(session: Session): string[] {
  const { at, steps } = session.get();
  const titles = steps.map((_, i) => {
    session.goTo(i);
    return session.get().plan.title;
  });
  session.goTo(at);
  return titles;
}

describe("[WB15] what one window keeps comes onto the table of the others without a question", () => {
  it("in the same browser and in another, undo and redo too", async () => {
    await keep(one, titled("A"));
    await arrive(world);
    expect([two, far].map((seat) => [plan(seat).title, saving(seat)])).toEqual([
      ["A", "saved"],
      ["A", "saved"],
    ]);
    far.session.undo();
    await arrive(world);
    expect([one, two].map((seat) => [plan(seat).title, seat.session.get().redoLabel])).toEqual([
      ["start", "title A"],
      ["start", "title A"],
    ]);
  });
  it("in the same browser also while the server is away", async () => {
    world.isAway = true;
    await keep(one, titled("A"));
    await arrive(world).catch(() => undefined);
    expect([plan(two).title, plan(far).title]).toEqual(["A", "start"]);
  });
  it("the same field again, by somebody who has seen what the other did, goes through", async () => {
    await keep(one, iso(200));
    await arrive(world);
    await keep(far, iso(400));
    await arrive(world);
    expect([one, two, far].map((seat) => [plan(seat).camera.iso, saving(seat)])).toEqual([
      [400, "saved"],
      [400, "saved"],
      [400, "saved"],
    ]);
  });
  it("nothing is saved by that: windows do not answer each other for ever", async () => {
    await keep(one, titled("A"));
    await arrive(world);
    const before = (await world.kept.load("work"))?.revision;
    await arrive(world);
    expect((await world.kept.load("work"))?.revision).toBe(before);
  });
  it("a plan that stays as it was stays the same object: nothing is computed anew", async () => {
    const before = plan(two);
    await keep(one, titled("A"));
    one.session.undo();
    await arrive(world);
    expect(plan(two)).toBe(before);
  });
});

describe("[WB17] what is held in the hand stays there", () => {
  const drag = (x: number) => two.session.edit(placed(0, x), "drag");
  it("another light moves beside it while it is dragged, and undo keeps both", async () => {
    drag(1.2);
    await keep(two);
    await keep(one, placed(1, 3));
    await arrive(world);
    expect([lightAt(two, 0), lightAt(two, 1)]).toEqual([1.2, 3]);
    drag(1.4);
    two.session.seal();
    await keep(two);
    await arrive(world);
    expect([lightAt(one, 0), lightAt(one, 1)]).toEqual([1.4, 3]);
    const steps = two.session.get().steps.map((_, i) => {
      two.session.goTo(i);
      return [lightAt(two, 0), lightAt(two, 1)];
    });
    expect(steps).toEqual([
      [1, 2],
      [1.2, 2],
      [1.2, 3],
      [1.4, 3],
    ]);
  });
  it("what somebody did to the same light after seeing it comes in once it is let go of", async () => {
    drag(1.2);
    await keep(two);
    await arrive(world);
    await keep(one, placed(0, 5));
    await arrive(world);
    expect([lightAt(one, 0), lightAt(two, 0), saving(two)]).toEqual([5, 1.2, "saved"]);
    two.session.seal();
    await arrive(world);
    expect(lightAt(two, 0)).toBe(5);
  });
  it("a list that changes under the hand waits too: the hand knows what it holds by its place", async () => {
    two.session.edit(placed(1, 2.2), "drag");
    await keep(one, only(light("fill", 2)));
    await keep(two);
    await arrive(world);
    expect(plan(two).lights.map(({ name }) => name)).toEqual(["key", "fill"]);
    two.session.edit(placed(1, 2.4), "drag");
    two.session.seal();
    await arrive(world);
    expect(
      [one, two].map((seat) => plan(seat).lights.map(({ name, position }) => [name, position[0]])),
    ).toEqual([[["fill", 2.4]], [["fill", 2.4]]]);
  });
});

describe("[WB18] undo takes back the newest step of the work, whoever made it", () => {
  it("one step after the other, in either window", async () => {
    await keep(one, titled("A"));
    await arrive(world);
    await keep(two, iso(400));
    await arrive(world);
    one.session.undo();
    await arrive(world);
    expect([plan(two).title, plan(two).camera.iso === 400]).toEqual(["A", false]);
    two.session.undo();
    await arrive(world);
    expect([plan(one).title, labels(one)]).toEqual(["start", ["opened", "title A", "iso 400"]]);
  });
  it("what was done here before the other's came in is as if done after it: undo leaves theirs", async () => {
    await keep(one, titled("A"));
    await keep(two, iso(400), iso(800));
    await arrive(world);
    expect(labels(two)).toEqual(["opened", "title A", "iso 400", "iso 800"]);
    two.session.undo();
    expect([plan(two).title, plan(two).camera.iso]).toEqual(["A", 400]);
    two.session.undo();
    expect(plan(two).title).toBe("A");
  });
  it("an undo here and an edit there are both kept", async () => {
    await keep(one, titled("A"));
    await arrive(world);
    await keep(one, iso(400));
    two.session.undo();
    await arrive(world);
    for (const seat of [one, two, far])
      expect([plan(seat).title, plan(seat).camera.iso]).toEqual(["start", 400]);
    one.session.undo();
    expect([plan(one).title, plan(one).camera.iso]).toEqual(["A", 400]);
  });
});

describe("[WB19] while somebody is asked nothing of either is lost", () => {
  const clash = async () => {
    await keep(one, titled("theirs"));
    await keep(two, titled("mine"));
  };
  it("theirs stays on top for everybody else, and mine is within reach of undo, also where the window is closed", async () => {
    await clash();
    await keep(two, iso(800));
    await arrive(world);
    expect([saving(two), plan(two).title, plan(two).camera.iso]).toEqual(["conflict", "mine", 800]);
    await keep(one, iso(200));
    await arrive(world);
    const { saving: asked } = two.session.get();
    const { theirs, base } = (asked.state === "conflict" && asked.between) || {};
    expect([theirs?.title, theirs?.camera.iso, base?.title, base?.camera.iso]).toEqual([
      "theirs",
      200,
      "start",
      100,
    ]);
    expect([one, far].map((seat) => [plan(seat).title, saving(seat)])).toEqual([
      ["theirs", "saved"],
      ["theirs", "saved"],
    ]);
    expect(titlesOf(one.session)).toContain("mine");
    const next = new Seat(world, shelf, "here");
    await next.session.resume("work");
    expect([plan(next).title, titlesOf(next.session).includes("mine")]).toEqual(["theirs", true]);
  });
  it.each([
    ["keepMine", "mine"],
    ["takeTheirs", "theirs"],
  ] as const)(
    "%s is what all windows show then, the other one is within reach of undo",
    async (way, title) => {
      await clash();
      await keep(one, iso(200));
      await arrive(world);
      await two.session[way]();
      await arrive(world);
      for (const seat of [one, two, far]) {
        expect([plan(seat).title, saving(seat)]).toEqual([title, "saved"]);
        expect(titlesOf(seat.session)).toEqual(expect.arrayContaining(["mine", "theirs"]));
      }
    },
  );
  it("it is asked again when the work comes back onto the table", async () => {
    await clash();
    await two.session.createNew();
    await arrive(world);
    await two.session.resume("work");
    await arrive(world);
    expect([saving(two), plan(two).title, plan(one).title]).toEqual(["conflict", "mine", "theirs"]);
  });
  it("a question about another browser's plan that is answered in one window is answered in all", async () => {
    world.isAway = true;
    await keep(far, titled("theirs"));
    await keep(one, titled("mine"));
    await calm();
    for (const { arrive: hear } of world.messages.splice(0)) void hear();
    await calm();
    world.isAway = false;
    await far.courier.wake();
    for (const seat of [one, two]) void seat.courier.wake();
    await arrive(world);
    expect([saving(one), saving(two)]).toEqual(["conflict", "conflict"]);
    await one.session.keepMine();
    await arrive(world);
    expect([one, two, far].map((seat) => [plan(seat).title, saving(seat)])).toEqual(
      [one, two, far].map(() => ["mine", "saved"]),
    );
  });
});

describe("[WB20] works come onto the table one after the other", () => {
  it("what is changed while another one is being brought is kept", async () => {
    world.isGated = true;
    const bringing = two.session.resume("other");
    await calm();
    two.session.edit(titled("late"));
    world.isGated = false;
    await arrive(world);
    await bringing;
    expect((await shelf.get("work"))?.title).toBe("late");
  });
  it("asked for twice, nothing that was changed in between is taken back", async () => {
    world.isGated = true;
    const bringing = [two.session.resume("work"), two.session.resume("work")];
    await calm();
    two.session.edit(titled("between"));
    world.isGated = false;
    await arrive(world);
    await Promise.all(bringing);
    await arrive(world);
    expect([plan(two).title, plan(one).title]).toEqual(["between", "between"]);
  });
});

it("[WB21] what a window kept and did not take to the server is taken by another one of the browser", async () => {
  world.isGated = true;
  await keep(one, titled("left behind"));
  // it is closed before the server answers: its requests are gone with it
  world.requests.splice(0);
  world.seats.splice(world.seats.indexOf(one), 1);
  world.isGated = false;
  await arrive(world);
  expect((await world.kept.load("work"))?.plan).toMatchObject({ title: "left behind" });
});

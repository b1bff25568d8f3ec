import { beforeEach, describe, expect, it } from "vitest";
import { newPlan, setField } from "../plan/index.ts";
import {
  Courier,
  createMemoryShelf,
  createMemoryStore,
  createNearStore,
  createSession,
  type FarStore,
  type NearStore,
  type Session,
  type Shelf,
  StoreAway,
  WorkError,
} from "./index.ts";

/** One server for all, which can be away, and browsers that each have a shelf of their own. */
class Server implements FarStore {
  readonly kept = createMemoryStore();
  isAway = false;
  /** it saves and its answer does not arrive */
  losesAnswers = false;
  isFull = false;
  #ask<T>(act: () => Promise<T>): Promise<T> {
    return this.isAway ? Promise.reject(new StoreAway()) : act();
  }
  ping = () => this.#ask(async () => undefined);
  load: FarStore["load"] = (key) => this.#ask(() => this.kept.load(key));
  glance = () => this.#ask(async () => null);
  list = () => this.#ask(() => this.kept.list());
  save: FarStore["save"] = (key, work) =>
    this.#ask(async () => {
      if (this.isFull) throw new WorkError("the disk is full", "free some space");
      await this.kept.save(key, work);
      if (this.losesAnswers) throw new StoreAway();
    });
}

interface Seat {
  readonly session: Session;
  readonly courier: Courier;
  readonly near: NearStore;
  /** lets the next retry happen */
  retry(): Promise<void>;
}

let server: Server;
let seats = 0;
const calm = async () => {
  for (let i = 0; i < 200; i++) await Promise.resolve();
};

function sit(shelf: Shelf = createMemoryShelf(), self = `browser${++seats}`): Seat {
  const near = createNearStore(shelf, () => new Date(0));
  const later: (() => void)[] = [];
  const scheduler = {
    after: (_: number, run: () => void) => {
      later.push(run);
      return () => void later.splice(later.indexOf(run), 1);
    },
  };
  const courier: Courier = new Courier({
    near,
    far: server,
    scheduler,
    self,
    meet: (key, theirs, base) => session.meet(key, theirs, base),
    see: (key, kept) => session.see(key, kept),
    tell: () => undefined,
  });
  const computer = { read: never, frame: never, map: never };
  const session: Session = createSession({
    computer,
    store: courier,
    scheduler: { after: () => () => undefined },
    newKey: () => "plan-x",
  });
  return {
    session,
    courier,
    near,
    async retry() {
      for (const run of later.splice(0)) run();
      await calm();
    },
  };
}
const never = () => Promise.reject(new Error("not asked for here"));
const title = (text: string) => setField(`title ${text}`, ["title"], text);
const iso = (value: number) => setField(`iso ${value}`, ["camera", "iso"], value);
async function change(seat: Seat, ...edits: ReturnType<typeof title>[]): Promise<void> {
  for (const edit of edits) seat.session.edit(edit);
  await seat.session.flush();
  await calm();
}
const titleIn = async () =>
  ((await server.kept.load("plan-x"))?.plan as { title?: string } | undefined)?.title;
const shown = (seat: Seat) => seat.session.get().plan;

beforeEach(() => {
  server = new Server();
});

describe("[WB11] a work is kept beside the hand first, and there when somebody answers", () => {
  it("while the server is away edits wait here; they are taken there when it is back", async () => {
    const seat = sit();
    await change(seat, title("one"));
    expect(await titleIn()).toBe("one");
    server.isAway = true;
    await change(seat, title("two"));
    expect([seat.session.get().saving.state, seat.courier.get().reach]).toEqual(["saved", "away"]);
    expect([await titleIn(), seat.courier.get().waiting]).toEqual(["one", 1]);
    server.isAway = false;
    await seat.retry();
    expect([await titleIn(), seat.courier.get().reach, seat.courier.get().waiting]).toEqual([
      "two",
      "here",
      0,
    ]);
  });

  it("what waited when the browser was closed is taken there at the next start", async () => {
    const shelf = createMemoryShelf();
    server.isAway = true;
    await change(sit(shelf), title("offline"));
    server.isAway = false;
    const next = sit(shelf);
    await next.courier.wake();
    await calm();
    expect(await titleIn()).toBe("offline");
  });

  it("a browser that has nothing gets the server's work, and has it when the server is away", async () => {
    await change(sit(), title("kept there"));
    const other = sit();
    expect((await other.session.resume("plan-x")).ok).toBe(true);
    server.isAway = true;
    const shelfOnly = await other.near.load("plan-x");
    expect(shelfOnly?.plan).toMatchObject({ title: "kept there" });
    expect((await other.session.resume("plan-x")).ok).toBe(true);
  });

  it("what the server has that is newer comes in at opening", async () => {
    const [one, two] = [sit(), sit()];
    await change(one, title("first"));
    await two.session.resume("plan-x");
    await change(two, title("newer"));
    await one.session.createNew();
    await one.session.resume("plan-x");
    expect(shown(one).title).toBe("newer");
  });

  it("a save whose answer was lost is no conflict with oneself", async () => {
    const seat = sit();
    await change(seat, title("one"));
    server.losesAnswers = true;
    await change(seat, title("two"));
    server.losesAnswers = false;
    await change(seat, title("three"));
    await seat.retry();
    expect([await titleIn(), seat.session.get().saving.state]).toEqual(["three", "saved"]);
  });

  it("a server that cannot keep it says why; it is kept here all the same", async () => {
    const seat = sit();
    server.isFull = true;
    await change(seat, title("one"));
    expect(seat.courier.get().trouble).toEqual({ problem: "the disk is full", cure: "free some space" });
    expect((await seat.near.load("plan-x"))?.plan).toMatchObject({ title: "one" });
    server.isFull = false;
    await seat.retry();
    expect([await titleIn(), seat.courier.get().trouble]).toEqual(["one", null]);
  });

  it("a server that lost its works gets them again", async () => {
    const seat = sit();
    await change(seat, title("one"), title("two"));
    server = Object.assign(server, { kept: createMemoryStore() });
    await change(seat, title("three"));
    expect(await titleIn()).toBe("three");
  });
});

describe("[WB12] what two keepers did apart meets without loss", () => {
  async function apart(): Promise<[Seat, Seat]> {
    const [one, two] = [sit(), sit()];
    await change(one, title("both"));
    await two.session.resume("plan-x");
    server.isAway = true;
    return [one, two];
  }

  it("different fields become one plan, both histories within reach of undo", async () => {
    const [one, two] = await apart();
    await change(one, title("mine"));
    server.isAway = false;
    await change(two, iso(400));
    await one.retry();
    expect([shown(one).title, shown(one).camera.iso, one.session.get().saving.state]).toEqual([
      "mine",
      400,
      "saved",
    ]);
    expect(await titleIn()).toBe("mine");
    const labels = one.session.get().steps.map((step) => step.label);
    expect(labels).toEqual(["opened", "title both", "iso 400", "title mine"]);
    one.session.undo();
    expect([shown(one).title, shown(one).camera.iso]).toEqual(["both", 400]);
  });

  it("the same field is asked about; both ways out reach the server and keep the other one step away", async () => {
    for (const way of ["keepMine", "takeTheirs"] as const) {
      server = new Server();
      const [one, two] = await apart();
      await change(one, title("mine"));
      server.isAway = false;
      await change(two, title("theirs"));
      await one.retry();
      expect(one.session.get().saving.state).toBe("conflict");
      expect(await titleIn()).toBe("theirs");
      // what goes on meanwhile is kept here
      await change(one, iso(800));
      expect((await one.near.load("plan-x"))?.plan).toMatchObject({ title: "mine" });
      await one.session[way]();
      await calm();
      const [kept, other] = way === "keepMine" ? ["mine", "theirs"] : ["theirs", "mine"];
      expect([shown(one).title, await titleIn(), one.session.get().saving.state]).toEqual([
        kept,
        kept,
        "saved",
      ]);
      expect(one.session.get().steps.length).toBeGreaterThan(3);
      const titles = [];
      for (let i = one.session.get().at; i >= 0; i--) {
        one.session.goTo(i);
        titles.push(shown(one).title);
      }
      expect(titles).toContain(other);
    }
  });

  it("a work that nobody has open is merged where it can be, else waits until it is opened", async () => {
    for (const edit of [iso(400), title("theirs")]) {
      server = new Server();
      const [one, two] = await apart();
      await change(one, title("mine"));
      await one.session.createNew();
      server.isAway = false;
      await change(two, edit);
      await one.retry();
      await calm();
      if (edit.label === "iso 400") {
        expect((await server.kept.load("plan-x"))?.plan).toMatchObject({
          title: "mine",
          camera: { iso: 400 },
        });
        continue;
      }
      expect((await one.courier.list()).map((work) => [work.key, work.isClash])).toEqual([["plan-x", true]]);
      await one.session.resume("plan-x");
      one.courier.look("plan-x");
      await calm();
      expect([shown(one).title, one.session.get().saving.state]).toEqual(["mine", "conflict"]);
    }
  });
});

describe("[WB13] the list names every work once, with the place where it lies", () => {
  it("here, there, and both", async () => {
    const seat = sit();
    await change(seat, title("both"));
    await server.kept.save("there", { revision: 1, plan: { ...newPlan(), title: "there" }, history: null });
    await seat.near.save("here", { revision: 1, plan: { ...newPlan(), title: "here" }, history: null });
    const places = async () =>
      (await seat.courier.list()).map((work) => `${work.title} ${work.place}`).sort();
    expect(await places()).toEqual(["both both", "here near", "there far"]);
    server.isAway = true;
    expect(await places()).toEqual(["both near", "here near"]);
  });
});

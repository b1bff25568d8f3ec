/** The library of shoots as plain lists in memory, for comparing. Says the rules a second time, without a table. */
import { factsOfPlan, type ShootFields, type ShootQuery } from "../../shoots/index.ts";

export interface ModelShoot extends ShootFields {
  readonly id: string;
  readonly createdAt: string;
  readonly revision: number;
}

export interface ModelFrame {
  readonly id: string;
  readonly shoot: string;
  readonly key: string | null;
  readonly arrivedAt: string;
  readonly pattern: string | null;
  readonly stars: number;
  readonly isSelect: boolean;
}

interface ModelWork {
  readonly shoot: string;
  readonly plan: object;
  readonly read: string | null;
}

export class Model {
  readonly shoots = new Map<string, ModelShoot>();
  readonly works = new Map<string, ModelWork>();
  readonly frames = new Map<string, ModelFrame>();

  add(shoot: ModelShoot): void {
    this.shoots.set(shoot.id, shoot);
  }

  change(id: string, fields: Partial<ShootFields>): void {
    const shoot = this.shoots.get(id) as ModelShoot;
    this.shoots.set(id, { ...shoot, ...fields, revision: shoot.revision + 1 });
  }

  save(key: string, plan: object, shoot: string): void {
    const before = this.works.get(key);
    const title = factsOfPlan(plan).title;
    if (before !== undefined) {
      const then = factsOfPlan(before.plan).title;
      const isOnly = this.worksIn(shoot).length === 1;
      if (then !== title && isOnly && this.shoots.get(shoot)?.title === then) this.change(shoot, { title });
    }
    this.works.set(key, { shoot, plan, read: before?.read ?? null });
  }

  read(key: string, read: string | null): void {
    this.works.set(key, { ...(this.works.get(key) as ModelWork), read });
  }

  move(key: string, to: string): void {
    const work = this.works.get(key) as ModelWork;
    const from = work.shoot;
    if (from === to) return;
    this.works.set(key, { ...work, shoot: to });
    for (const frame of [...this.frames.values()])
      if (frame.shoot === from && frame.key === key) this.frames.set(frame.id, { ...frame, shoot: to });
    const left = this.shoots.get(from) as ModelShoot;
    const isEmpty = this.worksIn(from).length + this.framesIn(from).length === 0;
    const isBare = left.place + left.client + left.notes === "";
    if (isEmpty && isBare && left.title === factsOfPlan(work.plan).title)
      this.change(from, { isPutAway: true });
  }

  find(query: ShootQuery) {
    const found = [...this.shoots.values()].filter((shoot) => this.fits(shoot, query));
    const key = (shoot: ModelShoot) => [dayOf(shoot), shoot.createdAt];
    found.sort((a, b) => {
      const [first, second] = [key(a), key(b)];
      const at = first.findIndex((value, i) => value !== second[i]);
      return at < 0 ? (a.id < b.id ? -1 : 1) : first[at] > second[at] ? -1 : 1;
    });
    const rows = found.slice(query.offset, query.offset + query.limit).map((shoot) => this.rowOf(shoot));
    return { total: found.length, rows };
  }

  choices() {
    const all = [...this.shoots.keys()].map((id) => this.factsIn(id));
    return {
      patterns: inOrder(all.flatMap(({ patterns }) => patterns)),
      lights: inOrder(all.flatMap(({ lights }) => lights)),
      rooms: inOrder(all.flatMap(({ rooms }) => rooms)),
    };
  }

  framesIn(shoot: string): ModelFrame[] {
    return [...this.frames.values()].filter((frame) => frame.shoot === shoot);
  }

  private worksIn(shoot: string): (ModelWork & { readonly key: string })[] {
    const all = [...this.works].map(([key, work]) => ({ key, ...work }));
    return all.filter((work) => work.shoot === shoot).sort((a, b) => (a.key < b.key ? -1 : 1));
  }

  private factsIn(id: string) {
    const plans = this.worksIn(id).map(({ plan, read }) => ({ ...factsOfPlan(plan), read }));
    const seen = this.framesIn(id).map(({ pattern }) => pattern);
    return {
      words: plans.map(({ words }) => words),
      patterns: inOrder([...plans.flatMap(({ pattern, read }) => [pattern, read]), ...seen]),
      lights: inOrder(plans.flatMap(({ lights }) => lights)),
      rooms: inOrder(plans.map(({ room }) => room)),
    };
  }

  private rowOf({ id, title, date, isPutAway, revision }: ModelShoot) {
    const frames = this.framesIn(id);
    const best = [...frames].sort(
      (a, b) => b.stars - a.stars || (a.arrivedAt > b.arrivedAt ? -1 : a.arrivedAt < b.arrivedAt ? 1 : 0),
    );
    const { patterns, lights, rooms } = this.factsIn(id);
    return {
      ...{ id, title, date, isPutAway, revision, patterns, lights, rooms },
      plans: this.worksIn(id).length,
      frames: frames.length,
      selects: frames.filter(({ isSelect }) => isSelect).length,
      cover: best[0]?.id ?? null,
    };
  }

  private fits(shoot: ModelShoot, query: ShootQuery): boolean {
    const { words, patterns, lights, rooms } = this.factsIn(shoot.id);
    const said = tokens([shoot.title, shoot.place, shoot.client, shoot.notes, ...words].join("\n"));
    const day = dayOf(shoot);
    return (
      shoot.isPutAway === (query.putAway === true) &&
      (query.text ?? "").split(/\s+/).every((term) => isSaid(said, tokens(term))) &&
      (!query.pattern || patterns.includes(query.pattern)) &&
      (!query.light || lights.includes(query.light)) &&
      (!query.room || rooms.includes(query.room)) &&
      (!query.from || day >= query.from) &&
      (!query.to || day <= query.to) &&
      (!query.stars || this.framesIn(shoot.id).some(({ stars }) => stars >= (query.stars ?? 0)))
    );
  }
}

function dayOf({ date, createdAt }: ModelShoot): string {
  return date ?? createdAt.slice(0, 10);
}

function tokens(text: string): string[] {
  const plain = text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
  return plain.split(/[^\p{L}\p{N}]+/u).filter((token) => token !== "");
}

/** One after the other, the last one a beginning. */
function isSaid(said: readonly string[], term: readonly string[]): boolean {
  const last = term.length - 1;
  return (
    said.some((_, at) =>
      term.every((token, i) =>
        i < last ? said[at + i] === token : (said[at + i]?.startsWith(token) ?? false),
      ),
    ) || term.length === 0
  );
}

function inOrder(values: readonly (string | null)[]): string[] {
  const there = values.filter((value) => value !== null);
  return [...new Set(there)].sort(new Intl.Collator("en", { numeric: true }).compare);
}

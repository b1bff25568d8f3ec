/** The library of shoots, as app, server and shell use it. */
import { patternCalled, type SidecarsWritten, type Stars } from "../shoots/index.ts";
import { type News, type NewsDesk, SaveConflict, type ShootLibrary, WorkError } from "../workbench/index.ts";
import { catchUp, noteFields, noteReadPattern } from "./facts.ts";
import { choices, findShoots } from "./found.ts";
import { framesOf, frameWith, pickFrame, picksOf } from "./frames.ts";
import { dayOf } from "./homes.ts";
import type { Library } from "./open.ts";
import { place, placedOf } from "./placed.ts";
import { demandShoot, insertShoot, newShoot, readFields, writeShoot } from "./shoot-rows.ts";
import { demandWork, framesIn, moveWork, plansOf, shootOfWork } from "./shoots-works.ts";
import { keepVersion, renameVersion, versionPlan } from "./versions.ts";

export interface PickedFrame {
  readonly path: string;
  readonly stars: Stars;
  readonly isSelect: boolean;
}

export interface ShootsParts {
  readonly now: () => Date;
  readonly newId: () => string;
  readonly news: Pick<NewsDesk, "tell">;
  readonly writeSidecars: (frames: readonly PickedFrame[]) => Promise<SidecarsWritten>;
}

export function createShoots(library: Library, parts: ShootsParts): ShootLibrary {
  const { db } = library;
  const { now, newId } = parts;
  const tell = (news: News) => parts.news.tell(news);
  const tellShoot = (shoot: string | null) => tell({ kind: "shoots", shoot });
  const { read, write } = library;
  catchUp(library);
  return {
    find: async (query) => read(() => findShoots(db, query)),
    choices: async () => read(() => choices(db)),
    whole: async (id) =>
      read(() => ({ shoot: demandShoot(db, id), plans: plansOf(db, id), frames: framesIn(db, id) })),
    async create(sent) {
      const fields = readFields(sent);
      const shoot = write(() => {
        const title = fields.title ?? freeTitle(`Shoot of ${dayOf(now())}`);
        const made = { ...newShoot(newId(), title, now()), ...fields };
        insertShoot(db, made);
        noteFields(db, made.id);
        return made;
      });
      tellShoot(shoot.id);
      return shoot;
    },
    async change(id, revision, sent) {
      const fields = readFields(sent);
      const shoot = write(() => {
        const before = demandShoot(db, id);
        if (before.revision !== revision) throw new SaveConflict(before.title);
        const after = writeShoot(db, before, fields, now());
        noteFields(db, id);
        return after;
      });
      tellShoot(id);
      return shoot;
    },
    shootOf: async (key) => read(() => shootOfWork(db, key)),
    async move(key, shoot) {
      const from = write(() => moveWork(db, key, shoot, now()));
      if (from === null) return;
      tellShoot(from);
      tellShoot(shoot);
    },
    async keepVersion(key, name) {
      const version = { id: newId(), name, madeAt: now().toISOString(), isAutomatic: false };
      const kept = write(() => keepVersion(db, key, version));
      tellShoot(shootOfWork(db, key));
      return kept;
    },
    async renameVersion(id, name) {
      const version = write(() => renameVersion(db, id, name));
      tellShoot(shootOfWork(db, version.key));
      return version;
    },
    versionPlan: async (id) => read(() => versionPlan(db, id)),
    frames: async (shoot, offset, limit) =>
      read(() => framesOf(db, demandShoot(db, shoot).id, offset, limit)),
    async pick(frame, pick) {
      const row = write(() => pickFrame(db, frame, pick));
      tellShoot(row.shoot);
      return row;
    },
    frame: async (id) => read(() => frameWith(db, id)),
    async noteRead(key, { pattern }) {
      const name = patternCalled(pattern);
      if (pattern !== null && name === null)
        throw new WorkError(`"${pattern}" is no pattern`, "name one that the workbench reads, or none");
      const shoot = write(() => {
        const work = demandWork(db, key);
        return noteReadPattern(db, work.shoot, key, name) ? work.shoot : null;
      });
      if (shoot !== null) tellShoot(shoot);
    },
    placed: async (key) => read(() => placedOf(db, key)),
    async place(key, thing, isPlaced, by) {
      const at = now().toISOString();
      if (write(() => place(db, key, { thing, isPlaced, by, at }))) tell({ kind: "placed", key });
    },
    async writeSidecars(shoot) {
      const frames = read(() => picksOf(db, demandShoot(db, shoot).id));
      const done = await parts.writeSidecars(frames.flatMap(({ name: _, ...f }) => (isPlaced(f) ? [f] : [])));
      const lost = frames.filter((frame) => !isPlaced(frame) && (frame.stars > 0 || frame.isSelect));
      const problems = lost.map(({ name }) => ({ name, ...HANDED_OVER }));
      return { ...done, problems: [...done.problems, ...problems] };
    },
  };

  /** "Shoot of 2026-11-26", or that with the next number where there is one. */
  function freeTitle(title: string): string {
    const isTaken = db.prepare("SELECT 1 FROM shoots WHERE title = ? LIMIT 1");
    for (let n = 1; ; n++) {
      const next = n === 1 ? title : `${title}, ${n}`;
      if (isTaken.get(next) === undefined) return next;
    }
  }
}

function isPlaced<T extends { readonly path: string | null }>(
  frame: T,
): frame is T & { readonly path: string } {
  return frame.path !== null;
}

const HANDED_OVER = {
  problem: "it was handed over by a browser, which does not say where it lies",
  cure: "watch the folder that it is in: once it has come from there its sidecar is written",
};

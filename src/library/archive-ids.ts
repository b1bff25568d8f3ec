/** By what names a shoot of an archive goes in the library: its own, or where any of them is taken new ones for all. */
import type { ShootDocuments } from "./archive-documents.ts";
import type { Db } from "./sqlite.ts";

export interface Ids {
  readonly areNew: boolean;
  readonly shoot: string;
  key(archived: string): string;
  version(archived: string): string;
  frame(archived: string): string;
}

export function idsFor({ about, frames }: ShootDocuments, dbs: readonly Db[], newId: () => string): Ids {
  const keys = about.plans.map(({ key }) => key);
  const versions = about.plans.flatMap((plan) => plan.versions.map(({ id }) => id));
  const areTaken =
    isTaken(dbs, "SELECT 1 FROM shoots WHERE id = ?", [about.shoot.id]) ||
    isTaken(dbs, "SELECT 1 FROM works WHERE key = ?", keys) ||
    isTaken(dbs, "SELECT 1 FROM versions WHERE id = ?", versions) ||
    isTaken(
      dbs,
      "SELECT 1 FROM frames WHERE id = ?",
      frames.map(({ id }) => id),
    );
  if (!areTaken)
    return { areNew: false, shoot: about.shoot.id, key: (k) => k, version: (v) => v, frame: (f) => f };
  const renamed = new Map<string, string>();
  const once = (kind: string, archived: string, make: () => string) => {
    const name = `${kind} ${archived}`;
    const known = renamed.get(name) ?? make();
    renamed.set(name, known);
    return known;
  };
  return {
    areNew: true,
    shoot: newId(),
    key: (key) => once("key", key, () => newKey(key, newId())),
    version: (id) => once("version", id, newId),
    frame: (id) => once("frame", id, newId),
  };
}

function isTaken(dbs: readonly Db[], sql: string, names: readonly string[]): boolean {
  return dbs.some((db) => {
    const find = db.prepare(sql);
    return names.some((name) => find.get(name) !== undefined);
  });
}

/** Small letters, digits and hyphens, as keys are. */
function newKey(key: string, id: string): string {
  const mark = id
    .toLowerCase()
    .replace(/[^a-z0-9]/g, "")
    .slice(-20);
  return `${key.slice(0, 40)}-${mark}`;
}

/** What shoots are searched by, kept in step with plans, frames and fields: whoever changes those calls this within the same
 * transaction. `facts` holds what is narrowed by, `words` the text of each shoot. */
import { type FrameFacts, factsOfPlan, type PlanFacts } from "../shoots/index.ts";
import { keptPlan } from "./homes.ts";
import type { Library } from "./open.ts";
import type { Db } from "./sqlite.ts";

/** Stands where else the key of a work does; no key has a space in it. */
const FRAMES = "test frames";
/** What the workbench read of a plan: the one fact that cannot be made anew from what is kept. */
const READ = "read pattern";

type Fact = readonly [kind: string, value: string];

/** Whether anything that is searched by is different now. */
export function noteWork(db: Db, shoot: string, key: string, facts: PlanFacts): boolean {
  const isOther = replaceFacts(db, shoot, key, factsOfWork(facts));
  if (isOther) writeWords(db, shoot);
  return isOther;
}

/** Whether it is another pattern than before. */
export function noteReadPattern(db: Db, shoot: string, key: string, pattern: string | null): boolean {
  const there = db
    .prepare("SELECT value FROM facts WHERE shoot = ? AND source = ? AND kind = ?")
    .get(shoot, key, READ) as { value: string } | undefined;
  if ((there?.value ?? null) === pattern) return false;
  db.prepare("DELETE FROM facts WHERE shoot = ? AND source = ? AND kind = ?").run(shoot, key, READ);
  if (pattern !== null) insertFact(db, shoot, key, [READ, pattern]);
  return true;
}

export function noteFrames(db: Db, shoot: string): void {
  const patterns = db
    .prepare("SELECT DISTINCT pattern FROM frames WHERE shoot = ? AND pattern IS NOT NULL ORDER BY pattern")
    .all(shoot) as { pattern: FrameFacts["pattern"] & string }[];
  replaceFacts(
    db,
    shoot,
    FRAMES,
    patterns.map(({ pattern }) => ["pattern", pattern]),
  );
}

/** After title, place, client or notes changed. */
export function noteFields(db: Db, shoot: string): void {
  writeWords(db, shoot);
}

export function moveFacts(db: Db, key: string, from: string, to: string): void {
  db.prepare("UPDATE facts SET shoot = ? WHERE shoot = ? AND source = ?").run(to, from, key);
  for (const shoot of [from, to]) {
    noteFrames(db, shoot);
    writeWords(db, shoot);
  }
}

/** The title that the plan had when it was saved last. */
export function titleThen(db: Db, shoot: string, key: string): string | null {
  const there = db
    .prepare("SELECT value FROM facts WHERE shoot = ? AND source = ? AND kind = 'title'")
    .get(shoot, key) as { value: string } | undefined;
  return there?.value ?? null;
}

/** Shoots that came in without what they are searched by: a library from before there was any, or rows that were copied in. */
export function catchUp(library: Library): void {
  const { n } = library.read((db) =>
    db
      .prepare(
        `SELECT abs((SELECT count(*) FROM works) - (SELECT count(*) FROM facts WHERE kind = 'title'))
           + abs((SELECT count(*) FROM shoots) - (SELECT count(*) FROM words)) AS n`,
      )
      .get(),
  ) as { n: number };
  if (n > 0) rebuildFound(library);
}

/** Makes all of it anew from plans and frames. What is kept in step is the same: this is for a library whose search data was
 * written by another program, or that came in as a copy. */
export function rebuildFound(library: Library): void {
  library.write((db) => {
    db.prepare("DELETE FROM facts WHERE kind <> ?").run(READ);
    db.exec("DELETE FROM words");
    const works = db.prepare("SELECT key, shoot, plan FROM works WHERE shoot IS NOT NULL").iterate();
    for (const { key, shoot, plan } of works as Iterable<{ key: string; shoot: string; plan: string }>)
      for (const fact of factsOfWork(factsOfPlan(keptPlan(plan)))) insertFact(db, shoot, key, fact);
    db.prepare(
      `INSERT INTO facts (shoot, kind, value, source)
         SELECT DISTINCT shoot, 'pattern', pattern, ? FROM frames WHERE pattern IS NOT NULL`,
    ).run(FRAMES);
    for (const { id } of db.prepare("SELECT id FROM shoots").all() as { id: string }[])
      db.prepare("INSERT INTO words (shoot, text) VALUES (?, ?)").run(id, wordsOf(db, id));
  });
}

function factsOfWork({ title, words, lights, room, pattern }: PlanFacts): Fact[] {
  return [
    ["title", title],
    ["words", words],
    ...lights.map((light): Fact => ["light", light]),
    ...(room === null ? [] : [["room", room] as const]),
    ...(pattern === null ? [] : [["pattern", pattern] as const]),
  ];
}

function replaceFacts(db: Db, shoot: string, source: string, facts: readonly Fact[]): boolean {
  const there = db
    .prepare("SELECT kind, value FROM facts WHERE shoot = ? AND source = ? AND kind <> ?")
    .all(shoot, source, READ) as { kind: string; value: string }[];
  const written = new Set(there.map(({ kind, value }) => `${kind} ${value}`));
  if (facts.length === written.size && facts.every(([kind, value]) => written.has(`${kind} ${value}`)))
    return false;
  db.prepare("DELETE FROM facts WHERE shoot = ? AND source = ? AND kind <> ?").run(shoot, source, READ);
  for (const fact of facts) insertFact(db, shoot, source, fact);
  return true;
}

function insertFact(db: Db, shoot: string, source: string, [kind, value]: Fact): void {
  db.prepare("INSERT INTO facts (shoot, kind, value, source) VALUES (?, ?, ?, ?)").run(
    shoot,
    kind,
    value,
    source,
  );
}

function writeWords(db: Db, shoot: string): void {
  const text = wordsOf(db, shoot);
  // SQLite's full text knows rows by number only; a look through some thousand shoots takes a millisecond
  const there = db.prepare("SELECT rowid, text FROM words WHERE shoot = ?").get(shoot) as
    | { rowid: number; text: string }
    | undefined;
  if (there === undefined) db.prepare("INSERT INTO words (shoot, text) VALUES (?, ?)").run(shoot, text);
  else if (there.text !== text)
    db.prepare("UPDATE words SET text = ? WHERE rowid = ?").run(text, there.rowid);
}

function wordsOf(db: Db, shoot: string): string {
  const fields = db.prepare("SELECT title, place, client, notes FROM shoots WHERE id = ?").get(shoot);
  const plans = db
    .prepare("SELECT value FROM facts WHERE shoot = ? AND kind = 'words' ORDER BY source")
    .all(shoot) as { value: string }[];
  return [...Object.values(fields ?? {}), ...plans.map(({ value }) => value)].join("\n");
}

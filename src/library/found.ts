/** Shoots found: by words, by what is in them, by day. Everything asked for has to hold. */
import {
  patternCalled,
  type ShootChoices,
  type ShootQuery,
  type ShootRow,
  type ShootRows,
} from "../shoots/index.ts";
import { type ShootTableRow, shootOfRow } from "./shoot-rows.ts";
import type { Db } from "./sqlite.ts";

const MOST_ROWS = 500;
const MOST_TERMS = 16;

/** The day of a shoot; while it is not settled that on which it was written down. As the index shoots_by_day has it. */
const DAY = "coalesce(s.date, substr(s.created_at, 1, 10))";

interface Narrowed {
  readonly where: string;
  readonly values: readonly (string | number)[];
}

export function findShoots(db: Db, query: ShootQuery): ShootRows {
  const { where, values } = narrowed(query);
  const { total } = db.prepare(`SELECT count(*) AS total FROM shoots s WHERE ${where}`).get(...values) as {
    total: number;
  };
  const limit = Math.max(0, Math.min(MOST_ROWS, Math.floor(query.limit)));
  const offset = Math.max(0, Math.floor(query.offset));
  const rows = db.prepare(listSql(where)).all(...values, limit, offset) as unknown as ShootTableRow[];
  return { total, rows: rows.map(rowReader(db)) };
}

export function listSql(where: string): string {
  return `SELECT * FROM shoots s WHERE ${where} ORDER BY ${DAY} DESC, s.created_at DESC, s.id LIMIT ? OFFSET ?`;
}

const FACTS =
  "SELECT kind, value FROM facts WHERE shoot = ? AND kind IN ('pattern', 'read pattern', 'light', 'room')";

/** The conditions are ours, what people ask for is bound to them. */
export function narrowed(query: ShootQuery): Narrowed {
  const where = ["s.is_put_away = ?"];
  const values: (string | number)[] = [Number(query.putAway === true)];
  const narrow = (condition: string, ...bound: (string | number)[]) => {
    where.push(condition);
    values.push(...bound);
  };
  const terms = termsOf(query.text ?? "");
  if (terms !== "") narrow("s.id IN (SELECT shoot FROM words WHERE words MATCH ?)", terms);
  // not by EXISTS: SQLite 3.53 counts a row that OFFSET leaves out once for each match that it has in there
  const has = "s.id IN (SELECT f.shoot FROM facts f WHERE f.kind = ? AND f.value = ?)";
  if (query.pattern) {
    const name = patternCalled(query.pattern) ?? query.pattern;
    narrow(`(${has} OR ${has})`, "pattern", name, "read pattern", name);
  }
  if (query.light) narrow(has, "light", query.light);
  if (query.room) narrow(has, "room", query.room);
  if (query.from) narrow(`${DAY} >= ?`, query.from);
  if (query.to) narrow(`${DAY} <= ?`, query.to);
  if (query.stars) narrow("(SELECT max(f.stars) FROM frames f WHERE f.shoot = s.id) >= ?", query.stars);
  return { where: where.join(" AND "), values };
}

/** Each word a beginning, in quotes: nothing that people write is a command to the search. What has neither letters nor
 * digits narrows nothing. */
function termsOf(text: string): string {
  return text
    .split(/[\s\0]+/u)
    .filter((term) => /[\p{L}\p{N}]/u.test(term))
    .slice(0, MOST_TERMS)
    .map((term) => `"${term.replaceAll('"', '""')}"*`)
    .join(" ");
}

const COUNTS = `SELECT
  (SELECT count(*) FROM works WHERE shoot = ?1) AS plans,
  (SELECT count(*) FROM frames WHERE shoot = ?1) AS frames,
  (SELECT count(*) FROM frames WHERE shoot = ?1 AND is_select = 1) AS selects,
  (SELECT id FROM frames WHERE shoot = ?1 ORDER BY stars DESC, arrived_at DESC, id LIMIT 1) AS cover`;

function rowReader(db: Db): (row: ShootTableRow) => ShootRow {
  const [countsOf, factsOf] = [COUNTS, FACTS].map((sql) => db.prepare(sql));
  return (row) => {
    const counts = countsOf.get(row.id) as Pick<ShootRow, "plans" | "frames" | "selects" | "cover">;
    const facts = factsOf.all(row.id) as { kind: string; value: string }[];
    const of = (...kinds: string[]) =>
      inOrder(facts.filter(({ kind }) => kinds.includes(kind)).map(({ value }) => value));
    return {
      ...shootOfRow(row),
      ...counts,
      patterns: of("pattern", "read pattern"),
      lights: of("light"),
      rooms: of("room"),
    };
  };
}

export function choices(db: Db): ShootChoices {
  const select = db.prepare("SELECT DISTINCT value FROM facts WHERE kind = ?");
  const of = (...kinds: string[]) =>
    inOrder(kinds.flatMap((kind) => (select.all(kind) as { value: string }[]).map(({ value }) => value)));
  return { patterns: of("pattern", "read pattern"), lights: of("light"), rooms: of("room") };
}

const ALPHABET = new Intl.Collator("en", { numeric: true });

function inOrder(values: readonly string[]): string[] {
  return [...new Set(values)].sort(ALPHABET.compare);
}

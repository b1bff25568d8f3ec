/** The library's form, one step after the other. A step that has been published is never changed: the next one mends it.
 * `user_version` in the file says how many it has behind it, `application_id` that it is ours. */

/** "Tpmk" */
export const APPLICATION_ID = 0x54706d6b;

export const MIGRATIONS: readonly string[] = [
  // 1: works with their undo history, the gear book, what the library knows of itself
  `CREATE TABLE works (
     key TEXT PRIMARY KEY,
     title TEXT NOT NULL,
     plan TEXT NOT NULL,
     history TEXT NOT NULL,
     revision INTEGER NOT NULL,
     by TEXT,
     saved_at TEXT NOT NULL
   ) STRICT, WITHOUT ROWID;
   CREATE TABLE gear (one INTEGER PRIMARY KEY CHECK (one = 1), book TEXT NOT NULL, revision INTEGER NOT NULL) STRICT;
   CREATE TABLE about (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;`,
  // 2: shoots, versions, frames, what is placed. Each work that is there gets a shoot of its own: the code does that, once
  // (works without one are given one whenever a library is opened)
  `CREATE TABLE shoots (
     id TEXT PRIMARY KEY,
     title TEXT NOT NULL,
     date TEXT,
     place TEXT NOT NULL DEFAULT '',
     client TEXT NOT NULL DEFAULT '',
     notes TEXT NOT NULL DEFAULT '',
     is_put_away INTEGER NOT NULL DEFAULT 0,
     created_at TEXT NOT NULL,
     changed_at TEXT NOT NULL,
     revision INTEGER NOT NULL DEFAULT 1
   ) STRICT, WITHOUT ROWID;
   ALTER TABLE works ADD COLUMN shoot TEXT REFERENCES shoots (id);
   CREATE INDEX works_of_shoot ON works (shoot);
   CREATE TABLE versions (
     id TEXT PRIMARY KEY,
     key TEXT NOT NULL REFERENCES works (key),
     number INTEGER NOT NULL,
     name TEXT NOT NULL,
     plan TEXT NOT NULL,
     made_at TEXT NOT NULL,
     is_automatic INTEGER NOT NULL DEFAULT 0,
     UNIQUE (key, number)
   ) STRICT, WITHOUT ROWID;
   CREATE TABLE frames (
     id TEXT PRIMARY KEY,
     shoot TEXT NOT NULL REFERENCES shoots (id),
     key TEXT REFERENCES works (key),
     version TEXT REFERENCES versions (id),
     name TEXT NOT NULL,
     path TEXT,
     bytes INTEGER,
     taken_at TEXT,
     arrived_at TEXT NOT NULL,
     width INTEGER NOT NULL,
     height INTEGER NOT NULL,
     pattern TEXT,
     ratio_stops REAL,
     clipped_skin REAL,
     stars INTEGER NOT NULL DEFAULT 0 CHECK (stars BETWEEN 0 AND 5),
     is_select INTEGER NOT NULL DEFAULT 0
   ) STRICT, WITHOUT ROWID;
   CREATE INDEX frames_of_shoot ON frames (shoot, stars DESC, arrived_at DESC, is_select);
   CREATE INDEX frames_by_path ON frames (path);
   CREATE TABLE frame_parts (
     id TEXT PRIMARY KEY REFERENCES frames (id) ON DELETE CASCADE,
     reading BLOB NOT NULL,
     thumbnail BLOB
   ) STRICT;
   CREATE TABLE placed (
     key TEXT NOT NULL REFERENCES works (key),
     thing TEXT NOT NULL,
     by TEXT NOT NULL,
     at TEXT NOT NULL,
     set_up TEXT NOT NULL,
     PRIMARY KEY (key, thing)
   ) STRICT, WITHOUT ROWID;`,
  // 3: what the search narrows by. Made anew from plans and frames whenever they change; nothing is kept here alone
  // but what the workbench read of a work (kind "read pattern")
  `CREATE TABLE facts (
     shoot TEXT NOT NULL REFERENCES shoots (id),
     kind TEXT NOT NULL,
     value TEXT NOT NULL,
     source TEXT NOT NULL,
     PRIMARY KEY (kind, value, shoot, source)
   ) STRICT, WITHOUT ROWID;
   CREATE INDEX facts_of_shoot ON facts (shoot, source);
   CREATE VIRTUAL TABLE words USING fts5 (shoot UNINDEXED, text, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3');
   CREATE INDEX shoots_by_day ON shoots (is_put_away, coalesce(date, substr(created_at, 1, 10)) DESC, created_at DESC);`,
  // 4: the shelf of gear that somebody owns
  `CREATE TABLE shelf (one INTEGER PRIMARY KEY CHECK (one = 1), shelf TEXT NOT NULL, revision INTEGER NOT NULL) STRICT;`,
  // 5: works are listed without going through their texts, which lie before the time in each row
  `CREATE INDEX works_listed ON works (saved_at DESC, key, title, revision, by);`,
];

/** The library of shoots, asked over HTTP. */
import type {
  FrameRow,
  FrameRows,
  Placed,
  PlanVersion,
  Shoot,
  ShootChoices,
  ShootQuery,
  ShootRows,
  ShootWhole,
  SidecarsWritten,
} from "../shoots/index.ts";
import { type Progress, type ShootLibrary, WorkError, type WorkOptions } from "../workbench/index.ts";
import { ask } from "./server.ts";

/** Where everything is kept, and how it stands with copies of it. */
export interface LibraryState {
  readonly path: string;
  readonly shoots: number;
  readonly frames: number;
  readonly bytes: number;
  readonly lastCopy: LibraryCopy | null;
  /** why the last copy was not made */
  readonly problem: { readonly problem: string; readonly cure: string } | null;
}

export interface LibraryCopy {
  readonly at: string;
  readonly path: string;
  readonly isVerified: boolean;
}

/** What the page asks for beside the library's own port: an archive is a file that it hands over, and copies are made
 * where the library lies. */
export interface KeptLibrary extends ShootLibrary {
  state(): Promise<LibraryState>;
  /** one more copy, now */
  copy(): Promise<void>;
  /** ids of the shoots that came in */
  bringIn(archive: Blob): Promise<readonly string[]>;
}

const SHOOTS = "./api/shoots";
/** Sidecars and copies: a disk that sleeps takes its time. */
const WRITE_MS = 120_000;
/** An archive holds photographs. */
const ARCHIVE_MS = 600_000;
/** What a browser still sends when the page goes away; a longer text goes without that promise. */
const LAST_WORDS = 30_000;

const part = encodeURIComponent;
const shoot = (id: string) => `${SHOOTS}/${part(id)}`;
const work = (key: string) => `./api/work/${part(key)}`;
const frame = (id: string) => `./api/frames/${part(id)}`;
const version = (id: string) => `./api/versions/${part(id)}`;

function send(method: "POST" | "PUT" | "PATCH", value: unknown): RequestInit {
  const body = JSON.stringify(value);
  const headers = { "content-type": "application/json" };
  return { method, headers, body, keepalive: body.length < LAST_WORDS };
}

async function told<T>(address: string, request?: RequestInit, key?: string): Promise<T> {
  return (await (await ask(address, request, key)).json()) as T;
}

export function connectLibrary(): KeptLibrary {
  return {
    find: (query) => told<ShootRows>(`${SHOOTS}?${queryText(query)}`),
    choices: () => told<ShootChoices>(`${SHOOTS}/choices`),
    whole: (id) => told<ShootWhole>(shoot(id)),
    create: (fields) => told<Shoot>(SHOOTS, send("POST", fields)),
    change: (id, revision, fields) => told<Shoot>(shoot(id), send("PATCH", { revision, fields }), id),
    shootOf: async (key) => (await told<{ shoot: string | null }>(`${work(key)}/shoot`)).shoot,
    move: async (key, to) => void (await ask(`${work(key)}/shoot`, send("PUT", { shoot: to }))),
    keepVersion: (key, name) => told<PlanVersion>(`${work(key)}/versions`, send("POST", { name })),
    renameVersion: (id, name) => told<PlanVersion>(version(id), send("PATCH", { name })),
    versionPlan: (id) => told<unknown>(version(id)),
    frames: (id, offset, limit) => told<FrameRows>(`${shoot(id)}/frames?offset=${offset}&limit=${limit}`),
    pick: (id, pick) => told<FrameRow>(frame(id), send("PATCH", pick)),
    frame: (id) => told<FrameRow | null>(frame(id)),
    noteRead: async (key, read) => void (await ask(`${work(key)}/read`, send("PUT", read))),
    placed: (key) => told<readonly Placed[]>(`${work(key)}/placed`),
    // the server knows who asks
    place: async (key, thing, isPlaced) =>
      void (await ask(`${work(key)}/placed`, send("PUT", { thing, isPlaced }))),
    writeSidecars: (id) =>
      told<SidecarsWritten>(`${shoot(id)}/sidecars`, {
        method: "POST",
        signal: AbortSignal.timeout(WRITE_MS),
      }),
    state: () => told<LibraryState>("./api/library"),
    copy: async () => {
      const signal = AbortSignal.timeout(WRITE_MS);
      await ask("./api/library/copies", { method: "POST", signal });
    },
    bringIn: async (archive) => {
      const headers = { "content-type": "application/zip" };
      const signal = AbortSignal.timeout(ARCHIVE_MS);
      const request = { method: "POST", headers, body: archive, signal };
      return (await told<{ shoots: readonly string[] }>("./api/archives", request)).shoots;
    },
  };
}

/** What does not narrow is left out. */
export function queryText(query: ShootQuery): string {
  const said = new URLSearchParams();
  for (const [name, value] of Object.entries(query))
    if (value !== undefined && value !== "" && value !== false) said.set(name, String(value));
  return said.toString();
}

export function thumbnailOf(id: string): string {
  return `${frame(id)}/thumbnail`;
}

/** A shoot packed as one archive: where it can be fetched, once. */
export interface PackedArchive {
  readonly address: string;
  readonly name: string;
}

/** Packs a shoot as one archive, which is a file then that the browser fetches by itself: it may be larger than memory.
 * Errors  WorkError with the server's own words; what `signal` stops it with */
export async function packArchive(
  id: string,
  { signal, onProgress }: WorkOptions & { signal: AbortSignal },
): Promise<PackedArchive> {
  const answer = await ask(`${shoot(id)}/archive`, { method: "POST", signal });
  let packed: PackedArchive | null = null;
  for await (const line of linesOf(answer)) {
    const said = JSON.parse(line) as Partial<Progress & WorkError & { packed: string; name: string }>;
    if (said.problem !== undefined) throw new WorkError(said.problem, said.cure ?? "try again");
    if (said.packed !== undefined)
      packed = { address: `./api/archives/${part(said.packed)}`, name: said.name ?? "" };
    else onProgress?.({ done: said.done ?? 0, what: said.what ?? "" });
  }
  if (packed === null)
    throw new WorkError("the server ended before it was packed", "start it again and save once more");
  return packed;
}

async function* linesOf(answer: Response): AsyncGenerator<string> {
  const text = new TextDecoder();
  const reader = answer.body?.getReader();
  let kept = "";
  for (;;) {
    const { done, value } = (await reader?.read()) ?? { done: true, value: undefined };
    kept += text.decode(value, { stream: !done });
    const lines = kept.split("\n");
    kept = lines.pop() ?? "";
    yield* lines.filter((line) => line !== "");
    if (done) return;
  }
}

import {
  type FarStore,
  type KeptWork,
  SaveConflict,
  type SavedWork,
  StoreAway,
  WorkError,
  type WorkGlance,
} from "../workbench/index.ts";

/** A plan named on the command line that started the server. */
export interface OpenedPlan {
  readonly key: string;
  readonly text: string;
}

export interface SheetRequest {
  readonly paper: "a4" | "letter";
  readonly units: "metric" | "feet";
}

/** The server behind the page, as far as the workbench asks it for anything. */
export interface PlanServer {
  readonly store: FarStore;
  /** Errors  WorkError with the server's own words */
  sheetPdf(planText: string, request: SheetRequest): Promise<Blob>;
}

/** What a first question to the server brings: none behind plain files, away where nobody answers. */
export interface Found {
  readonly reach: "here" | "away" | "none";
  readonly opened: OpenedPlan | null;
}

/** It is on this machine: one that takes longer than this to answer is as good as away. */
const PATIENCE_MS = 4000;
const OPEN = "./api/open";

export async function findServer(): Promise<Found> {
  try {
    const answer = await fetch(OPEN, { signal: AbortSignal.timeout(PATIENCE_MS) });
    const isServer = answer.ok && answer.headers.get("content-type")?.includes("json");
    if (!isServer) return { reach: "none", opened: null };
    return { reach: "here", opened: (await answer.json()) as OpenedPlan | null };
  } catch {
    return { reach: "away", opened: null };
  }
}

export function connectServer(): PlanServer {
  return {
    store: {
      ping: async () => void (await ask(OPEN)),
      load: async (key) => (await ask(work(key))).json() as Promise<SavedWork | null>,
      glance: async (key) => (await ask(`${work(key)}/glance`)).json() as Promise<WorkGlance | null>,
      async save(key, saved) {
        const body = JSON.stringify(saved);
        await ask(work(key), { method: "PUT", headers: { "content-type": "application/json" }, body }, key);
      },
      list: async () => (await ask("./api/works")).json() as Promise<KeptWork[]>,
    },
    async sheetPdf(planText, { paper, units }) {
      const answer = await ask(`./api/sheet?paper=${paper}&units=${units}`, {
        method: "POST",
        body: planText,
        // a sheet is computed finely first
        signal: AbortSignal.timeout(120_000),
      });
      return answer.blob();
    },
  };
}

function work(key: string): string {
  return `./api/work/${encodeURIComponent(key)}`;
}

export async function ask(address: string, request?: RequestInit, key = ""): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(address, { signal: AbortSignal.timeout(PATIENCE_MS), ...request });
  } catch {
    throw new StoreAway();
  }
  if (answer.ok) return answer;
  if (answer.status === 409) throw new SaveConflict(key);
  throw refusalOf(await answer.json().catch(() => null));
}

function refusalOf(body: unknown): WorkError {
  if (typeof body === "object" && body !== null && "problem" in body && "cure" in body) {
    return new WorkError(String(body.problem), String(body.cure));
  }
  return new StoreAway();
}

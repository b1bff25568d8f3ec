import { type PlanStore, SaveConflict, type SavedWork, WorkError } from "../workbench/index.ts";

/** A plan named on the command line that started the server. */
export interface OpenedPlan {
  readonly key: string;
  readonly text: string;
}

export interface ExamplePlan {
  readonly name: string;
  readonly text: string;
}

export interface SheetRequest {
  readonly paper: "a4" | "letter";
  readonly units: "metric" | "feet";
}

/** The server behind the page, as far as the workbench asks it for anything. */
export interface PlanServer {
  readonly store: PlanStore;
  opened(): Promise<OpenedPlan | null>;
  examples(): Promise<ExamplePlan[]>;
  /** Errors  WorkError with the server's own words */
  sheetPdf(planText: string, request: SheetRequest): Promise<Blob>;
}

const AWAY = new WorkError(
  "the server that keeps plans does not answer",
  "start `tapemark open` again, or save the plan as a file",
);

/** The server that handed out this page; null where the page came from plain files. */
export async function findServer(): Promise<PlanServer | null> {
  try {
    const answer = await fetch("./api/works");
    if (!answer.ok || !answer.headers.get("content-type")?.includes("json")) return null;
  } catch {
    return null;
  }
  const store: PlanStore = {
    load: async (key) => (await ask(work(key))).json() as Promise<SavedWork | null>,
    async save(key, saved) {
      const body = JSON.stringify(saved);
      await ask(
        work(key),
        {
          method: "PUT",
          headers: { "content-type": "application/json" },
          body,
          // A page that is being closed may still hand over a small work; browsers take 64 kB so.
          keepalive: body.length < 60_000,
        },
        key,
      );
    },
    list: async () => (await ask("./api/works")).json(),
  };
  return {
    store,
    opened: async () => (await ask("./api/open")).json(),
    examples: async () => (await ask("./api/examples")).json(),
    async sheetPdf(planText, { paper, units }) {
      const answer = await ask(`./api/sheet?paper=${paper}&units=${units}`, {
        method: "POST",
        body: planText,
      });
      return answer.blob();
    },
  };
}

function work(key: string): string {
  return `./api/work/${encodeURIComponent(key)}`;
}

async function ask(address: string, request?: RequestInit, key = ""): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(address, request);
  } catch {
    throw AWAY;
  }
  if (answer.ok) return answer;
  if (answer.status === 409) throw new SaveConflict(key);
  throw refusalOf(await answer.json().catch(() => null));
}

function refusalOf(body: unknown): WorkError {
  if (typeof body === "object" && body !== null && "problem" in body && "cure" in body) {
    return new WorkError(String(body.problem), String(body.cure));
  }
  return AWAY;
}

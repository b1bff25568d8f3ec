/** The record of a shoot and the contact sheet of moves, over HTTP. */
import type { Context, Hono } from "hono";
import { type Library, recordFrames, recordOf } from "../library/index.ts";
import { type Progress, WorkError } from "../workbench/index.ts";
import type { Print, PrintJob } from "./print-process.ts";
import type { SheetRequest } from "./routes.ts";

export interface PrintRouteParts {
  readonly library: Library;
  readonly print: Print;
}

const TYPE = { pdf: "application/pdf", png: "image/png" } as const;

export function addPrintRoutes(app: Hono, { library, print }: PrintRouteParts): void {
  /** of what is being made, under the name that whoever asked has for it */
  const running = new Map<string, Progress>();
  const made = async (c: Context, job: PrintJob): Promise<Uint8Array> => {
    const name = nameOf(c);
    try {
      return await print(job, c.req.raw.signal, (progress) => name !== "" && running.set(name, progress));
    } finally {
      running.delete(name);
    }
  };
  app.get("/api/prints/:name", (c) => c.json(running.get(c.req.param("name")) ?? null));
  app.get("/api/shoots/:id/record", async (c) => {
    const record = recordOf(library, c.req.param("id"), c.req.query("key") ?? null);
    const file = await made(c, { want: "record", record, options: sheetRequest(c) });
    return c.body(Buffer.from(file), 200, { "content-type": TYPE.pdf, "cache-control": "no-store" });
  });
  app.get("/api/shoots/:id/record/frames", (c) =>
    c.json(recordFrames(library, c.req.param("id"), c.req.query("key") ?? null)),
  );
  app.post("/api/contact", async (c) => {
    const form = c.req.query("form") === "png" ? "png" : "pdf";
    const options = { ...sheetRequest(c), form, person: personOf(c) } as const;
    const file = await made(c, { want: "contact", text: await c.req.text(), options });
    return c.body(Buffer.from(file), 200, { "content-type": TYPE[form] });
  });
}

export function sheetRequest(c: Context): SheetRequest {
  return {
    paper: c.req.query("paper") === "letter" ? "letter" : "a4",
    units: c.req.query("units") === "feet" ? "feet" : "metric",
  };
}

/** "" where whoever asked does not want to hear how far it is */
function nameOf(c: Context): string {
  const name = c.req.query("as") ?? "";
  if (/^[\w-]{0,64}$/.test(name)) return name;
  throw new WorkError(
    `"${name.slice(0, 80)}" is no name for a sheet`,
    "use letters, digits and dashes, 64 at most",
  );
}

function personOf(c: Context): number {
  const text = c.req.query("person") ?? "0";
  if (/^\d{1,4}$/.test(text)) return Number(text);
  throw new WorkError(`"${text}" is nobody of the plan`, "count the people from 0");
}

/** The record of a shoot and the contact sheet of moves, over HTTP. */
import type { Context, Hono } from "hono";
import { type Library, recordFrames, recordOf } from "../library/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { Print } from "./print-process.ts";
import type { SheetRequest } from "./routes.ts";

export interface PrintRouteParts {
  readonly library: Library;
  readonly print: Print;
}

const TYPE = { pdf: "application/pdf", png: "image/png" } as const;

export function addPrintRoutes(app: Hono, { library, print }: PrintRouteParts): void {
  app.get("/api/shoots/:id/record", async (c) => {
    const record = recordOf(library, c.req.param("id"), c.req.query("key") ?? null);
    const file = await print({ want: "record", record, options: sheetRequest(c) }, c.req.raw.signal);
    return c.body(Buffer.from(file), 200, { "content-type": TYPE.pdf, "cache-control": "no-store" });
  });
  app.get("/api/shoots/:id/record/frames", (c) =>
    c.json(recordFrames(library, c.req.param("id"), c.req.query("key") ?? null)),
  );
  app.post("/api/contact", async (c) => {
    const form = c.req.query("form") === "png" ? "png" : "pdf";
    const options = { ...sheetRequest(c), form, person: personOf(c) } as const;
    const file = await print({ want: "contact", text: await c.req.text(), options }, c.req.raw.signal);
    return c.body(Buffer.from(file), 200, { "content-type": TYPE[form] });
  });
}

export function sheetRequest(c: Context): SheetRequest {
  return {
    paper: c.req.query("paper") === "letter" ? "letter" : "a4",
    units: c.req.query("units") === "feet" ? "feet" : "metric",
  };
}

function personOf(c: Context): number {
  const text = c.req.query("person") ?? "0";
  if (/^\d{1,4}$/.test(text)) return Number(text);
  throw new WorkError(`"${text}" is nobody of the plan`, "count the people from 0");
}

/** The placement sheet as a PDF. Its code is loaded only where one is made: it is slow to start. */
import type { Plan } from "../plan/index.ts";

export async function sheetPdf(
  plan: Plan,
  pages: readonly string[],
  paper: "a4" | "letter",
): Promise<Uint8Array> {
  const { PAPER_SIZE } = await import("../sheet/index.ts");
  const { pagesToPdf } = await import("./pdf.ts");
  return pagesToPdf(pages, PAPER_SIZE[paper], plan.title);
}

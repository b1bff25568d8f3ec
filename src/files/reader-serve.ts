/** The other side: a process that reads one photograph after the other. */
import { WorkError } from "../workbench/index.ts";
import type { Answer, Asked, PhotoWork, Told } from "./reader-words.ts";

export function serveReader(work: PhotoWork) {
  const tell = (told: Told) => process.send?.(told);
  process.on("message", async (asked: Asked) => tell(await answer(work, asked)));
  // whoever asked is gone, or ends it: Ctrl-C goes to both
  process.on("disconnect", () => process.exit());
  process.on("SIGINT", () => {});
  tell({ ready: true });
}

async function answer(work: PhotoWork, asked: Asked): Promise<Answer> {
  const { source } = asked;
  try {
    if (asked.want === "photo") return { result: await work.read(source, asked.options) };
    return { result: await (asked.want === "picture" ? work.picture(source) : work.readCard(source)) };
  } catch (error) {
    if (error instanceof WorkError) return { problem: error.problem, cure: error.cure };
    const message = error instanceof Error ? error.message : String(error);
    return { problem: `reading ${source.name} failed inside: ${message}`, cure: null };
  }
}

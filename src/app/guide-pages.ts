/** The pages and pictures of docs/guide, put in by the build. */
import { CONTENTS } from "./guide-places.ts";
import { type GuideText, guideText } from "./guide-text.ts";

const SOURCES = import.meta.glob<string>("../../docs/guide/*.md", {
  query: "?raw",
  import: "default",
  eager: true,
});
const PICTURES = import.meta.glob<string>("../../docs/guide/pictures/*", {
  query: "?url",
  import: "default",
  eager: true,
});

const nameOf = (path: string) => path.replace(/^.*\/|\.md$/g, "");

const CONTENTS_FIRST = SOURCES[`../../docs/guide/${CONTENTS}.md`] ?? "";

/** By name, in the order in which the contents name them: that of the job. */
export const PAGES: ReadonlyMap<string, GuideText> = new Map(
  Object.entries(SOURCES)
    .map(([path, source]) => [nameOf(path), guideText(source)] as const)
    .toSorted(([a], [b]) => CONTENTS_FIRST.indexOf(`${a}.md`) - CONTENTS_FIRST.indexOf(`${b}.md`)),
);

/** Where the picture that a page names lies; null where there is none. */
export function pictureUrl(file: string): string | null {
  return PICTURES[`../../docs/guide/${file}`] ?? null;
}

/** Which page of the guide belongs to which screen, and the way there and back. */
import type { Bench, Screen, View } from "./bench.ts";

/** The page that lists the others. */
export const CONTENTS = "README";

export interface GuideAt {
  /** name of its file in docs/guide, without ".md" */
  readonly page: string;
  /** a heading of it; "" is its beginning */
  readonly part: string;
  /** where somebody came from */
  readonly from: Screen;
}

const PAGES: Readonly<Partial<Record<Screen, string>>> = {
  find: "01-brief",
  plan: "02-plan",
  direction: "03-power-and-direction",
  power: "03-power-and-direction",
  shoot: "06-shoot",
  shoots: "09-record",
  checklist: "05-place",
  use: "10-final-use",
  gear: "04-gear",
  record: "09-record",
};

export function pageFor({ screen, shoot }: View): string {
  if (screen === "shoot" && shoot === "fix") return "07-fix";
  return PAGES[screen] ?? CONTENTS;
}

/** Opens the page that belongs to what is on screen. */
export function openGuide(bench: Bench): void {
  const view = bench.view.get();
  if (view.screen === "guide") return;
  bench.view.update({ screen: "guide", guide: { page: pageFor(view), part: "", from: view.screen } });
}

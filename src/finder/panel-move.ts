/** A panel nearer to the face: the nearest that there is, else a white one on the shadow side. */
import type { Panel, Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { MainLight } from "./main-light.ts";
import { type Draft, drafted } from "./move.ts";
import { BOARD_AWAY_M, besideNose, boardAt, panelNearerBy } from "./step-panel.ts";
import { STEPS, stepWords } from "./steps.ts";
import { pictureSide, type Sitter } from "./turning.ts";

export function panelIn(plan: Plan, sitter: Sitter, main: MainLight | null, units: LengthUnits): Draft {
  if (plan.panels.length === 0) return whitePanel(plan, sitter, main);
  const { in_m } = STEPS[units];
  const away = (panel: Panel) =>
    Math.hypot(panel.position[0] - sitter.head[0], panel.position[1] - sitter.head[1]);
  const free = plan.panels.filter((panel) => !panel.pinned);
  const nearest = (free.length > 0 ? free : plan.panels).reduce((best, panel) =>
    away(panel) < away(best) ? panel : best,
  );
  const index = plan.panels.indexOf(nearest);
  const [x, y] = nearest.position;
  const does = `${nearest.name} ${stepWords(in_m, units)} nearer`;
  const side = pictureSide(plan, x - sitter.head[0], y - sitter.head[1]);
  const named = { key: "panel", cost: "panel", does, side } as const;
  return drafted(named, panelNearerBy(plan, sitter, index, in_m, does));
}

/** On the side that the main light leaves in the shade. */
function whitePanel(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const shade = shadeSide(main);
  const [ax, ay] = besideNose(sitter, shade);
  const named = {
    key: "panel",
    cost: "panel",
    does: "white panel in",
    side: pictureSide(plan, ax, ay),
  } as const;
  const label = "white panel on the shadow side";
  return drafted(named, boardAt(plan, sitter, "white", shade, BOARD_AWAY_M, label));
}

/** The own side that the main light leaves in the shade. */
export function shadeSide(main: MainLight | null): "left" | "right" {
  return main !== null && main.azimuth < 0 ? "left" : "right";
}

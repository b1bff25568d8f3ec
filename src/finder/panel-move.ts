/** A panel nearer to the face: the nearest that there is, else a white one on the shadow side. */
import { bearingVector, type Panel, type Plan, type Vec3 } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { MainLight } from "./main-light.ts";
import { blocked, type Draft, draft, put } from "./move.ts";
import { touchedBy, wallBefore } from "./obstacles.ts";
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
  const [x, y, z] = nearest.position;
  const [dx, dy] = [sitter.head[0] - x, sitter.head[1] - y];
  const words = `${stepWords(in_m, units)} nearer`;
  const named = {
    key: "panel",
    cost: "panel",
    does: `${nearest.name} ${words}`,
    side: pictureSide(plan, -dx, -dy),
  } as const;
  if (nearest.pinned) return blocked(named, `${nearest.name} is pinned`);
  const far = Math.hypot(dx, dy);
  if (far <= in_m) return blocked(named, "it is as near as it goes");
  const position: Vec3 = [x + (in_m * dx) / far, y + (in_m * dy) / far, z];
  const why = touchedBy(plan, { ...nearest, position });
  if (why !== null) return blocked(named, why);
  return draft(plan, named, put(`${nearest.name} ${words}`, ["panels", index], { position }));
}

/** A white board of a common size, upright, at arm's length beside the face (common practice, no source). */
const BOARD = { width: 1.2, height: 2.4, reflectance: 0.85 } as const;
const BOARD_AWAY_M = 0.8;

/** Beside the face as the nose points: on the side that the main light leaves in the shade. */
function whitePanel(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const r = sitter.staged.headRotation;
  const toLeft = main !== null && main.azimuth < 0 ? 1 : -1;
  const level = Math.hypot(r[1], r[4]);
  const [ax, ay] = [(toLeft * r[1]) / level, (toLeft * r[4]) / level];
  const side = pictureSide(plan, ax, ay);
  const named = { key: "panel", cost: "panel", does: "white panel in", side } as const;
  const bearing = (Math.atan2(-ax, -ay) * 180) / Math.PI;
  const position: Vec3 = [
    sitter.head[0] + BOARD_AWAY_M * ax,
    sitter.head[1] + BOARD_AWAY_M * ay,
    BOARD.height / 2,
  ];
  if (plan.room !== null && plan.room.height < BOARD.height)
    return blocked(named, "no room: the ceiling is too low for a panel");
  const [along, across] = bearingVector(bearing + 90, 0);
  for (const end of [-BOARD.width / 2, 0, BOARD.width / 2]) {
    const wall = wallBefore(plan, [position[0] + end * along, position[1] + end * across, position[2]]);
    if (wall !== null) return blocked(named, `no room for a panel: ${wall}`);
  }
  const direction = { bearing, tilt: 0 };
  const touched = touchedBy(plan, {
    ...BOARD,
    name: "",
    position,
    direction,
    roll: 0,
    transmittance: 0,
    pinned: false,
  });
  if (touched !== null) return blocked(named, touched);
  return draft(plan, named, {
    kind: "add",
    label: "white panel on the shadow side",
    list: "panels",
    item: { name: "white panel", position, direction, ...BOARD },
  });
}

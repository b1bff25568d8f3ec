/** A panel by an amount: nearer to the head, and one that comes as an addition. */
import { bearingVector, type Panel, type Plan, type Vec3 } from "../plan/index.ts";
import { touchedBy, wallBefore } from "./obstacles.ts";
import { type Made, made, put, refused } from "./step-made.ts";
import type { Sitter } from "./turning.ts";

/** Level toward the head; it stays turned as it is. */
export function panelNearerBy(
  plan: Plan,
  sitter: Sitter,
  index: number,
  nearer_m: number,
  label: string,
): Made {
  const panel = plan.panels[index];
  if (panel.pinned) return refused(`${panel.name} is pinned`);
  const [x, y, z] = panel.position;
  const [dx, dy] = [sitter.head[0] - x, sitter.head[1] - y];
  const far = Math.hypot(dx, dy);
  if (far <= nearer_m) return refused("it is as near as it goes");
  const position: Vec3 = [x + (nearer_m * dx) / far, y + (nearer_m * dy) / far, z];
  const why = wallBefore(plan, position) ?? touchedBy(plan, { ...panel, position }, panel);
  if (why !== null) return refused(why);
  return made(plan, put(label, ["panels", index], { position }));
}

/** Boards of a common size, upright (common practice, no source). */
const BOARD = { width: 1.2, height: 2.4 } as const;
export const BOARDS = {
  white: { ...BOARD, reflectance: 0.85 },
  black: { ...BOARD, reflectance: 0.04 },
} as const;
export type BoardTone = keyof typeof BOARDS;

/** At arm's length beside the face (common practice, no source). */
export const BOARD_AWAY_M = 0.8;

/** Beside the face as the nose points, upright and turned to it, so far from the middle of the head. */
export function boardAt(
  plan: Plan,
  sitter: Sitter,
  tone: BoardTone,
  side: "left" | "right",
  away_m: number,
  label: string,
): Made {
  const board = BOARDS[tone];
  const [ax, ay] = besideNose(sitter, side);
  const bearing = (Math.atan2(-ax, -ay) * 180) / Math.PI;
  const position: Vec3 = [sitter.head[0] + away_m * ax, sitter.head[1] + away_m * ay, board.height / 2];
  if (plan.room !== null && plan.room.height < board.height)
    return refused("no room: the ceiling is too low for a panel");
  const [along, across] = bearingVector(bearing + 90, 0);
  for (const end of [-board.width / 2, 0, board.width / 2]) {
    const wall = wallBefore(plan, [position[0] + end * along, position[1] + end * across, position[2]]);
    if (wall !== null) return refused(`no room for a panel: ${wall}`);
  }
  const place = { position, direction: { bearing, tilt: 0 } };
  const touched = touchedBy(plan, { ...board, ...place, roll: 0 });
  if (touched !== null) return refused(touched);
  const item = { name: nameFor(plan, `${tone} panel`), ...place, ...board };
  return made(plan, { kind: "add", label, list: "panels", item });
}

/** Names are unique in a plan. */
function nameFor({ panels }: Plan, name: string): string {
  const taken = (wanted: string) => panels.some((panel: Panel) => panel.name === wanted);
  if (!taken(name)) return name;
  let n = 2;
  while (taken(`${name} ${n}`)) n++;
  return `${name} ${n}`;
}

/** Level, a right angle from where the nose points. */
export function besideNose({ staged }: Sitter, side: "left" | "right"): readonly [number, number] {
  const r = staged.headRotation;
  const way = side === "left" ? 1 : -1;
  const level = Math.hypot(r[1], r[4]);
  return [(way * r[1]) / level, (way * r[4]) / level];
}

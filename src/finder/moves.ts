/** Eight small moves from a plan as it stands, each on the side of the picture to which it goes. */
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { cameraRound } from "./camera-moves.ts";
import { lightRound, lightUp } from "./light-moves.ts";
import { mainLight } from "./main-light.ts";
import { blocked, type Draft, type Move, type Side } from "./move.ts";
import { panelIn } from "./panel-move.ts";
import { chin, headTurn, stepBack } from "./person-moves.ts";
import { type Sitter, sitterIn } from "./turning.ts";

/** Shape   always the same eight, four a side, row by row from the top left; `edit` is null and `why` says it where one cannot be made
 * Units   steps in whole numbers of the tape in use */
export function listMoves(plan: Plan, person: number, units: LengthUnits): Move[] {
  const sitter = sitterIn(plan, person);
  return roundThePrint(sitter === null ? nobodyThere() : draftsFor(plan, sitter, units));
}

type Drafts = Readonly<Record<"round" | "up" | "left" | "right" | "head" | "panel" | "back" | "chin", Draft>>;

function draftsFor(plan: Plan, sitter: Sitter, units: LengthUnits): Drafts {
  const main = mainLight(plan, sitter);
  return {
    round: lightRound(plan, sitter, main),
    up: lightUp(plan, main, units),
    left: cameraRound(plan, sitter, "left"),
    right: cameraRound(plan, sitter, "right"),
    head: headTurn(plan, sitter, main),
    panel: panelIn(plan, sitter, main, units),
    back: stepBack(plan, sitter, units),
    chin: chin(plan, sitter, main),
  };
}

function nobodyThere(): Drafts {
  const none = (key: Draft["key"], does: string) =>
    blocked({ key, cost: "person", does, side: null }, "nobody is in the plan");
  return {
    round: none("light-round", "light round"),
    up: none("light-up", "light up"),
    left: none("camera-left", "camera left"),
    right: none("camera-right", "camera right"),
    head: none("head", "head turns"),
    panel: none("panel", "panel in"),
    back: none("back", "step back"),
    chin: none("chin", "chin"),
  };
}

/** Lights on top, cameras under them, then what has a side, then chin and step back where there is room. */
function roundThePrint({ round, up, left, right, head, panel, back, chin }: Drafts): Move[] {
  const roundSide = round.side ?? "left";
  const headSide = head.side ?? "left";
  const panelSide = panel.side ?? other(headSide);
  const at = (draft: Draft, side: Side, row: number): Move => ({ ...draft, side, row });
  const lower =
    headSide === panelSide
      ? [
          at(head, headSide, 2),
          at(panel, headSide, 3),
          at(back, other(headSide), 2),
          at(chin, other(headSide), 3),
        ]
      : [at(head, headSide, 2), at(panel, panelSide, 2), at(back, panelSide, 3), at(chin, headSide, 3)];
  const all = [
    at(round, roundSide, 0),
    at(up, other(roundSide), 0),
    at(left, "left", 1),
    at(right, "right", 1),
  ];
  return [...all, ...lower].sort((a, b) => a.row - b.row || (a.side < b.side ? -1 : 1));
}

function other(side: Side): Side {
  return side === "left" ? "right" : "left";
}

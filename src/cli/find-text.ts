/** What a search found, in words, for people at a terminal: what is met by what margin, what is not and why. */
import type { FindAnswer, HoldLimit, HoldZone, SetUp, Wish, WishMet } from "../finder/index.ts";
import { type Brief, directionOf, type Light, type Plan, writePower } from "../plan/index.ts";
import { notCalibratedWords, patternWord } from "../reading/index.ts";
import { formatFStops } from "../units/index.ts";

const WISH_WORDS: Readonly<Record<Wish, string>> = {
  pattern: "pattern",
  litSide: "lit side",
  side: "to the camera",
  ratioStops: "ratio",
  shadowEdgeMillimetres: "shadow edge",
  backgroundStops: "background",
  fNumber: "aperture",
  headroomStops: "headroom",
  catchlight: "catchlight",
  azimuth: "light round",
  elevation: "light up",
  spreadStops: "spread",
  crop: "crop",
  frame: "frame",
  clearance: "clearance",
  power: "power",
};
const LABEL = Math.max(...Object.values(WISH_WORDS).map((word) => word.length));

export function findText(plan: Plan, answer: FindAnswer): string {
  const { setUps } = answer;
  const lines = [plan.title, "", verdict(answer)];
  setUps.forEach((setUp, i) => {
    lines.push("", ...setUpLines(setUp, i + 1, answer.isMet));
  });
  lines.push(
    "",
    `${answer.tried.toLocaleString("en")} set-ups tried by the fast way; ${setUps.length === 1 ? "this one is" : "these are"} traced in full.`,
  );
  const guessed = notCalibratedWords(setUps[0]?.plan ?? plan);
  if (guessed !== null) lines.push(guessed);
  return `${lines.join("\n")}\n`;
}

function verdict({ setUps, relax }: FindAnswer): string {
  const met = setUps.filter((setUp) => setUp.isMet).length;
  if (setUps.length === 0) return "Nothing can be built: no light finds a place.";
  const all = met === 1 ? "One set-up meets" : `${met} set-ups meet`;
  if (met > 0) return `${all} the brief${met < setUps.length ? "; the rest come near" : ""}.`;
  const help = relax === null ? "" : ` What would help most: ${relax.words}.`;
  return `Nothing meets the brief; nearest first.${help}`;
}

function setUpLines(setUp: SetUp, number: number, othersMeet: boolean): string[] {
  const { wishes, plan, hold } = setUp;
  const missed = wishes.filter((wish) => !wish.isMet);
  const lines = [`${number}  ${setUp.title}${othersMeet && !setUp.isMet ? ": does not meet the brief" : ""}`];
  for (const wish of [...missed, ...wishes.filter((wish) => wish.isMet)]) lines.push(...wishLines(wish));
  lines.push(...plan.lights.filter((light) => light.on).map((light) => lightLine(light, plan.brief)));
  for (const panel of plan.panels) lines.push(`   ${panel.name} at ${place(panel.position)}`);
  lines.push(cameraLine(plan));
  if (hold !== null) lines.push(holdLine(hold, plan));
  return lines;
}

function wishLines({ wish, isMet, asked, got, marginWords, why }: WishMet): string[] {
  const state = isMet ? "met    " : "not met";
  const spare = marginWords === "" ? "" : isMet ? `, ${marginWords} to spare` : `, misses by ${marginWords}`;
  // yes or no, and yes: what was asked is what is there
  const wanted = asked === "" || (isMet && marginWords === "") ? "" : ` (asked: ${asked})`;
  const line = `   ${state}  ${WISH_WORDS[wish].padEnd(LABEL)}  ${got}${wanted}${spare}`;
  return why === null ? [line] : [line, `${" ".repeat(14 + LABEL)}${why}`];
}

function lightLine(light: Light, brief: Brief | null): string {
  const { name, position, direction, output, dial } = light;
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const full = "wattSeconds" in output ? output.wattSeconds : null;
  const power = "stopsDown" in output ? `, power ${writePower(output.stopsDown, dial, full)}` : "";
  const tilt = Math.round(tilt_deg);
  const aim = `bearing ${Math.round(bearing_deg)}°, ${tilt === 0 ? "level" : `${Math.abs(tilt)}° ${tilt < 0 ? "down" : "up"}`}`;
  return `   ${name}${frontWords(light, brief)} at ${place(position)}, ${aim}${power}`;
}

/** Which of the fronts on hand it has, where the gear lists any. */
function frontWords({ face, name }: Light, brief: Brief | null): string {
  const wanted = JSON.stringify(face);
  for (const head of brief?.gear?.lights ?? [])
    for (const front of head.fronts)
      if (name.startsWith(head.name) && JSON.stringify(front.face) === wanted) return ` with ${front.name}`;
  return "";
}

function cameraLine({ camera }: Plan): string {
  return `   camera at ${place(camera.position)}, ${camera.focalLength} mm, ${formatFStops(camera.fNumber)}`;
}

/** From the left wall, from the near wall and up: as a plan counts. */
function place([x, y, z]: Readonly<Plan["camera"]["position"]>): string {
  return `x ${x.toFixed(2)}, y ${y.toFixed(2)}, ${z.toFixed(2)} m up`;
}

function holdLine({ person, circle, sides, turn, tip }: HoldZone, { people }: Plan): string {
  const who = people[person]?.name ?? "the sitter";
  const ways = sides.map((s) => `${s.centimetres} cm ${s.side} (${limitWords(s.limit)})`).join(", ");
  const turns = `turn ${span(turn.least, turn.most)}, chin ${span(tip.least, tip.most)}`;
  return `   ${who} may drift ${ways}; the largest circle has ${Math.round(100 * circle.radius_m)} cm; ${turns}`;
}

const span = (least: number, most: number) =>
  `${least < 0 ? "−" : ""}${Math.abs(Math.round(least))}° to +${Math.round(most)}°`;

function limitWords(limit: HoldLimit): string {
  switch (limit.by) {
    case "pattern":
      return `then ${patternWord(limit.pattern)}`;
    case "exposure":
    case "ratio":
    case "headroom":
      return limit.by;
    case "wall":
    case "thing":
      return limit.name;
    case "reach":
      return "as far as was looked";
  }
}

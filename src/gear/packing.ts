/** What a plan needs in the van, with weights: from the shelf where it has it, else as the plan tells it. */
import type { Backdrop, Light, Panel, Plan, Reflectance } from "../plan/index.ts";
import { formatLength, formatWeight, type LengthUnits } from "../units/index.ts";
import { bodyFor, lensFor } from "./can-camera.ts";
import { headFor, isSameFace, modifierFor } from "./can-heads.ts";
import {
  KINDS,
  type Kind,
  type Piece,
  type Shelf,
  type ShelfPanel,
  type ShelfPaper,
  type ShelfStand,
} from "./schema.ts";
import { frontName } from "./words.ts";

export interface PackingLine {
  readonly kind: Kind;
  readonly name: string;
  readonly count: number;
  /** of one, kg; null where it is not weighed */
  readonly mass: number | null;
  /** the weight is that of its kind, not of this very thing */
  readonly isTypical: boolean;
  /** what of the plan it is for; nobody's where it always comes along */
  readonly owners: readonly string[];
  /** null where nothing like it is on the shelf */
  readonly onShelf: number | null;
}

export interface PackingList {
  /** in the order in which a van is packed, kind after kind */
  readonly lines: readonly PackingLine[];
  readonly total_kg: number;
  /** how many things are not weighed: the total is at least that */
  readonly unweighed: number;
  /** what is to be found before leaving, in words */
  readonly missing: readonly string[];
}

/** The list of a plan. Heads and modifiers go by the names that the plan gives them, else by watt-seconds and front; panels and paper by name or
 * size; the lens by focal length; bags and counterweights by what the plan puts on its stands.
 * Errors  none: what is not on the shelf is listed by what the plan knows of it */
export function packingList(plan: Plan, shelf: Shelf, units: LengthUnits): PackingList {
  const needs = [
    ...plan.lights.flatMap((light) => needsOfLight(light, shelf, units)),
    ...plan.panels.flatMap((panel) => needsOfPanel(panel, shelf, units)),
    ...(plan.backdrop?.kind === "paper" ? [needOfPaper(plan.backdrop, shelf, units)] : []),
    ...needsOfCamera(plan, shelf),
    ...ballast(plan, units),
    ...shelf.others.map((piece): Need => ({ kind: "others", piece, owner: null, count: piece.count })),
  ];
  const lines = KINDS.flatMap((kind) => joined(needs.filter((need) => need.kind === kind)));
  const weighed = lines.filter(({ mass }) => mass !== null);
  return {
    lines,
    total_kg: weighed.reduce((sum, { count, mass }) => sum + count * (mass ?? 0), 0),
    unweighed: lines.reduce((sum, { count, mass }) => sum + (mass === null ? count : 0), 0),
    missing: lines.flatMap(missingWords),
  };
}

/** "38.4 kg", "at least 38.4 kg: 2 of them are not weighed" */
export function totalWords({ total_kg, unweighed }: PackingList, units: LengthUnits): string {
  const total = formatWeight(total_kg, units, "sum");
  if (unweighed === 0) return total;
  return `at least ${total}: ${unweighed} of them ${unweighed === 1 ? "is" : "are"} not weighed`;
}

interface Need {
  readonly kind: Kind;
  readonly owner: string | null;
  readonly count: number;
  /** from the shelf; else what the plan knows of it */
  readonly piece: Piece | { readonly name: string; readonly mass: number | null };
}

const unknown = (name: string, mass: number | null = null) => ({ name, mass });

function needsOfLight(light: Light, shelf: Shelf, units: LengthUnits): Need[] {
  const { face, head, name: owner, support } = light;
  const one = { owner, count: 1 };
  const named = headFor(light, shelf.heads);
  const on = modifierFor(light, shelf.modifiers);
  const isBare = named !== null && head?.modifier === undefined && isSameFace(named.bare.face, face);
  const front = head?.modifier ?? frontName(face, units);
  // a load that the plan has weighed is head and front together
  const load = support?.load ?? null;
  if (!named && !on && load !== null)
    return [
      { ...one, kind: "heads", piece: unknown(`${headName(light)} with ${front}`, load) },
      ...needsOfStand(light, shelf, units),
    ];
  // what is left of it where one of the two is known by itself
  const rest = (other: number | null | undefined) =>
    load === null || !other || load <= other ? null : Number((load - other).toFixed(3));
  return [
    { ...one, kind: "heads", piece: named ?? unknown(headName(light), rest(on?.mass)) },
    ...(isBare
      ? []
      : [{ ...one, kind: "modifiers" as const, piece: on ?? unknown(front, rest(named?.mass)) }]),
    ...needsOfStand(light, shelf, units),
  ];
}

function headName({ head, name, output }: Light): string {
  if (head?.name !== undefined) return head.name;
  return "wattSeconds" in output
    ? `head of ${Number(output.wattSeconds.toPrecision(4))} Ws`
    : `head of ${name}`;
}

/** Where the plan names none, the first of the shelf without an arm that reaches so high. */
function needsOfStand(
  { name: owner, position, support }: Pick<Light, "name" | "position" | "support">,
  shelf: Shelf,
  units: LengthUnits,
): Need[] {
  const one = { kind: "stands", owner, count: 1 } as const;
  if (support === null) {
    const reaching = ({ arm, highest, lowest }: ShelfStand) =>
      arm === null && lowest <= position[2] && position[2] <= highest;
    return [
      {
        ...one,
        piece:
          shelf.stands.find(reaching) ?? unknown(`stand that reaches ${formatLength(position[2], units)}`),
      },
    ];
  }
  const piece = shelf.stands.find(({ name }) => name === support.name);
  if (piece === undefined)
    return [{ ...one, piece: unknown(support.name, support.mass + (support.arm?.mass ?? 0)) }];
  return [{ ...one, piece: withArm(piece) }];
}

/** On the shelf a stand and its arm are weighed apart, as the sums need them; both are carried. */
function withArm(stand: ShelfStand): ShelfStand {
  if (stand.arm === null || stand.mass === null) return stand;
  return { ...stand, mass: stand.mass + stand.arm.mass };
}

function needsOfPanel(panel: Panel, shelf: Shelf, units: LengthUnits): Need[] {
  const { height, name: owner, support, width } = panel;
  const alike = ({ height: h, reflectance, width: w }: ShelfPanel) =>
    near(w, width) && near(h, height) && isNearTone(reflectance, panel.reflectance);
  const piece = shelf.panels.find(({ name }) => name === owner) ?? shelf.panels.find(alike);
  const own: Need = {
    kind: "panels",
    owner,
    count: 1,
    piece: piece ?? unknown(owner, support?.load ?? null),
  };
  // a panel may stand by itself: only a stand that the plan names comes along
  return support === null ? [own] : [own, ...needsOfStand(panel, shelf, units)];
}

function needOfPaper({ reflectance, width }: Backdrop, shelf: Shelf, units: LengthUnits): Need {
  const fits = (paper: ShelfPaper) =>
    paper.width >= width - NEAR_M && isNearTone(paper.reflectance, reflectance);
  const narrowest = shelf.papers
    .filter(fits)
    .reduce<ShelfPaper | null>((best, paper) => (best && best.width <= paper.width ? best : paper), null);
  const piece = narrowest ?? unknown(`paper roll ${formatLength(width, units)} wide`);
  return { kind: "papers", owner: "backdrop", count: 1, piece };
}

function needsOfCamera(plan: Plan, shelf: Shelf): Need[] {
  const { focalLength, fNumber } = plan.camera;
  const lens = lensFor(plan, shelf);
  const opens = lens !== null && lens.widest <= fNumber * 1.01 ? lens : null;
  const one = { owner: "camera", count: 1 };
  return [
    { ...one, kind: "lenses", piece: opens ?? unknown(`lens of ${focalLength} mm`) },
    { ...one, kind: "bodies", piece: bodyFor(plan, shelf) ?? unknown("camera body") },
  ];
}

/** Bags and counterweights that the plan puts on stands, as weights: what they are filled with is anybody's. The shelf's own
 * stand is weighed without its counterweight. */
function ballast({ lights, panels }: Plan, units: LengthUnits): Need[] {
  const held = [...lights, ...panels].flatMap(({ name, support }) =>
    support === null ? [] : [{ name, support }],
  );
  return held.flatMap(({ name: owner, support: { arm, bag } }): Need[] => {
    const counter = arm?.counterweight ?? 0;
    const weight = (what: string, mass: number): Need => ({
      kind: "others",
      owner,
      count: 1,
      piece: unknown(`${what}, ${formatWeight(mass, units)}`, mass),
    });
    return [
      ...(bag > 0 ? [weight("bag", bag)] : []),
      ...(counter > 0 ? [weight("counterweight", counter)] : []),
    ];
  });
}

const NEAR_M = 0.02;
const near = (a: number, b: number) => Math.abs(a - b) <= NEAR_M;
/** White, grey and black are told apart; shades of grey hardly. */
const NEAR_TONE = 0.07;

function isNearTone(a: Reflectance, b: Reflectance): boolean {
  const mean = (r: Reflectance) => (typeof r === "number" ? r : (r[0] + r[1] + r[2]) / 3);
  return Math.abs(mean(a) - mean(b)) <= NEAR_TONE;
}

/** The same thing once, with how many and for what. */
function joined(needs: readonly Need[]): PackingLine[] {
  const lines = new Map<string, PackingLine>();
  for (const { count, kind, owner, piece } of needs) {
    const shelfPiece = "count" in piece ? piece : null;
    const before = lines.get(piece.name);
    lines.set(piece.name, {
      kind,
      name: piece.name,
      count: (before?.count ?? 0) + count,
      mass: piece.mass,
      isTypical: shelfPiece?.isTypical ?? false,
      owners: [...(before?.owners ?? []), ...(owner === null ? [] : [owner])],
      onShelf: shelfPiece?.count ?? null,
    });
  }
  return [...lines.values()];
}

function missingWords({ count, kind, name, onShelf }: PackingLine): string[] {
  if (kind === "others" && onShelf === null) return [];
  if (onShelf === null) return [`${name}: none is on the shelf`];
  return count > onShelf ? [`${name}: ${count} are needed, ${onShelf} on the shelf`] : [];
}

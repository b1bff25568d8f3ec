/** The shelf as gear on hand for a search of set-ups. */
import type { Gear, GearFront, GearLight, GearPanel } from "../plan/index.ts";
import type { Piece, Shelf, ShelfHead, ShelfModifier, ShelfPanel, ShelfStand } from "./schema.ts";

/** As many of each as a brief takes. */
const MOST = 8;
const MOST_FRONTS = 12;

/** Every piece by itself: two heads of one kind are two lights. Heads in the shelf's order, each with everything that can be
 * put on it and a stand while there are any; heads beyond the stands have the search's ordinary one. What a brief
 * cannot take in (more than 8 heads or panels, more than 12 fronts) is left out from the end. */
export function briefGear(shelf: Shelf): Gear {
  const stands = pieces(shelf.stands);
  const heads = pieces(shelf.heads).slice(0, MOST);
  const fronts = shelf.modifiers.map(gearFront).slice(0, MOST_FRONTS - 1);
  return {
    lights: heads.map(({ name, piece }, i) =>
      gearLight(name, piece, [...fronts, bareFront(piece)], stands[i]?.piece ?? null),
    ),
    panels: pieces(shelf.panels)
      .slice(0, MOST)
      .map(({ name, piece }) => gearPanel(name, piece)),
  };
}

export function gearPanel(name: string, { height, reflectance, width }: ShelfPanel): GearPanel {
  return { name, width, height, reflectance };
}

export function gearFront({ beam, face, loss, name }: ShelfModifier): GearFront {
  return { name, face, beam, stopsLost: loss.stops };
}

function bareFront({ bare: { beam, face } }: ShelfHead): GearFront {
  return { name: "bare head", face, beam, stopsLost: 0 };
}

export function gearLight(
  name: string,
  { dial, full, kelvin }: ShelfHead,
  fronts: readonly GearFront[],
  stand: ShelfStand | null,
): GearLight {
  return {
    name,
    // bare, all that the tube gives leaves; what a front keeps back is its own loss
    full: "wattSeconds" in full ? { ...full, efficiency: 1 } : full,
    dial,
    kelvin,
    fronts: [...fronts],
    stand:
      stand === null
        ? { lowest: 0.6, highest: 2.8, boom: 0 }
        : { lowest: stand.lowest, highest: stand.highest, boom: Math.min(4, stand.arm?.reach ?? 0) },
  };
}

/** One by one: "head", "head no. 2". */
function pieces<P extends Piece>(kind: readonly P[]): { readonly name: string; readonly piece: P }[] {
  return kind.flatMap((piece) =>
    Array.from({ length: piece.count }, (_, i) => ({
      name: i === 0 ? piece.name : `${piece.name.slice(0, 70)} no. ${i + 1}`,
      piece,
    })),
  );
}

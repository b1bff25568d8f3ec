/** Faces in a picture: looked for as it is; where none is sure, with lifted shadows too and as if one face filled it all. */
import { type FoundBox, isSameFace, oneEach, readBoxes } from "./find-boxes.ts";
import { AS_IT_IS, type Halves, halvesOf, type Square, type ToneLift, writeCrop } from "./find-crop.ts";
import { findMesh, type Mesh } from "./find-mesh.ts";
import { type FaceNets, MESH_POINTS, NET_SIDE } from "./find-nets.ts";
import type { FaceFinder, FoundFace, LinearPicture } from "./types.ts";

/** The networks' own scores: a box worth a look, a mesh worth telling, and one that leaves no doubt. */
const LEAST = { box: 0.35, mesh: 0.5, sure: 0.95 } as const;
/** What brings up faces in deep shadow. */
const LIFTED: ToneLift = { gain: 1, gamma: 0.4 };
/** Side of what is looked at over the picture's longer side. Cut tightly, a face is seen as a whole only with air round it:
 * that look comes first, and the closer one adds smaller faces alone. */
const LOOKS = [2, 1] as const;
/** Side of a face's square over the picture's longer side, where the face fills it from edge to edge. */
const FILLED = [1.5, 1.25] as const;
/** A face whose square is a smaller share of the longer side than this may have smaller ones beside it. */
const SMALL = 0.3;
/** Parts of a picture that is looked at closely: side over the longer side, and how far their middles lie apart. */
const PART = { side: 0.5, step: 0.35, least: 800 } as const;

interface LiftedMesh extends Mesh {
  readonly lift: ToneLift;
}

export function makeFaceFinder(nets: FaceNets): FaceFinder {
  return { find: (picture) => findFaces(nets, picture) };
}

async function findFaces(nets: FaceNets, picture: LinearPicture): Promise<FoundFace[]> {
  const halves = halvesOf(picture);
  const { width, height } = picture;
  const long = Math.max(width, height);
  const middle = (share: number): Square => ({ x: width / 2, y: height / 2, side: share * long, turn: 0 });
  const wide = LOOKS.map(middle);
  const filled = FILLED.map(middle);
  let found = await look(nets, halves, wide, [], AS_IT_IS);
  if (found.every((mesh) => mesh.square.side < SMALL * long) && long >= PART.least)
    found = oneEach([...found, ...(await look(nets, halves, partsOf(width, height), [], AS_IT_IS))]);
  if (!found.some((mesh) => mesh.score >= LEAST.sure)) {
    const again = await look(nets, halves, [], filled, AS_IT_IS);
    const lifted = await look(nets, halves, wide, filled, LIFTED);
    found = oneEach([...found, ...again, ...lifted]);
  }
  return found.sort((a, b) => b.square.side - a.square.side).map(faceOf);
}

/** Squares that cover the picture, each reaching into its neighbours. */
function partsOf(width: number, height: number): Square[] {
  const long = Math.max(width, height);
  const middles = (length: number) => {
    const count = Math.max(1, Math.ceil((length / long - PART.side) / PART.step) + 1);
    return Array.from({ length: count }, (_, i) =>
      count === 1 ? length / 2 : long * (PART.side / 2) + (i * (length - PART.side * long)) / (count - 1),
    );
  };
  return middles(height).flatMap((y) =>
    middles(width).map((x) => ({ x, y, side: PART.side * long, turn: 0 })),
  );
}

/** The meshes of faces that are seen in the squares `looked` at, and of those that would fill the squares `guessed`. */
async function look(
  nets: FaceNets,
  halves: Halves,
  looked: readonly Square[],
  guessed: readonly Square[],
  lift: ToneLift,
): Promise<LiftedMesh[]> {
  const boxes: FoundBox[] = [];
  for (const square of looked) {
    const more = oneEach(await boxesIn(nets, halves, square, lift));
    boxes.push(...more.filter((box) => boxes.every((other) => !isSameFace(other, box))));
  }
  const found: LiftedMesh[] = [];
  for (const square of [...boxes.map((box) => box.square), ...guessed]) {
    const mesh = await findMesh(nets, halves, square, lift, LEAST.mesh);
    if (mesh) found.push({ ...mesh, lift });
  }
  return oneEach(found);
}

async function boxesIn(nets: FaceNets, halves: Halves, square: Square, lift: ToneLift): Promise<FoundBox[]> {
  const side = NET_SIDE.faces;
  const rgb = new Float32Array(3 * side * side);
  writeCrop(rgb, 0, halves, square, side, lift);
  return readBoxes(await nets.faces(rgb), square, LEAST.box);
}

function faceOf({ points, score, lift }: LiftedMesh): FoundFace {
  const low = [Infinity, Infinity];
  const high = [-Infinity, -Infinity];
  for (let i = 0; i < MESH_POINTS; i++)
    for (let k = 0; k < 2; k++) {
      low[k] = Math.min(low[k], points[3 * i + k]);
      high[k] = Math.max(high[k], points[3 * i + k]);
    }
  return {
    points: Float32Array.from(points),
    box: { left: low[0], top: low[1], width: high[0] - low[0], height: high[1] - low[1] },
    score,
    isLifted: lift === LIFTED,
  };
}

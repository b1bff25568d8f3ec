/** The three graphs as the finder asks for them; the same in a browser's worker, where files come by another way. */
import { type GraphModel, loadGraphModel } from "@tensorflow/tfjs-converter";
import * as tf from "@tensorflow/tfjs-core";
import { FACE_ROW, type FaceNets, MESH_POINTS, NET_SIDE } from "../testframe/index.ts";

/** A graph model as TensorFlow.js writes it. */
export interface ModelFiles {
  readonly json: {
    readonly modelTopology: object;
    readonly weightsManifest: readonly { readonly weights: tf.io.WeightsManifestEntry[] }[];
  };
  readonly weights: ArrayBuffer;
}

const OFFSETS = FACE_ROW - 1;

export async function netsOf(faces: ModelFiles, mesh: ModelFiles, eyes: ModelFiles): Promise<FaceNets> {
  const [faceModel, meshModel, eyeModel] = await Promise.all([faces, mesh, eyes].map(open));
  return {
    faces: (rgb) =>
      // trained on -1 to 1, where the others take 0 to 1
      run(
        faceModel,
        rgb.map((code) => 2 * code - 1),
        1,
        NET_SIDE.faces,
        async (outputs) => {
          // two grids of anchors, the finer one first: scores and offsets come apart
          const rows = (last: number) =>
            outputs.filter((o) => o.shape[2] === last).sort((a, b) => b.size - a.size);
          const scores = await Promise.all(rows(1).map((o) => o.data<"float32">()));
          const offsets = await Promise.all(rows(OFFSETS).map((o) => o.data<"float32">()));
          return joinRows(scores, offsets);
        },
      ),
    mesh: (rgb, count) =>
      run(meshModel, rgb, count, NET_SIDE.mesh, async (outputs) => {
        const ofWidth = (width: number) => outputs.find((o) => o.shape[1] === width)!.data<"float32">();
        return { points: await ofWidth(3 * MESH_POINTS), scores: await ofWidth(1) };
      }),
    eyes: (rgb, count) =>
      run(eyeModel, rgb, count, NET_SIDE.eye, async ([output]) => output.data<"float32">()),
  };
}

function open({ json, weights }: ModelFiles): Promise<GraphModel> {
  return loadGraphModel({
    load: async () => ({
      modelTopology: json.modelTopology,
      weightSpecs: json.weightsManifest.flatMap((group) => group.weights),
      weightData: weights,
    }),
  });
}

async function run<T>(
  model: GraphModel,
  rgb: Float32Array,
  count: number,
  side: number,
  read: (outputs: tf.Tensor[]) => Promise<T>,
): Promise<T> {
  const input = tf.tensor4d(rgb, [count, side, side, 3]);
  const outputs = [model.execute(input)].flat() as tf.Tensor[];
  try {
    return await read(outputs);
  } finally {
    tf.dispose([input, outputs]);
  }
}

function joinRows(scores: readonly Float32Array[], offsets: readonly Float32Array[]): Float32Array {
  const count = scores.reduce((sum, part) => sum + part.length, 0);
  const rows = new Float32Array(count * FACE_ROW);
  let row = 0;
  scores.forEach((part, grid) => {
    for (let i = 0; i < part.length; i++, row++) {
      rows[row * FACE_ROW] = part[i];
      rows.set(offsets[grid].subarray(OFFSETS * i, OFFSETS * (i + 1)), row * FACE_ROW + 1);
    }
  });
  return rows;
}

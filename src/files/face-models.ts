/** The networks that find faces, run in Node: weights from assets/face-models, arithmetic by TensorFlow.js in WebAssembly.
 * One thread, so that the same picture gives the same bits. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join, sep } from "node:path";
import { setWasmPaths } from "@tensorflow/tfjs-backend-wasm";
import * as tf from "@tensorflow/tfjs-core";
import type { FaceNets } from "../testframe/index.ts";
import { type ModelFiles, netsOf } from "./face-models-nets.ts";

const FILES = { faces: "blazeface", mesh: "facemesh", eyes: "iris" } as const;

/** Errors  Error where the files are not there
 * @param root of the installed program */
export async function openFaceNets(root: string): Promise<FaceNets> {
  const wasm = createRequire(import.meta.url).resolve("@tensorflow/tfjs-backend-wasm");
  setWasmPaths(dirname(wasm) + sep);
  tf.env().set("WASM_HAS_MULTITHREAD_SUPPORT", false);
  await tf.setBackend("wasm");
  const read = async (name: string): Promise<ModelFiles> => {
    const file = join(root, "assets", "face-models", name);
    const [json, weights] = await Promise.all([readFile(`${file}.json`, "utf8"), readFile(`${file}.bin`)]);
    return { json: JSON.parse(json), weights: Uint8Array.from(weights).buffer };
  };
  return netsOf(await read(FILES.faces), await read(FILES.mesh), await read(FILES.eyes));
}

import { type FileRequest, pictureFile } from "./frame-file.ts";

self.addEventListener("message", (event: MessageEvent<FileRequest>) => {
  const file = pictureFile(event.data);
  self.postMessage(file, { transfer: [file.buffer as ArrayBuffer] });
});

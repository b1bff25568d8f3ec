// A process that reads as the name of what it is handed says: crashes, never ends, or tells how often it was asked.
let count = 0;
process.on("message", ({ source: { name } }) => {
  if (name === "crash") process.kill(process.pid, "SIGSEGV");
  else if (name === "hang") for (;;);
  else if (name === "refuse") process.send({ problem: "that is no photograph", cure: "take one" });
  else process.send({ result: { id: `${process.pid} ${++count}`, reading: null, preview: null } });
});
process.on("SIGINT", () => {});
process.send({ ready: true });

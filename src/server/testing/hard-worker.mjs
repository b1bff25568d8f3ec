// What a process for paired devices may be: quick, one that crashes, one that does not end.
process.on("message", ({ plan }) => {
  if (plan.title === "crash") process.kill(process.pid, "SIGSEGV");
  if (plan.title === "hang") for (;;);
  process.send({ meters: [{ name: `${process.pid} ${plan.title}` }] });
});
process.on("disconnect", () => process.exit());

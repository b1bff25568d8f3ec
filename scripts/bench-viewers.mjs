// Paired devices that look on, all in one process that costs little: when each saw which revision. Started by
// bench-sharing.mjs, which tells it when to look and when to go.
import { request } from "node:http";
import { constants, setPriority } from "node:os";

// they stand for machines of their own: what they take must not be taken from the one who drags
setPriority(constants.priority.PRIORITY_LOW);
const now_ms = () => performance.timeOrigin + performance.now();
let open = [];
let seen = [];

process.on("message", ({ look, workbench, leave }) => {
  if (look) {
    seen = look.cookies.map(() => []);
    open = look.cookies.map((cookie, i) =>
      follow(`${look.url}api/live`, { cookie }, (text) => {
        // the words come in the order in which they are written: the revision is among the first
        const revision = /^\{"kind":"plan","plan":\{"key":"[^"]*","title":"[^"]*","revision":(\d+)/.exec(
          text,
        )?.[1];
        if (revision !== undefined) seen[i].push([Number(revision), now_ms()]);
      }),
    );
  }
  if (workbench) {
    follow(`${workbench.url}api/news`, {}, (text) => {
      const news = JSON.parse(text);
      if (news.kind === "work") process.send({ kept: [news.revision, now_ms()] });
    });
  }
  if (leave) {
    for (const stream of open) stream.destroy();
    process.send({ seen });
  }
});
process.on("disconnect", () => process.exit());

function follow(url, headers, onData) {
  let rest = "";
  const asked = request(url, { headers, agent: false }, (answer) => {
    if (answer.statusCode !== 200) throw new Error(`${url} answered ${answer.statusCode}`);
    answer.setEncoding("utf8");
    answer.on("data", (chunk) => {
      const parts = (rest + chunk).split("\n\n");
      rest = parts.pop();
      for (const part of parts) {
        const data = part.indexOf("data: ");
        if (data >= 0) onData(part.slice(data + 6));
      }
    });
    answer.on("error", () => {}); // it was left
  });
  asked.on("error", () => {});
  asked.end();
  return asked;
}

/** Has the browser keep the page itself, so that it opens without network and without the server. Not before the page
 * has its own work done: the first visit comes first. */
export function keepPage(): void {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  const register = () => {
    // a browser that refuses (private windows do) still has the server
    navigator.serviceWorker.register("./sw.js").catch(() => undefined);
  };
  setTimeout(register, 3000);
}

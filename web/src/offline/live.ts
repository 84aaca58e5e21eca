const again_ms = 10000; // chosen: until another try when the server took nobody more, or is away
const together_ms = 700; // chosen: what is stored shortly after one another is looked at once

/** Calls when the server says that something was stored. While the page is hidden nothing is held open: a browser has six
 *  connections to a server for all its windows. Where nothing can be held open, whoever looks from time to time still does. */
export function whenStored(then: () => void): void {
  let source: EventSource | null = null;
  let again = 0;
  let soon = 0;
  const end = (): void => {
    source?.close();
    source = null;
    window.clearTimeout(again);
  };
  const begin = (): void => {
    end();
    if (document.visibilityState !== "visible" || !("EventSource" in window)) return;
    source = new EventSource("/api/changes");
    source.addEventListener("message", () => {
      window.clearTimeout(soon);
      soon = window.setTimeout(then, together_ms);
    });
    source.addEventListener("error", () => {
      end();
      again = window.setTimeout(begin, again_ms);
    });
  };
  document.addEventListener("visibilitychange", begin);
  begin();
}

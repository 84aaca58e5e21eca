import { type ForecastState, type Progress, Stopped, get, post, problemWords, remove } from "../api/client";
import { button, h } from "../ui/dom";
import { errorWords, sayError } from "../ui/say";
import { t } from "../words/words";

export type Grid = "draft" | "standard";
type What = { fill: string } | { change: unknown };

const look_ms = 700; // chosen

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Asks for a forecast and waits until it is ready, telling how far it is. Throws Stopped when somebody stopped it. */
async function forecastOf(
  what: What,
  grid: Grid,
  progress: (state: Progress) => void,
  signal: AbortSignal,
): Promise<ForecastState> {
  let state = await post<Progress>("/api/forecasts", { ...what, grid }, signal);
  while (state.state === "waiting" || state.state === "running") {
    progress(state);
    await pause(look_ms);
    state = await get<Progress>(`/api/forecasts/${state.id}`, signal);
  }
  if (state.state === "ready")
    return "forecast" in state ? (state as ForecastState) : get<ForecastState>(`/api/forecasts/${state.id}`, signal);
  if (state.state === "stopped") throw new Stopped(t.forecast.stopped);
  throw new Error(t.forecast.failedWhy(state.problems.map(problemWords).join(". ")));
}

/** How far a forecast is, in a bar and in words, and a button that stops it. */
export interface ForecastLine {
  bar: HTMLElement;
  words: HTMLElement;
  stop: HTMLElement;
  /** Asks for one and waits for it; throws as it fails. */
  run: (what: What, grid: Grid, over: AbortSignal) => Promise<ForecastState>;
  /** What became of it instead. */
  tell: (what: unknown) => void;
}

export function forecastLine(label: string): ForecastLine {
  const bar = h("progress", { max: 1, value: 0, "aria-label": label, hidden: true });
  const words = h("p", { class: "why", role: "status" });
  let running = "";
  const halt = (): void => void (running && remove(`/api/forecasts/${running}`).catch(sayError));
  const stop = button(t.forecast.stop, halt, "small");
  stop.hidden = true;
  const run: ForecastLine["run"] = async (what, grid, over) => {
    bar.hidden = false;
    const far = ({ id, share, doing }: Progress): void => {
      running = id;
      bar.value = share;
      words.textContent = t.forecast.working(Math.round(100 * share), doing);
      stop.hidden = grid === "draft"; // that is over before a hand is there
    };
    try {
      const state = await forecastOf(what, grid, far, over);
      const done = t.forecast.done(grid, state.forecast.solved.members);
      words.textContent = state.follows_readings ? `${done} ${t.forecast.follows}` : done;
      return state;
    } finally {
      bar.hidden = stop.hidden = true;
    }
  };
  const tell = (what: unknown): void => void (words.textContent = typeof what === "string" ? what : errorWords(what));
  return { bar, words, stop, run, tell };
}

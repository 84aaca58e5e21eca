import { type ForecastState, type Progress, get, post } from "../api/client";
import { t } from "../words/words";

export type Grid = "draft" | "standard";

const look_ms = 700; // chosen

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Asks for a forecast and waits until it is ready, telling how far it is. */
export async function forecastOf(
  what: { fill: string } | { change: unknown },
  grid: Grid,
  progress: (share: number, doing: string, id: string) => void,
  signal: AbortSignal,
): Promise<ForecastState> {
  let state = await post<Progress>("/api/forecasts", { ...what, grid }, signal);
  while (state.state === "waiting" || state.state === "running") {
    progress(state.share, state.doing, state.id);
    await pause(look_ms);
    state = await get<Progress>(`/api/forecasts/${state.id}`, signal);
  }
  if (state.state === "ready")
    return "forecast" in state ? (state as ForecastState) : get<ForecastState>(`/api/forecasts/${state.id}`, signal);
  const why = state.problems.map((one) => `${one.where} ${one.what}; ${one.mend}`).join(". ");
  throw new Error(state.state === "stopped" ? t.forecast.stopped : t.forecast.failedWhy(why));
}

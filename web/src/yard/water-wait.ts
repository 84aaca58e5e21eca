import { type Today, get, isLastSeen } from "../api/client";
import { currentSystem } from "../units/units";

const again_ms = 4000; // chosen: a programme takes some seconds, and many vessels share one
const away_ms = 20000; // chosen: as often as the page looks anyway

let timer = 0;

/** Asks again until the water programmes of all vessels are known, and has the yard drawn anew as each becomes known. */
export function awaitWater(seen: Today | null, redraw: () => void): void {
  window.clearTimeout(timer);
  if (!seen?.water_waits) return;
  const look = async (): Promise<void> => {
    if (!/^(#\/yard)?$/.test(location.hash)) return;
    const now = await get<Today>(`/api/today?units=${currentSystem()}`).catch(() => null);
    if (!now || now.water_waits === seen.water_waits) awaitWater(seen, redraw);
    else redraw();
  };
  timer = window.setTimeout(() => void look(), isLastSeen() ? away_ms : again_ms);
}

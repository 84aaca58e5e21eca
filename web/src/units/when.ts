import { t } from "../words/words";

const day_s = 86400;

export const daysBetween = (from_s: number, to_s: number): number => (to_s - from_s) / day_s;

/** "just now", "3 hours ago", "yesterday", "12 days ago" */
export function ago(at_s: number, now_s = Date.now() / 1000): string {
  const gone_s = now_s - at_s;
  if (gone_s < 90) return t.ago.justNow;
  if (gone_s < 3600) return t.ago.minutes(Math.round(gone_s / 60));
  if (gone_s < 1.5 * 3600) return t.ago.anHour;
  if (gone_s < day_s) return t.ago.hours(Math.round(gone_s / 3600));
  const days = Math.round(gone_s / day_s);
  return days === 1 ? t.ago.yesterday : t.ago.days(days);
}

/** How dates are written: in English as the browser's region does, else as the page's language. */
export const locale = (): string | undefined => (t.language === "en" ? undefined : t.language);
const format = (at_s: number, parts: Intl.DateTimeFormatOptions): string =>
  new Intl.DateTimeFormat(locale(), parts).format(new Date(at_s * 1000));
export const dateText = (at_s: number): string => format(at_s, { day: "numeric", month: "short", year: "numeric" });
export const timeText = (at_s: number): string =>
  format(at_s, { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
/** 2026-05-03 in this phone's zone, for date inputs. */
export function isoDay(at_s: number): string {
  const at = new Date(at_s * 1000);
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

import type { Site } from "../api/client";

/** What the site file, planning and the records allow of one amount, in SI. */
export type Range = Site["limits"][string];

/** A limit of the server's one table; a name that the server does not know is a fault of this page. */
export function limit(site: Site, name: string): Range {
  const found = site.limits[name];
  if (!found) throw new Error(`the server names no limit "${name}"`);
  return found;
}

/** Whether an amount lies within; NaN does not. */
export const holds = ({ least, least_itself, most }: Range, si: number): boolean =>
  (si > least || (least_itself && si === least)) && si <= most;

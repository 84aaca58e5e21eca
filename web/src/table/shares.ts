/** Shares of a blend, by feedstock; they always add up to 1. */
export type Shares = Record<string, number>;

/** The shares scaled to add up to 1; all the same when none is above 0. */
export function whole(shares: Shares): Shares {
  const sum = Object.values(shares).reduce((all, one) => all + one, 0);
  const count = Object.keys(shares).length;
  return Object.fromEntries(Object.entries(shares).map(([id, one]) => [id, sum > 0 ? one / sum : 1 / count]));
}

/** One share set to a value; the others keep their proportions and take up the rest. */
export function withShare(shares: Shares, id: string, value: number): Shares {
  const wanted = Math.min(Math.max(value, 0), 1);
  const others = Object.keys(shares).filter((one) => one !== id);
  if (!others.length) return { [id]: 1 };
  const left = whole(Object.fromEntries(others.map((one) => [one, shares[one]!])));
  return Object.fromEntries(Object.keys(shares).map((one) => [one, one === id ? wanted : left[one]! * (1 - wanted)]));
}

/** Whole percents that add up to 100: the largest rests are rounded up. */
export function percents(shares: Shares): Record<string, number> {
  const exact = Object.entries(whole(shares)).map(([id, one]) => ({
    id,
    floor: Math.floor(one * 100 + 1e-9),
    rest: (one * 100) % 1,
  }));
  let missing = 100 - exact.reduce((all, one) => all + one.floor, 0);
  for (const one of [...exact].sort((a, b) => b.rest - a.rest)) if (missing-- > 0) ++one.floor;
  return Object.fromEntries(exact.map((one) => [one.id, one.floor]));
}

const natural = new Intl.Collator(undefined, { numeric: true, sensitivity: "base" });

/** Names as a hand would sort them: ring 2 before ring 10. */
export const byName = (a: string, b: string): number => natural.compare(a, b);

import { type Words, en } from "./en";

/** The page's sentences in the language that is shown. English is the only one so far. */
export const t: Words = en;

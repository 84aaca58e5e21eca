import { type Words, en } from "./en";

export type Language = "en" | "de" | "es";

/** Each language by its own name. */
export const languages: readonly [code: Language, name: string][] = [
  ["en", "English"],
  ["de", "Deutsch"],
  ["es", "Español"],
];

/** The page's sentences in the language that is shown; English until another one was fetched. */
export let t: Words = en;

const files: Record<Exclude<Language, "en">, () => Promise<Words>> = {
  de: () => import("./de").then(({ de }) => de),
  es: () => import("./es").then(({ es }) => es),
};

/** Shows the page in a language from the next view on; English when it cannot be fetched. */
export async function useLanguage(code: string): Promise<void> {
  const file = files[code as keyof typeof files];
  t = file ? await file().catch(() => en) : en;
}

/** "core" in the shown language; a place that the maker named stays as it was named. */
export const placeWords = (place: string): string => t.places[place] ?? place;
/** "reading", "laboratory value" */
export const kindWords = (kind: string): string => t.kinds[kind] ?? kind;
export const eventWords = (kind: string, english: string | undefined): string => t.events[kind] ?? english ?? kind;
/** A caution of the server's, or several in a row, in the shown language, behind what it names before them; nothing in
 *  English, or where it is not known. */
export function cautionWords(english: string): string {
  const found = Object.entries(t.cautionTexts)
    .map(([begin, words]) => ({ at: english.indexOf(begin), words }))
    .filter(({ at }) => at >= 0)
    .sort((a, b) => a.at - b.at);
  return found.length ? english.slice(0, found[0]!.at) + found.map(({ words }) => words).join(" ") : "";
}

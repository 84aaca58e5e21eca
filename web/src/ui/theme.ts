import { chosenTheme } from "../state";

/** Light or dark as chosen; as the device is when nothing was. */
export function applyTheme(): void {
  const theme = chosenTheme();
  if (theme) document.documentElement.dataset["theme"] = theme;
  else delete document.documentElement.dataset["theme"];
}
